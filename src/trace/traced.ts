/** What was traced: parts with their places, and how refs, half turns and rows of parts follow from them. */
import { distance, type Homography, type Point } from '../base/index.ts'
import {
  frontPlace,
  outlineNamed,
  type PartKind,
  type PatternPackage,
  patternPackages,
  type Side,
} from '../board/index.ts'

/** A part on the board, mm and degrees as in a board file. */
export interface TracedPart {
  readonly id: string
  readonly kind: PartKind
  readonly side: Side
  readonly at: Point
  readonly rotationDeg: number
  readonly body: { readonly widthMm: number; readonly lengthMm: number; readonly heightMm: number }
  /** Of a memory. */
  readonly package?: PatternPackage | undefined
}

/** The name of a pattern’s package, or undefined. */
export const patternPackageNamed = (name: string | undefined): PatternPackage | undefined =>
  patternPackages.find((each) => each === name)

const LETTERS: Readonly<Record<PartKind, { readonly letter: string; readonly from: number }>> = {
  core: { letter: 'U', from: 1 },
  memory: { letter: 'U', from: 11 },
  'power-stage': { letter: 'S', from: 1 },
  inductor: { letter: 'L', from: 1 },
  capacitor: { letter: 'C', from: 1 },
  controller: { letter: 'U', from: 2 },
  connector: { letter: 'J', from: 1 },
  other: { letter: 'X', from: 1 },
}
const FIRST_BEHIND = 31
/** Controllers stop before the memories, and memories on the front before those behind: from there on numbers go higher. */
const HIGHER = 100
/** A package this near, seen through the board, stands behind another. */
const BEHIND_MM = 3

export interface Numbering {
  /** The memory that is U11; that in the upper left where left out. */
  readonly firstId?: string | undefined
}

/**
 * Refs of parts by their ids, in sequence: each kind clockwise about the core from the upper left, or from the first memory.
 * Memories are U11 onwards on the top, U31 onwards on the bottom, in the order of those that they stand behind.
 */
export function refsOf(parts: readonly TracedPart[], { firstId }: Numbering = {}): ReadonlyMap<string, string> {
  const middle = parts.find(({ kind }) => kind === 'core')?.at ?? centreOf(parts)
  const first = parts.find(({ id }) => id === firstId)
  const begin = first === undefined ? 0 : clockwiseFromUpperLeft(first.at, middle) - 1e-6
  const inOrder = parts.toSorted((a, b) => turnFrom(begin, a.at, middle) - turnFrom(begin, b.at, middle))
  const refs = new Map<string, string>()
  const taken = new Set<string>()
  for (const part of inOrder) {
    const behind = part.kind === 'memory' && part.side === 'bottom'
    const ref = freeRef(part.kind, behind, taken)
    taken.add(ref)
    refs.set(part.id, ref)
  }
  return refs
}

function freeRef(kind: PartKind, behind: boolean, taken: ReadonlySet<string>): string {
  const { letter, from } = LETTERS[kind]
  const start = behind ? FIRST_BEHIND : from
  const stop = kind === 'controller' ? LETTERS.memory.from : kind === 'memory' && !behind ? FIRST_BEHIND : Infinity
  for (let number = start; ; number++) {
    const ref = `${letter}${number < stop ? number : number + HIGHER}`
    if (!taken.has(ref)) return ref
  }
}

/** 0 in the upper left, growing clockwise to 2π. */
function clockwiseFromUpperLeft(at: Point, middle: Point): number {
  const turn = (3 * Math.PI) / 4 - Math.atan2(at.y - middle.y, at.x - middle.x)
  return turn < 0 ? turn + 2 * Math.PI : turn
}

function turnFrom(begin: number, at: Point, middle: Point): number {
  const turn = clockwiseFromUpperLeft(at, middle) - begin
  return turn < 0 ? turn + 2 * Math.PI : turn
}

function centreOf(parts: readonly TracedPart[]): Point {
  const count = Math.max(1, parts.length)
  return {
    x: parts.reduce((sum, { at }) => sum + at.x, 0) / count,
    y: parts.reduce((sum, { at }) => sum + at.y, 0) / count,
  }
}

/** The part on the other side that stands behind this one, or undefined. */
export const behindOf = (part: TracedPart, parts: readonly TracedPart[]): TracedPart | undefined =>
  parts.find((other) => other.kind === part.kind && other.side !== part.side && distance(other.at, part.at) < BEHIND_MM)

/**
 * An outline says nothing of half turns: of both the one in which the package has that end towards the core which it usually
 * has there. Common practice, no source.
 * @param rotationDeg as it was snapped; the half turn may be the other one
 */
export function turnedAsUsual(name: PatternPackage, at: Point, rotationDeg: number, core: Point): number {
  const radians = (rotationDeg * Math.PI) / 180
  const lastRowTowardsCore = Math.sin(radians) * (core.x - at.x) - Math.cos(radians) * (core.y - at.y) >= 0
  const towards = lastRowTowardsCore ? rotationDeg : rotationDeg + 180
  return ((frontPlace(outlineNamed(name), { at, rotationDeg: towards }).rotationDeg % 360) + 360) % 360
}

/** Middles of a row of equal parts, the first and the last of them given; at least two. */
export function arrayBetween(first: Point, last: Point, count: number): Point[] {
  const steps = Math.max(1, Math.round(count) - 1)
  return Array.from({ length: steps + 1 }, (_, i) => ({
    x: first.x + ((last.x - first.x) * i) / steps,
    y: first.y + ((last.y - first.y) * i) / steps,
  }))
}

export interface HolePair {
  readonly one: Point
  readonly other: Point
}

/**
 * From the board’s mm to those of a photo of its bottom, by two holes in both: the one similarity that turns the plane over. In
 * complex numbers z goes to a·conj(z) + b.
 * @returns undefined where the holes coincide
 */
export function turnedOver(onBoard: HolePair, onBottom: HolePair): Homography | undefined {
  const dx = onBoard.other.x - onBoard.one.x
  const dy = onBoard.other.y - onBoard.one.y
  const square = dx * dx + dy * dy
  if (!(square > 1)) return undefined
  const ex = onBottom.other.x - onBottom.one.x
  const ey = onBottom.other.y - onBottom.one.y
  // a = e / conj(d) = e·d / |d|²
  const re = (ex * dx - ey * dy) / square
  const im = (ex * dy + ey * dx) / square
  const { x, y } = onBoard.one
  return [re, im, onBottom.one.x - re * x - im * y, im, -re, onBottom.one.y - im * x + re * y, 0, 0, 1]
}
