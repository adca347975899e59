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
  const { levels, steps, stepMm, radiusMm, stepColumns, stepRows } = streaks
  const { columns, rows, effortMm } = window
  const base = i * levels
  const fromColumn = (streaks.startColumn[i] ?? 0) - window.firstColumn
  const fromRow = (streaks.startRow[i] ?? 0) - window.firstRow
  const last = Math.min(
    steps[base + levels - 1] ?? 0,
    stepsToLeave(fromColumn, stepColumns, columns),
    stepsToLeave(fromRow, stepRows, rows),
  )
  let goalMm = radiusMm[base + levels - 1] ?? 0
  const slackMm = Math.max(window.limitMm - goalMm, CUT_SLACK_CELLS * streaks.grid.cellMm)
  let lowest = levels
  let level = 0
  let k = Math.max(stepsToEnter(fromColumn, stepColumns, columns), stepsToEnter(fromRow, stepRows, rows))
  while (k <= last) {
    while (level < lowest && k > (steps[base + level] ?? 0)) level++
    if (level >= lowest) break
    const column = Math.floor(fromColumn + k * stepColumns)
    const row = Math.floor(fromRow + k * stepRows)
    const inside = column >= 0 && row >= 0 && column < columns && row < rows
    const effort = inside ? (effortMm[row * columns + column] ?? UNREACHED_MM) : UNREACHED_MM
    if (effort <= goalMm) {
      lowest = level
      while (effort > (radiusMm[base + lowest] ?? 0)) lowest++
      goalMm = lowest === 0 ? 0 : (radiusMm[base + lowest - 1] ?? 0)
    }
    const strideMm = effort >= UNREACHED_MM ? slackMm : effort - goalMm
    k += Math.max(1, Math.floor(strideMm / stepMm))
  }
  return lowest
}

/** Steps until a coordinate is between 0 and `size`; Infinity where it moves away. */
function stepsToEnter(at: number, step: number, size: number): number {
  if (at >= 0 && at <= size) return 0
  const distance = at < 0 ? -at : size - at
  return distance * step > 0 ? Math.floor(distance / step) : Infinity
}

/** Steps until it is there no more. */
function stepsToLeave(at: number, step: number, size: number): number {
  if (step === 0) return Infinity
  return Math.ceil((step > 0 ? size - at : -at) / step)
}
