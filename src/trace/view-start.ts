/** Where the fit of a view begins: the bend of the lens and the shift of each edge under which the edges are seen most clearly. */
import type { Point } from '../base/index.ts'
import { type EdgeSpot } from './edge-search.ts'
import { greyAt, type GreyImage } from './image.ts'
import type { BoardView } from './view.ts'
import { type CornerGuess, edgesOf, pxPerMmOf, spotsOn, type Unknowns, unknownsFor, viewOf } from './view-guess.ts'

/** Distortions beyond this are no telephone’s. */
const MOST_K1 = 0.2
const K1_STEP = 0.02
/** How far a click may be off, in mm, and the steps in which that is tried. */
const SHIFT = { mostMm: 2, stepMm: 0.25 }
/** Slopes are taken over this many mm to either side, and a change of grey above this counts no more. */
const HALF_MM = 0.3
const CLEAR = 40

/** @returns undefined where the corners give no view */
export function startOf(image: GreyImage, guess: CornerGuess): Unknowns | undefined {
  const most = guess.mayBend ? MOST_K1 : 0
  let best: Unknowns | undefined
  let bestWorth = -Infinity
  for (let k1 = -most; k1 <= most + 1e-9; k1 += K1_STEP) {
    const view = viewOf(guess, unknownsFor(guess, k1))
    if (view === undefined) continue
    const shifts = edgesOf(guess).map((edge) => bestShift(image, spotsOn(edge, view), pxPerMmOf(guess, view)))
    const worth = shifts.reduce((sum, { score }) => sum + score, 0) - Math.abs(k1)
    if (worth <= bestWorth) continue
    bestWorth = worth
    best = unknownsFor({ ...guess, seen: guess.seen.map((corner, i) => movedCorner(corner, shifts, i)) }, k1)
  }
  return best
}

/** For each edge the mean rise of the grey outwards, each place counting no more than a clear edge does. */
export function signsAlong(image: GreyImage, guess: CornerGuess, view: BoardView): number[] {
  const halfPx = Math.max(2, HALF_MM * pxPerMmOf(guess, view))
  return edgesOf(guess).map((edge) => {
    const spots = spotsOn(edge, view)
    return spots.reduce((sum, spot) => sum + riseAt(image, spot, { offsetPx: 0, halfPx }), 0) / spots.length
  })
}

interface Across {
  readonly offsetPx: number
  readonly halfPx: number
}

function riseAt(image: GreyImage, { at, across }: EdgeSpot, { offsetPx, halfPx }: Across): number {
  const outer = offsetPx + halfPx
  const inner = offsetPx - halfPx
  const outside = greyAt(image, at.x + across.x * outer, at.y + across.y * outer)
  const inside = greyAt(image, at.x + across.x * inner, at.y + across.y * inner)
  return Math.max(-CLEAR, Math.min(CLEAR, outside - inside))
}

/** A straight shift of an edge: how far out its first and its last end move. */
interface EdgeShift {
  readonly first: Point
  readonly last: Point
  readonly score: number
}

/** Of all shifts of both ends the one under which the grey changes most along the whole edge, all one way. */
function bestShift(image: GreyImage, spots: readonly EdgeSpot[], pxPerMm: number): EdgeShift {
  const steps = Math.round(SHIFT.mostMm / SHIFT.stepMm)
  const stepPx = SHIFT.stepMm * pxPerMm
  const halfPx = Math.max(1.5, HALF_MM * pxPerMm)
  const rises = spots.map((spot) =>
    Float32Array.from({ length: 2 * steps + 1 }, (_, i) =>
      riseAt(image, spot, { offsetPx: (i - steps) * stepPx, halfPx }),
    ),
  )
  let best = { first: 0, last: 0, score: -1 }
  for (let first = -steps; first <= steps; first++) {
    for (let last = -steps; last <= steps; last++) {
      let sum = 0
      for (const [s, rise] of rises.entries()) {
        const share = (s + 0.5) / rises.length
        sum += rise[Math.round(first + (last - first) * share) + steps] ?? 0
      }
      // of shifts that are as good the smallest
      const score = Math.abs(sum) / rises.length - 0.02 * (Math.abs(first) + Math.abs(last))
      if (score > best.score) best = { first, last, score }
    }
  }
  const out = (by: number, spot: EdgeSpot | undefined): Point => ({
    x: by * stepPx * (spot?.across.x ?? 0),
    y: by * stepPx * (spot?.across.y ?? 0),
  })
  return { first: out(best.first, spots[0]), last: out(best.last, spots.at(-1)), score: best.score }
}

/** A corner ends one edge and begins the next, which stands about square on it: each takes it along its own way out. */
function movedCorner(corner: Point, shifts: readonly EdgeShift[], i: number): Point {
  const ending = shifts[(i + shifts.length - 1) % shifts.length]?.last ?? { x: 0, y: 0 }
  const beginning = shifts[i]?.first ?? { x: 0, y: 0 }
  return { x: corner.x + ending.x + beginning.x, y: corner.y + ending.y + beginning.y }
}
