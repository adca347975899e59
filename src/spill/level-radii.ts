/** Radii of all amount levels at a point, from the lattice of a site. */
import type { Point } from '../base/index.ts'
import type { Load } from './film.ts'
import type { RadiusLattice } from './radii.ts'

/** Levels whose radii are marched: all of them where one curve serves all, else the outer and the middle ones. */
export function markedLevels(loads: readonly Load[], downDeg: number | undefined): number[] {
  const all = loads.map((_, level) => level)
  if (downDeg === undefined) return all
  return all.filter((level) => level === 0 || level === loads.length - 1 || level === (loads.length - 1) / 2)
}

/** Radii in mm of all levels at all points: entry i · levels + j, not falling with j. Between marked levels, log to log. */
export function levelRadii(
  lattice: RadiusLattice,
  points: readonly Point[],
  loads: readonly Load[],
  downDeg: number | undefined,
): Float64Array {
  const marked = markedLevels(loads, downDeg)
  const plan = loads.map((_, level) => planFor(loads, marked, level))
  const radiusMm = new Float64Array(points.length * loads.length)
  for (const [i, at] of points.entries()) {
    const base = i * loads.length
    for (const level of marked) {
      const load = loads[level]
      if (load !== undefined) radiusMm[base + level] = lattice.radiusAt(at, load)
    }
    let least = 0
    for (const [level, { below, above, share }] of plan.entries()) {
      const low = radiusMm[base + below] ?? 0
      const high = radiusMm[base + above] ?? 0
      least = Math.max(least, below === above ? low : low ** (1 - share) * high ** share)
      radiusMm[base + level] = least
    }
  }
  return radiusMm
}

interface Between {
  readonly below: number
  readonly above: number
  readonly share: number
}

function planFor(loads: readonly Load[], marked: readonly number[], level: number): Between {
  const above = marked.find((known) => known >= level) ?? 0
  const below = marked.findLast((known) => known <= level) ?? 0
  const [low, middle, high] = [loads[below], loads[level], loads[above]]
  if (!low || !middle || !high || high.volumeMm3 === low.volumeMm3) return { below, above: below, share: 0 }
  const share = Math.log(middle.volumeMm3 / low.volumeMm3) / Math.log(high.volumeMm3 / low.volumeMm3)
  return { below, above, share }
}
