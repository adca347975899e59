/** A view made exact by the board’s own straight edges: corners and lens are moved until the edges lie where they are seen. */
import { strongestEdge } from './edge-search.ts'
import { type GreyImage, isInside } from './image.ts'
import { medianOf, type Miss, robustStep } from './least-squares.ts'
import type { BoardView } from './view.ts'
import {
  type CornerGuess,
  edgesOf,
  PER_EDGE,
  pxPerMmOf,
  spotsOn,
  type Unknowns,
  unknownsFor,
  viewOf,
} from './view-guess.ts'
import { signsAlong, startOf } from './view-start.ts'

export interface FittedView {
  readonly view: BoardView
  /** How far the edges that were followed lie from where the view has them, as a median in pixels. */
  readonly missPx: number
  /** Share of the places along the edges at which an edge was found that agrees with the rest. */
  readonly followed: number
}

/** How far an edge is looked for, round by round, in mm on the board. */
const REACHES_MM = [2, 2, 1.5, 1.2, 0.9, 0.7, 0.5, 0.5, 0.5]
/** Early on an edge that is this share of the reach away still counts: what is clicked a little off is no stray. */
const SIGMA_SHARE = 0.25
const LAST_ROUNDS_MM = 0.5
/** Within so many pixels an edge agrees with the view. */
const AGREES_PX = 1.5
const LEAST_SIGMA_PX = 0.15
/** A lens that bends nothing is the more likely one: these many pixels of miss at the corner of the picture are one miss more. */
const LENS_PRIOR = 0.02
/** A hand clicks a corner to within about this many millimetres; an edge is seen to within about a third of a pixel. */
const CLICK_SIGMA_MM = 0.7
const EDGE_SIGMA_PX = 0.3

/** @returns undefined where the corners give no view, or the edges can’t be followed */
export function fitView(image: GreyImage, guess: CornerGuess): FittedView | undefined {
  let unknowns = startOf(image, guess)
  if (unknowns === undefined) return undefined
  for (const reachMm of REACHES_MM) {
    const next = improved(image, { guess, unknowns, reachMm })
    if (next === undefined) return undefined
    unknowns = next
  }
  const view = viewOf(guess, unknowns)
  return view === undefined ? undefined : judged(image, guess, view)
}

interface Round {
  readonly guess: CornerGuess
  readonly unknowns: Unknowns
  readonly reachMm: number
}

function improved(image: GreyImage, { guess, unknowns, reachMm }: Round): Unknowns | undefined {
  const view = viewOf(guess, unknowns)
  if (view === undefined) return undefined
  const moved = unknowns.map((_, i) => movedView(guess, unknowns, i))
  const reachPx = Math.max(3, reachMm * pxPerMmOf(guess, view))
  const signs = signsAlong(image, guess, view)
  const misses: Miss[] = edgesOf(guess).flatMap((edge, e) => {
    const spots = spotsOn(edge, view)
    const movedSpots = moved.map((other) => (other === undefined ? spots : spotsOn(edge, other)))
    const sign = (signs[e] ?? 0) < 0 ? -1 : 1
    return spots.flatMap((spot, s) => {
      if (!isInside(image, spot.at, 2)) return []
      const found = strongestEdge(image, spot, { reachPx, alongPx: 2, sign })
      if (found === undefined) return []
      const slopes = movedSpots.map((others, i) => {
        const at = others[s]?.at ?? spot.at
        return ((at.x - spot.at.x) * spot.across.x + (at.y - spot.at.y) * spot.across.y) / nudgeOf(i)
      })
      return [{ miss: found.offsetPx, slopes, weight: Math.min(1, Math.abs(found.slope) / 8) }]
    })
  })
  if (misses.length < 2 * PER_EDGE) return undefined
  const held = [...lensPriors(guess, unknowns, misses.length), ...cornerPriors(guess, unknowns, pxPerMmOf(guess, view))]
  const change = robustStep(
    [...misses, ...held],
    ridgeOf(guess),
    reachMm > LAST_ROUNDS_MM ? Math.max(LEAST_SIGMA_PX, SIGMA_SHARE * reachPx) : LEAST_SIGMA_PX,
  )
  return change === undefined ? undefined : unknowns.map((value, i) => value + (change[i] ?? 0))
}

/** How far an unknown is moved to see what it does: corners by pixels, the lens by its terms. */
const nudgeOf = (unknown: number): number => (unknown < 8 ? 0.5 : 1e-3)

const movedView = (guess: CornerGuess, unknowns: Unknowns, moved: number): BoardView | undefined =>
  viewOf(
    guess,
    unknowns.map((value, i) => (i === moved ? value + nudgeOf(i) : value)),
  )

/** Corners are held a little; a lens that may not bend is held fast. */
const ridgeOf = ({ mayBend, lens }: CornerGuess): number[] =>
  Array.from({ length: 10 }, (_, i) => (i < 8 ? 1e-4 : mayBend ? 1e-6 * lens.radiusPx : 1e6 * lens.radiusPx))

const lensPriors = ({ lens }: CornerGuess, unknowns: Unknowns, count: number): Miss[] =>
  [8, 9].map((at) => ({
    miss: -(unknowns[at] ?? 0) * lens.radiusPx * LENS_PRIOR,
    slopes: unknowns.map((_, i) => (i === at ? lens.radiusPx * LENS_PRIOR : 0)),
    weight: count / 20,
  }))

/** Something that stands over most of an edge must not pull it away from both corners. */
const cornerPriors = (guess: CornerGuess, unknowns: Unknowns, pxPerMm: number): Miss[] => {
  const share = EDGE_SIGMA_PX / (CLICK_SIGMA_MM * pxPerMm)
  return unknownsFor(guess, unknowns[8] ?? 0)
    .slice(0, 8)
    .map((clicked, at) => ({
      miss: share * (clicked - (unknowns[at] ?? 0)),
      slopes: unknowns.map((_, i) => (i === at ? share : 0)),
      weight: 1,
    }))
}

function judged(image: GreyImage, guess: CornerGuess, view: BoardView): FittedView {
  const signs = signsAlong(image, guess, view)
  const offsets = edgesOf(guess).flatMap((edge, e) =>
    spotsOn(edge, view).flatMap((spot) => {
      const found = strongestEdge(image, spot, { reachPx: 6, alongPx: 2, sign: (signs[e] ?? 0) < 0 ? -1 : 1 })
      return found === undefined ? [] : [Math.abs(found.offsetPx)]
    }),
  )
  const agreeing = offsets.filter((offset) => offset <= AGREES_PX)

  return { view, missPx: medianOf(agreeing), followed: agreeing.length / (4 * PER_EDGE) }
}
