/** Which streaks a target's field reaches. The effort to a streak is the least along it; a longer streak only adds to it. */
import type { Grid } from '../base/index.ts'
import type { CellWindow } from './raster.ts'
import { type EffortWindow, UNREACHED_MM } from './window.ts'

/** Streaks downhill from the centres of some cells; all run the same way. */
export interface Streaks {
  readonly grid: Grid
  /** One step along every streak, in cells. */
  readonly stepColumns: number
  readonly stepRows: number
  readonly stepMm: number
  /** Where the streak i starts, in cells from the grid's origin: column and row of a cell's centre are n + ½. */
  readonly startColumn: Float64Array
  readonly startRow: Float64Array
  /** How many steps the streak of place i has at level j: entry i · levels + j, not falling with j. */
  readonly steps: Int32Array
  /** Effort radius in mm of streak i at level j: entry i · levels + j, not falling with j. */
  readonly radiusMm: Float64Array
  readonly levels: number
  /** Steps of the longest of all. */
  readonly longestSteps: number
  /** The cells that they span. */
  readonly cells: CellWindow
}

/** Where a field was cut by the radii (see `reach-limits.ts`), no streak reaches the target for this far, by their margin. */
const CUT_SLACK_CELLS = 2

/**
 * The lowest level whose streak from start i comes within its radius of the target; the number of levels where none does.
 * Walks along the streak, with strides as long as the effort allows: on open ground it falls by no more than a millimetre
 * a millimetre.
 */
export function firstOnStreak(window: EffortWindow, streaks: Streaks, i: number): number {
  const { levels, steps, stepMm, radiusMm } = streaks
  const base = i * levels
  let lowest = levels
  let level = 0
  let goalMm = radiusMm[base + levels - 1] ?? 0
  const slackMm = Math.max(window.limitMm - goalMm, CUT_SLACK_CELLS * streaks.grid.cellMm)
  const last = Math.min(steps[base + levels - 1] ?? 0, exit(window, streaks, i))
  for (let k = entry(window, streaks, i); k <= last; ) {
    while (level < lowest && k > (steps[base + level] ?? 0)) level++
    if (level >= lowest) break
    const effortMm = effortOnStreak(window, streaks, i, k)
    if (effortMm <= goalMm) {
      lowest = level
      while (effortMm > (radiusMm[base + lowest] ?? 0)) lowest++
      goalMm = lowest === 0 ? 0 : (radiusMm[base + lowest - 1] ?? 0)
    }
    const strideMm = effortMm >= UNREACHED_MM ? slackMm : effortMm - goalMm
    k += Math.max(1, Math.floor(strideMm / stepMm))
  }
  return lowest
}

/** The first step at which the streak i is inside the window, beyond every streak where it never is. */
function entry(window: EffortWindow, streaks: Streaks, i: number): number {
  const column = (streaks.startColumn[i] ?? 0) - window.firstColumn
  const row = (streaks.startRow[i] ?? 0) - window.firstRow
  const across = slab(column, streaks.stepColumns, window.columns)
  const along = slab(row, streaks.stepRows, window.rows)
  return Math.max(0, Math.floor(across), Math.floor(along))
}

/** The last step at which it is. */
function exit(window: EffortWindow, streaks: Streaks, i: number): number {
  const column = (streaks.startColumn[i] ?? 0) - window.firstColumn
  const row = (streaks.startRow[i] ?? 0) - window.firstRow
  const across = slabEnd(column, streaks.stepColumns, window.columns)
  return Math.min(across, slabEnd(row, streaks.stepRows, window.rows))
}

function slabEnd(at: number, step: number, size: number): number {
  if (step === 0) return Infinity
  return Math.ceil((step > 0 ? size - at : -at) / step)
}

/** Steps until a coordinate is between 0 and `size`; Infinity where it moves away. */
function slab(at: number, step: number, size: number): number {
  if (at >= 0 && at <= size) return 0
  const distance = at < 0 ? -at : size - at
  return distance * step > 0 ? distance / step : Infinity
}

/** Effort at step k: bilinear where the four cells around were reached, else that of the cell. */
function effortOnStreak(window: EffortWindow, streaks: Streaks, i: number, k: number): number {
  const { columns, rows, effortMm } = window
  const x = (streaks.startColumn[i] ?? 0) + k * streaks.stepColumns - window.firstColumn
  const y = (streaks.startRow[i] ?? 0) + k * streaks.stepRows - window.firstRow
  if (x < 0.5 || y < 0.5 || x >= columns - 0.5 || y >= rows - 0.5) return UNREACHED_MM
  const column = Math.floor(x - 0.5)
  const row = Math.floor(y - 0.5)
  const right = x - 0.5 - column
  const up = y - 0.5 - row
  const at = row * columns + column
  const below = (1 - right) * (effortMm[at] ?? 0) + right * (effortMm[at + 1] ?? 0)
  const above = (1 - right) * (effortMm[at + columns] ?? 0) + right * (effortMm[at + columns + 1] ?? 0)
  const effort = (1 - up) * below + up * above
  if (effort < UNREACHED_MM / 1e6) return effort
  return effortMm[Math.floor(y) * columns + Math.floor(x)] ?? UNREACHED_MM
}
