/** Which ways of a spread reached an area mark: its effort field is read where the spill landed, or along its streak. */
import { cellAt, type Point } from '../../base/index.ts'
import type { AreaMark } from '../marks.ts'
import type { Site } from '../flow/site.ts'
import { spotOf } from '../ground/spot.ts'
import type { Spread } from './spread.ts'
import { streakStart } from '../flow/streak.ts'
import { areaTarget } from '../ground/targets.ts'
import type { Trial } from './trial.ts'
import { effortAtSpot, type EffortWindow, UNREACHED_MM } from '../ground/window.ts'

/** Per place and level (i · levels + j) 1 where the area was reached. */
export function reachesArea(site: Site, spread: Spread, area: AreaMark): Uint8Array {
  const { places, trials, levels, pushesMm, downDeg } = spread
  const target = areaTarget(area)
  const farthest = farthestMm(trials)
  const windows = pushesMm.map((pushMm) => site.areas.of(target, pushMm, farthest))
  const reached = new Uint8Array(trials.length * levels)
  const down = directionOf(downDeg ?? 0)
  for (const [i, trial] of trials.entries()) {
    const at = places.list[i]?.at
    const spot = at === undefined ? undefined : spotOf(site.terrain, at)
    if (at === undefined || spot === undefined) continue
    const from = downDeg === undefined ? at : streakStart(site.terrain, at)
    for (let level = 0; level < levels; level++) {
      const window = windows[trial.push[level] ?? 0]
      const radiusMm = trial.radiusMm[level] ?? 0
      if (window === undefined) continue
      const near =
        effortAtSpot(window, spot) <= radiusMm ||
        (downDeg !== undefined && passesWithin(site, window, from, down, trial.streakMm[level] ?? 0, radiusMm))
      reached[i * levels + level] = near ? 1 : 0
    }
  }
  return reached
}

function farthestMm(trials: readonly Trial[]): number {
  let farthest = 0
  for (const { radiusMm } of trials) for (const radius of radiusMm) farthest = Math.max(farthest, radius)
  return farthest
}

const directionOf = (downDeg: number): Point => ({
  x: Math.cos((downDeg * Math.PI) / 180),
  y: Math.sin((downDeg * Math.PI) / 180),
})

/**
 * True where a streak comes within the radius of the area. Walks along it with strides as long as the effort allows: on
 * open ground it falls by no more than a millimetre a millimetre.
 */
function passesWithin(
  site: Site,
  window: EffortWindow,
  from: Point,
  down: Point,
  lengthMm: number,
  radiusMm: number,
): boolean {
  const { grid } = site.terrain
  let goneMm = 0
  while (goneMm <= lengthMm) {
    const cell = cellAt(grid, { x: from.x + goneMm * down.x, y: from.y + goneMm * down.y })
    const effort = cell < 0 ? UNREACHED_MM : effortInCell(window, cell, grid.columns)
    if (effort <= radiusMm) return true
    goneMm += Math.max(grid.cellMm / 2, effort >= UNREACHED_MM ? window.limitMm - radiusMm : effort - radiusMm)
  }
  return false
}

function effortInCell(
  { firstColumn, firstRow, columns, rows, effortMm }: EffortWindow,
  cell: number,
  across: number,
): number {
  const column = (cell % across) - firstColumn
  const row = Math.floor(cell / across) - firstRow
  if (column < 0 || row < 0 || column >= columns || row >= rows) return UNREACHED_MM
  return effortMm[row * columns + column] ?? UNREACHED_MM
}
