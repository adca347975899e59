/** A spill that nobody reported: anywhere on one side of the board, as large as a stated prior says. */
import type { BoardModel } from '../../board/index.ts'
import { uniformPlaces } from './places.ts'
import type { Site } from '../flow/site.ts'
import type { Spread } from './spread.ts'
import type { TrialBench } from './trial.ts'

const PLACE_SPACING_MM = 5

/**
 * Effort radii of a spill that nobody noticed, and how likely each is. An assumption: a drop to half a teaspoon of
 * coolant; small ones are likelier, since a large one would have been reported.
 */
export const UNREPORTED_RADII = [
  { radiusMm: 4, weight: 0.35 },
  { radiusMm: 8, weight: 0.3 },
  { radiusMm: 14, weight: 0.2 },
  { radiusMm: 22, weight: 0.15 },
] as const

/**
 * Spills of the prior radii at places 5 mm apart over one side, each place alike; weights sum to one. None streaks
 * and none is pushed, as nobody said how the card stood.
 */
export function unreportedSpread(site: Site, bench: TrialBench, model: BoardModel): Spread {
  const places = uniformPlaces(site.terrain, model.box, PLACE_SPACING_MM)
  const levels = UNREPORTED_RADII.length
  const radiusMm = Float64Array.from(UNREPORTED_RADII, (entry) => entry.radiusMm)
  const weight = new Float64Array(places.list.length * levels)
  for (const [i, place] of places.list.entries()) {
    for (const [level, entry] of UNREPORTED_RADII.entries()) weight[i * levels + level] = place.weight * entry.weight
  }
  return {
    places,
    trials: places.list.map((place) => bench.within(place, radiusMm)),
    levels,
    weight,
    pushesMm: [0],
    downDeg: undefined,
  }
}
