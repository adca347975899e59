/** From a spill mark to all the ways in which it may have gone: places, amounts, radii, streaks. */
import { bad, type Fault, good, type Point, type Result } from '../base/index.ts'
import { type AmountLevels, amountLevels } from './amounts.ts'
import { farthestMm, neverReached, type Spread, type Streaks, tailsOf } from './arrivals.ts'
import { closeVolume, curveEndMm, marchVolume } from './curve.ts'
import type { Load } from './film.ts'
import type { SpillMark } from './marks.ts'
import { gaussianPlaces, type Places } from './places.ts'
import { pointSeeds } from './seeds.ts'
import type { Site } from './site.ts'
import { spotOf } from './spot.ts'
import { streakEnd, streakLengthMm } from './streak.ts'
import type { Substance } from './substance.ts'
import { packSpots, type Spot } from './window.ts'

/** Spots along a streak stand this far apart. */
const STREAK_STEP_CELLS = 2

export function spreadOf(site: Site, mark: SpillMark, substance: Substance): Result<Spread> {
  const levels = amountLevels(mark, substance, site.behaviour)
  if (!levels.ok) return levels
  const places = gaussianPlaces(site.terrain, mark.at, mark.sdMm)
  if (places.list.length === 0) return bad(offBoard(mark))
  const { loads, weights } = levels.value
  const radiusMm = radiiOf(site, mark, places, loads)
  const runs = streaksOf(site, mark, places, levels.value)
  const load = runs === undefined ? loads[loads.length - 1] : undefined
  const never = neverReached(places.list.length, loads.length)
  return good({
    places,
    never,
    levelWeights: weights,
    tailWeights: tailsOf(weights),
    radiusMm,
    streaks: runs,
    need: { limitMm: farthestMm(radiusMm), load },
  })
}

export const offBoard = (mark: SpillMark): Fault => ({
  path: `spill ${mark.id}`,
  found: `(${mark.at.x}, ${mark.at.y})`,
  expected: `a point on the ${mark.side} side of the board`,
  todo: 'Move the spill onto the board, away from cut-outs.',
})

function radiiOf(site: Site, mark: SpillMark, places: Places, loads: readonly Load[]): Float64Array {
  const radiusMm = new Float64Array(places.list.length * loads.length)
  const exact = places.list.length === 1 && mark.downDeg === undefined
  const radiusAt = exact ? exactRadius(site, mark, loads) : latticeRadius(site, mark, loads)
  for (const [i, place] of places.list.entries()) {
    let least = 0
    for (let level = 0; level < loads.length; level++) {
      least = Math.max(least, radiusAt(place.at, level))
      radiusMm[i * loads.length + level] = least
    }
  }
  return radiusMm
}

/** A certain point needs no lattice: one march from it serves all amounts. */
function exactRadius(site: Site, mark: SpillMark, loads: readonly Load[]): (at: Point, level: number) => number {
  const most = loads[loads.length - 1]
  if (most === undefined) return () => 0
  const end = { limitMm: Infinity, beyond: 1 }
  const curve = marchVolume(site.terrain, site.marcher, pointSeeds(site.terrain, 0, mark.at), most, end)
  return (_at, level) => closeVolume(curve, loads[level] ?? most)?.radiusMm ?? curveEndMm(curve)
}

/** A streak's curve is another one for each amount, so only the outer and the middle ones are marched. */
function latticeRadius(site: Site, mark: SpillMark, loads: readonly Load[]): (at: Point, level: number) => number {
  const lattice = site.lattice(mark.downDeg)
  const marched = markedLevels(site, mark, loads)
  return (at, level) => {
    const above = marched.find((known) => known >= level) ?? 0
    const below = marched.findLast((known) => known <= level) ?? 0
    const high = radiusAtLevel(lattice, at, loads[above])
    if (above === below) return high
    const low = radiusAtLevel(lattice, at, loads[below])
    const share = logShare(loads[below], loads[level], loads[above])
    return low ** (1 - share) * high ** share
  }
}

/** True where a streak runs downhill: the board was mounted and the substance flows. */
export const streaks = (site: Site, mark: SpillMark): boolean =>
  mark.downDeg !== undefined && site.behaviour.liquid !== undefined

/** Levels whose radii are marched; the ones between are interpolated. */
export function markedLevels(site: Site, mark: SpillMark, loads: readonly Load[]): number[] {
  const all = loads.map((_, level) => level)
  if (!streaks(site, mark)) return all
  return all.filter((level) => level === 0 || level === loads.length - 1 || level === (loads.length - 1) / 2)
}

const radiusAtLevel = (lattice: ReturnType<Site['lattice']>, at: Point, load: Load | undefined): number =>
  load === undefined ? 0 : lattice.radiusAt(at, load)

function logShare(low: Load | undefined, middle: Load | undefined, high: Load | undefined): number {
  if (!low || !middle || !high || high.volumeMm3 === low.volumeMm3) return 0
  return Math.log(middle.volumeMm3 / low.volumeMm3) / Math.log(high.volumeMm3 / low.volumeMm3)
}

function streaksOf(site: Site, mark: SpillMark, places: Places, { loads }: AmountLevels): Streaks | undefined {
  const { downDeg } = mark
  if (downDeg === undefined || site.behaviour.liquid === undefined) return undefined
  const lengths = loads.map((load) => streakLengthMm(load, site.behaviour))
  const longest = lengths[lengths.length - 1] ?? 0
  const stepMm = STREAK_STEP_CELLS * site.terrain.grid.cellMm
  const spots: Spot[] = []
  const start = new Int32Array(places.list.length + 1)
  const count = new Int32Array(places.list.length * loads.length)
  for (const [i, { at }] of places.list.entries()) {
    const end = streakEnd(site.terrain, 0, at, downDeg, longest)
    const openMm = Math.hypot(end.x - at.x, end.y - at.y)
    const steps = Math.floor(openMm / stepMm)
    for (let k = 1; k <= steps; k++) {
      const share = (k * stepMm) / openMm
      const spot = spotOf(site.terrain, { x: at.x + share * (end.x - at.x), y: at.y + share * (end.y - at.y) })
      if (spot !== undefined) spots.push(spot)
    }
    start[i + 1] = spots.length
    const held = spots.length - (start[i] ?? 0)
    for (const [level, lengthMm] of lengths.entries()) {
      count[i * loads.length + level] = Math.min(held, Math.floor(lengthMm / stepMm))
    }
  }
  return { spots: packSpots(spots), start, count }
}
