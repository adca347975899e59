/** Streaks of all amount levels from given points. */
import { boxOf, placePoint, type Point } from '../base/index.ts'
import type { Load } from './film.ts'
import { levelRadii } from './level-radii.ts'
import { cellWindow } from './raster.ts'
import type { Site } from './site.ts'
import type { Streaks } from './streak-arrivals.ts'
import { streakLengthMm, streakOpenMm } from './streak.ts'

/** Efforts along a streak are read this far apart. */
const STREAK_STEP_CELLS = 1

export function streaksFrom(site: Site, loads: readonly Load[], downDeg: number, starts: readonly Point[]): Streaks {
  const { grid } = site.terrain
  const levels = loads.length
  const lengths = loads.map((load) => streakLengthMm(load, site.behaviour))
  const longestMm = lengths[levels - 1] ?? 0
  const stepMm = STREAK_STEP_CELLS * grid.cellMm
  const down = placePoint({ x: 1, y: 0 }, { at: { x: 0, y: 0 }, rotationDeg: downDeg, mirrored: false })
  const steps = new Int32Array(starts.length * levels)
  const ends: Point[] = [...starts]
  let longestSteps = 0
  for (const [i, at] of starts.entries()) {
    const openMm = streakOpenMm(site.terrain, 0, at, downDeg, longestMm)
    ends.push({ x: at.x + openMm * down.x, y: at.y + openMm * down.y })
    for (const [level, lengthMm] of lengths.entries()) {
      steps[i * levels + level] = Math.floor(Math.min(openMm, lengthMm) / stepMm)
    }
    longestSteps = Math.max(longestSteps, steps[i * levels + levels - 1] ?? 0)
  }
  return {
    grid,
    levels,
    stepMm,
    steps,
    longestSteps,
    stepColumns: STREAK_STEP_CELLS * down.x,
    stepRows: STREAK_STEP_CELLS * down.y,
    startColumn: Float64Array.from(starts, ({ x }) => (x - grid.originXMm) / grid.cellMm),
    startRow: Float64Array.from(starts, ({ y }) => (y - grid.originYMm) / grid.cellMm),
    radiusMm: levelRadii(site.lattice(downDeg), starts, loads, downDeg),
    cells: cellWindow(grid, boxOf(ends), grid.cellMm),
  }
}
