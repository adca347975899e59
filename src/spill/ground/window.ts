/** An effort field cut to the part of the spill's side that it covers, and spots: places made ready to be looked up in it. */
import { cellCount, type Grid } from '../../base/index.ts'
import type { Marcher } from './march.ts'

/** Stands for "not reached" in a window: finite, so that a weight of zero times it is zero. */
export const UNREACHED_MM = 1e9

/** Efforts in mm on layer 0, row by row, with a rim of unreached cells; everything outside is unreached. */
export interface EffortWindow {
  readonly firstColumn: number
  readonly firstRow: number
  readonly columns: number
  readonly rows: number
  readonly effortMm: Float32Array
  /** What was not reached lies beyond this, or has a wall before it. */
  readonly limitMm: number
}

/** Reached from nowhere. */
export const emptyWindow: EffortWindow = {
  firstColumn: 0,
  firstRow: 0,
  columns: 0,
  rows: 0,
  effortMm: new Float32Array(0),
  limitMm: Infinity,
}

/** Copies what the last run of a marcher reached on layer 0. */
export function windowOf(grid: Grid, marcher: Marcher, count: number, limitMm: number): EffortWindow {
  const cells = cellCount(grid)
  let firstColumn = grid.columns
  let lastColumn = -1
  let firstRow = grid.rows
  let lastRow = -1
  for (let i = 0; i < count; i++) {
    const cell = marcher.order[i] ?? 0
    if (cell >= cells) continue
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    if (column < firstColumn) firstColumn = column
    if (column > lastColumn) lastColumn = column
    if (row < firstRow) firstRow = row
    if (row > lastRow) lastRow = row
  }
  if (lastColumn < 0) return emptyWindow
  const window = {
    firstColumn: firstColumn - 1,
    firstRow: firstRow - 1,
    columns: lastColumn - firstColumn + 3,
    rows: lastRow - firstRow + 3,
  }
  const effortMm = new Float32Array(window.columns * window.rows).fill(UNREACHED_MM)
  for (let i = 0; i < count; i++) {
    const cell = marcher.order[i] ?? 0
    if (cell >= cells) continue
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    const at = (row - window.firstRow) * window.columns + column - window.firstColumn
    effortMm[at] = marcher.effortMm[cell] ?? UNREACHED_MM
  }
  return { ...window, effortMm, limitMm }
}

/** Up to four cells with their weights: (column, row), (column + 1, row), (column, row + 1), (column + 1, row + 1). */
export interface Spot {
  readonly column: number
  readonly row: number
  readonly weights: readonly [number, number, number, number]
}

/** Bilinear in the spot's cells; beyond the window it is unreached. */
export function effortAtSpot(window: EffortWindow, { column, row, weights }: Spot): number {
  const x = column - window.firstColumn
  const y = row - window.firstRow
  const { columns, rows, effortMm } = window
  if (x < 0 || y < 0 || x + 1 >= columns || y + 1 >= rows) return UNREACHED_MM
  const at = y * columns + x
  return (
    weights[0] * (effortMm[at] ?? 0) +
    weights[1] * (effortMm[at + 1] ?? 0) +
    weights[2] * (effortMm[at + columns] ?? 0) +
    weights[3] * (effortMm[at + columns + 1] ?? 0)
  )
}
