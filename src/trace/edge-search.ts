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
export function strongestEdge(image: GreyImage, spot: EdgeSpot, search: EdgeSearch): FoundEdge | undefined {
  const slopes = slopesAcross(image, spot, search)
  const middle = (slopes.length - 1) / 2
  let best = -1
  let bestWorth = 0
  for (let i = 1; i < slopes.length - 1; i++) {
    const height = heightOf(slopes[i] ?? 0, search.sign)
    if (height < heightOf(slopes[i - 1] ?? 0, search.sign) || height < heightOf(slopes[i + 1] ?? 0, search.sign))
      continue
    const away = (i - middle) / middle
    const worth = height * (1 - 0.5 * away * away)
    if (worth > bestWorth) {
      best = i
      bestWorth = worth
    }
  }
  if (best < 0) return undefined
  const before = heightOf(slopes[best - 1] ?? 0, search.sign)
  const here = heightOf(slopes[best] ?? 0, search.sign)
  const after = heightOf(slopes[best + 1] ?? 0, search.sign)
  const bend = before - 2 * here + after
  const shift = bend < 0 ? (before - after) / (2 * bend) : 0
  return { offsetPx: (best - middle + shift) * STEP_PX, slope: slopes[best] ?? 0 }
}

const heightOf = (slope: number, sign: EdgeSearch['sign']): number => (sign === 0 ? Math.abs(slope) : slope * sign)

function slopesAcross(image: GreyImage, { at, across }: EdgeSpot, { reachPx, alongPx }: EdgeSearch): Float64Array {
  const half = Math.max(2, Math.ceil(reachPx / STEP_PX))
  const count = 2 * (half + HALF_STEPS) + 1
  const values = new Float64Array(count)
  const lanes = Math.max(0, Math.round(alongPx))
  for (let i = 0; i < count; i++) {
    const offset = (i - half - HALF_STEPS) * STEP_PX
    const x = at.x + across.x * offset
    const y = at.y + across.y * offset
    let sum = 0
    for (let lane = -lanes; lane <= lanes; lane++) sum += greyAt(image, x - across.y * lane, y + across.x * lane)
    values[i] = sum / (2 * lanes + 1)
  }
  const slopes = new Float64Array(2 * half + 1)
  for (let i = 0; i < slopes.length; i++)
    slopes[i] = ((values[i + 2 * HALF_STEPS] ?? 0) - (values[i] ?? 0)) / (2 * HALF_STEPS * STEP_PX)
  return slopes
}
