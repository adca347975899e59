/** Where an edge is seen across a short line: the strongest change of grey along it, between pixels. */
import type { Point } from '../base/index.ts'
import { greyAt, type GreyImage } from './image.ts'

/** A place where an edge is expected, and the way across it, of length 1, both in pixels. */
export interface EdgeSpot {
  readonly at: Point
  readonly across: Point
}

export interface EdgeSearch {
  /** How far to either side it is looked for, in pixels. */
  readonly reachPx: number
  /** How many pixels along the edge are taken together, to either side. */
  readonly alongPx: number
  /** 1 where the grey rises along `across`, -1 where it falls, 0 where either may be. */
  readonly sign: -1 | 0 | 1
}

export interface FoundEdge {
  /** Along `across` from the spot, in pixels. */
  readonly offsetPx: number
  /** Change of grey per pixel there, rising counted as positive. */
  readonly slope: number
}

const STEP_PX = 0.5
/** The slope is taken over this many steps to either side. */
const HALF_STEPS = 2

/**
 * The strongest edge across a spot; nearer ones are preferred a little, so that of two equal ones the expected is taken.
 * Between steps its place is the top of the parabola through the three highest slopes.
 */
export function strongestEdge(
  image: GreyImage,
  spot: EdgeSpot,
  { sign, ...search }: EdgeSearch,
): FoundEdge | undefined {
  const count = slopesAcross(image, spot, search)
  if (sign !== 0) return bestOf(count, sign)
  return stronger(bestOf(count, 1), bestOf(count, -1))
}

/** The strongest edge that rises and the strongest that falls across a spot, and the stronger of both, by one look. */
export function edgesAcross(
  image: GreyImage,
  spot: EdgeSpot,
  search: Omit<EdgeSearch, 'sign'>,
): { readonly [1]: FoundEdge | undefined; readonly [-1]: FoundEdge | undefined; readonly [0]: FoundEdge | undefined } {
  const count = slopesAcross(image, spot, search)
  const rising = bestOf(count, 1)
  const falling = bestOf(count, -1)
  return { 1: rising, [-1]: falling, 0: stronger(rising, falling) }
}

interface WeighedEdge extends FoundEdge {
  readonly worth: number
}

function stronger(one: WeighedEdge | undefined, other: WeighedEdge | undefined): WeighedEdge | undefined {
  if (one === undefined || other === undefined) return one ?? other
  return other.worth > one.worth ? other : one
}

/** Of the slopes in hand. */
function bestOf(count: number, sign: -1 | 1): WeighedEdge | undefined {
  const middle = (count - 1) / 2
  let best = -1
  let worth = 0
  for (let i = 1; i < count - 1; i++) {
    const height = sign * (slopes[i] ?? 0)
    if (height < sign * (slopes[i - 1] ?? 0) || height < sign * (slopes[i + 1] ?? 0)) continue
    const away = (i - middle) / middle
    const worthHere = height * (1 - 0.5 * away * away)
    if (worthHere > worth) {
      best = i
      worth = worthHere
    }
  }
  if (best < 0) return undefined
  const before = sign * (slopes[best - 1] ?? 0)
  const here = sign * (slopes[best] ?? 0)
  const after = sign * (slopes[best + 1] ?? 0)
  const bend = before - 2 * here + after
  const shift = bend < 0 ? (before - after) / (2 * bend) : 0
  return { offsetPx: (best - middle + shift) * STEP_PX, slope: slopes[best] ?? 0, worth }
}

/** Greys and slopes of the line that is looked at: kept, because there are hundreds of thousands of such lines. */
let greys = new Float64Array(128)
let slopes = new Float64Array(128)

/** @returns how many slopes are in hand, the spot’s own in the middle */
function slopesAcross(
  image: GreyImage,
  { at, across }: EdgeSpot,
  { reachPx, alongPx }: Omit<EdgeSearch, 'sign'>,
): number {
  const half = Math.max(2, Math.ceil(reachPx / STEP_PX))
  const count = 2 * (half + HALF_STEPS) + 1
  if (count > greys.length) {
    greys = new Float64Array(2 * count)
    slopes = new Float64Array(2 * count)
  }
  const lanes = Math.max(0, Math.round(alongPx))
  for (let i = 0; i < count; i++) {
    const offset = (i - half - HALF_STEPS) * STEP_PX
    const x = at.x + across.x * offset
    const y = at.y + across.y * offset
    let sum = 0
    for (let lane = -lanes; lane <= lanes; lane++) sum += greyAt(image, x - across.y * lane, y + across.x * lane)
    greys[i] = sum / (2 * lanes + 1)
  }
  const found = 2 * half + 1
  for (let i = 0; i < found; i++)
    slopes[i] = ((greys[i + 2 * HALF_STEPS] ?? 0) - (greys[i] ?? 0)) / (2 * HALF_STEPS * STEP_PX)
  return found
}
