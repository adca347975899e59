/** A spill that nobody reported: anywhere on one side of the board, as large as a stated prior says. */
import type { BoardModel } from '../board/index.ts'
import { farthestMm, neverReached, type Spread, tailsOf } from './arrivals.ts'
import { uniformPlaces } from './places.ts'
import type { Site } from './site.ts'

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

export function unreportedSpread(site: Site, model: BoardModel): Spread {
  const places = uniformPlaces(site.terrain, model.box, PLACE_SPACING_MM)
  const levels = UNREPORTED_RADII.length
  const radiusMm = new Float64Array(places.list.length * levels)
  for (let i = 0; i < radiusMm.length; i++) radiusMm[i] = UNREPORTED_RADII[i % levels]?.radiusMm ?? 0
  const levelWeights = Float64Array.from(UNREPORTED_RADII, (entry) => entry.weight)
  return {
    places,
    levelWeights,
    tailWeights: tailsOf(levelWeights),
    radiusMm,
    streaks: undefined,
    board: undefined,
    never: neverReached(places.list.length, levels),
    need: { limitMm: farthestMm(radiusMm), spreading: undefined },
  }
}
