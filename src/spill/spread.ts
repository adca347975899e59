/** From a spill mark to all the ways in which it may have gone: places, amounts, radii, streaks. */
import { bad, cellCentre, type Fault, good, type Result } from '../base/index.ts'
import { type AmountLevels, amountLevels } from './amounts.ts'
import { farthestMm, neverReached, type Spread, tailsOf } from './arrivals.ts'
import { closeVolume, curveEndMm, marchVolume } from './curve.ts'
import type { Load } from './film.ts'
import { levelRadii } from './level-radii.ts'
import type { SpillMark } from './marks.ts'
import { gaussianPlaces, type Places } from './places.ts'
import { pointSeeds } from './seeds.ts'
import type { Site } from './site.ts'
import { streakBoardKey } from './streak-board.ts'
import { streaksFrom } from './streaks.ts'
import type { Substance } from './substance.ts'

export function spreadOf(site: Site, mark: SpillMark, substance: Substance): Result<Spread> {
  const levels = amountLevels(mark, substance, site.behaviour)
  if (!levels.ok) return levels
  const places = gaussianPlaces(site.terrain, mark.at, mark.sdMm)
  if (places.list.length === 0) return bad(offBoard(mark))
  const downDeg = streakDownDeg(site, mark)
  return good(
    downDeg === undefined
      ? flatSpread(site, mark, places, levels.value)
      : streakSpread(site, places, levels.value, downDeg),
  )
}

export const offBoard = (mark: SpillMark): Fault => ({
  path: `spill ${mark.id}`,
  found: `(${mark.at.x}, ${mark.at.y})`,
  expected: `a point on the ${mark.side} side of the board`,
  todo: 'Move the spill onto the board, away from cut-outs.',
})

/** The direction in which a streak runs: the board was mounted and the substance flows. Else undefined. */
export const streakDownDeg = (site: Site, mark: SpillMark): number | undefined =>
  site.behaviour.liquid === undefined ? undefined : mark.downDeg

function flatSpread(site: Site, mark: SpillMark, places: Places, { loads, weights }: AmountLevels): Spread {
  const points = places.list.map(({ at }) => at)
  const radiusMm =
    places.list.length === 1
      ? exactRadii(site, mark, loads)
      : levelRadii(site.lattice(undefined), points, loads, undefined)
  const load = loads[loads.length - 1]
  return {
    places,
    levelWeights: weights,
    tailWeights: tailsOf(weights),
    radiusMm,
    streaks: undefined,
    board: undefined,
    never: neverReached(places.list.length, loads.length),
    need: { limitMm: farthestMm(radiusMm), spreading: load && { load, downDeg: undefined } },
  }
}

/** A streak starts at the centre of the cell where what lands there gets onto the board. */
function streakSpread(site: Site, places: Places, { loads, weights }: AmountLevels, downDeg: number): Spread {
  const starts = Array.from(places.landing, (cell) => cellCentre(site.terrain.grid, cell))
  const streaks = streaksFrom(site, loads, downDeg, starts)
  const load = loads[loads.length - 1]
  return {
    places,
    levelWeights: weights,
    tailWeights: tailsOf(weights),
    radiusMm: streaks.radiusMm,
    streaks,
    board: site.streakBoards.peek(streakBoardKey(loads, downDeg)),
    never: neverReached(places.list.length, loads.length),
    need: { limitMm: farthestMm(streaks.radiusMm), spreading: load && { load, downDeg } },
  }
}

/** A certain point needs no lattice: one march from it serves all amounts. */
function exactRadii(site: Site, mark: SpillMark, loads: readonly Load[]): Float64Array {
  const most = loads[loads.length - 1]
  if (most === undefined) return new Float64Array(0)
  const end = { limitMm: Infinity, beyond: 1 }
  const curve = marchVolume(site.terrain, site.marcher, pointSeeds(site.terrain, 0, mark.at), most, end)
  return Float64Array.from(loads, (load) => closeVolume(curve, load)?.radiusMm ?? curveEndMm(curve))
}
