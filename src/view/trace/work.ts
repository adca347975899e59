/** What has been traced so far, with undo and redo: parts, proposals that wait for a yes, the board's edge. Nothing of a screen. */
import type { Point } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { TracedPart } from '../../trace/index.ts'

export interface Proposal {
  readonly part: TracedPart
  /** How alike it is, 0 to 1. */
  readonly score: number
  readonly struckOut: boolean
}

/** Two lower corners of the tab with the contacts, in mm; the tab reaches from the lower edge down to them. */
export type Tab = readonly [Point, Point]

export interface Work {
  readonly parts: readonly TracedPart[]
  readonly proposals: readonly Proposal[]
  readonly selectedId: string | undefined
  /** The memory that is counted first. */
  readonly firstId: string | undefined
  readonly tab: Tab | undefined
  /** Two opposite corners of the board without its tab, in mm; those that the photo was straightened by where left out. */
  readonly edge: readonly [Point, Point] | undefined
}

export interface WorkHistory {
  readonly past: readonly Work[]
  readonly present: Work
  readonly future: readonly Work[]
}

const empty: Work = {
  parts: [],
  proposals: [],
  selectedId: undefined,
  firstId: undefined,
  tab: undefined,
  edge: undefined,
}
export const emptyHistory: WorkHistory = { past: [], present: empty, future: [] }

const MOST_STEPS = 200

export const changed = ({ past, present }: WorkHistory, next: Work): WorkHistory => ({
  past: [...past, present].slice(-MOST_STEPS),
  present: next,
  future: [],
})

/** Selecting is no step of undo. */
export const selected = (history: WorkHistory, id: string | undefined): WorkHistory => ({
  ...history,
  present: { ...history.present, selectedId: id },
})

export function undone({ past, present, future }: WorkHistory): WorkHistory {
  const before = past.at(-1)
  return before === undefined
    ? { past, present, future }
    : { past: past.slice(0, -1), present: before, future: [present, ...future] }
}

export function redone({ past, present, future }: WorkHistory): WorkHistory {
  const [next, ...rest] = future
  return next === undefined ? { past, present, future } : { past: [...past, present], present: next, future: rest }
}

export const withParts = (work: Work, parts: readonly TracedPart[]): Work => ({
  ...work,
  parts: [...work.parts, ...parts],
  selectedId: parts.at(-1)?.id ?? work.selectedId,
})

export const withoutPart = (work: Work, id: string): Work => ({
  ...work,
  parts: work.parts.filter((part) => part.id !== id),
  selectedId: undefined,
  firstId: work.firstId === id ? undefined : work.firstId,
})

export const withPartChanged = (work: Work, id: string, change: Partial<TracedPart>): Work => ({
  ...work,
  parts: work.parts.map((part) => (part.id === id ? { ...part, ...change } : part)),
})

export const withStrike = (work: Work, id: string): Work => ({
  ...work,
  proposals: work.proposals.map((each) => (each.part.id === id ? { ...each, struckOut: !each.struckOut } : each)),
})

/** Strikes out whatever is less alike, and takes the others back in. */
export const withStrikesBelow = (work: Work, score: number): Work => ({
  ...work,
  proposals: work.proposals.map((each) => ({ ...each, struckOut: each.score < score })),
})

/** Those that were not struck out become parts. */
export const withProposalsTaken = (work: Work): Work => ({
  ...work,
  parts: [...work.parts, ...work.proposals.filter(({ struckOut }) => !struckOut).map(({ part }) => part)],
  proposals: [],
})

/** The part of one side whose body holds a place, the smallest of several. */
export function partAt(parts: readonly TracedPart[], side: Side, at: Point): TracedPart | undefined {
  return parts
    .filter((part) => part.side === side && holds(part, at))
    .toSorted((a, b) => a.body.widthMm * a.body.lengthMm - b.body.widthMm * b.body.lengthMm)[0]
}

function holds({ at: middle, rotationDeg, body }: TracedPart, at: Point): boolean {
  const angle = (rotationDeg * Math.PI) / 180
  const [dx, dy] = [at.x - middle.x, at.y - middle.y]
  const x = dx * Math.cos(angle) + dy * Math.sin(angle)
  const y = dy * Math.cos(angle) - dx * Math.sin(angle)
  return Math.abs(x) <= body.widthMm / 2 && Math.abs(y) <= body.lengthMm / 2
}

interface Size {
  readonly widthMm: number
  readonly heightMm: number
}

/** The board’s edge: the rectangle of its corners with its tab, counter-clockwise from the lower left. */
export function outlineOf({ widthMm, heightMm }: Size, { tab, edge }: Pick<Work, 'tab' | 'edge'>): Point[] {
  const [a, b] = edge ?? [
    { x: 0, y: 0 },
    { x: widthMm, y: heightMm },
  ]
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)]
  const [low, high] = [Math.min(a.y, b.y), Math.max(a.y, b.y)]
  return [
    { x: left, y: low },
    ...tabCorners(tab, low),
    { x: right, y: low },
    { x: right, y: high },
    { x: left, y: high },
  ]
}

function tabCorners(tab: Tab | undefined, low: number): Point[] {
  if (tab === undefined) return []
  const [left, right] = [Math.min(tab[0].x, tab[1].x), Math.max(tab[0].x, tab[1].x)]
  const tip = (tab[0].y + tab[1].y) / 2
  if (tip >= low) return []
  return [
    { x: left, y: low },
    { x: left, y: tip },
    { x: right, y: tip },
    { x: right, y: low },
  ]
}
