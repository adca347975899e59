/** An effort field cut to the part of the board that it covers, and how to read it between cell centres. */
import { cellCount, type Grid } from '../base/index.ts'
import type { Marcher } from './march.ts'

/** Efforts in mm, layer after layer, row by row; everything outside is Infinity. */
export interface EffortWindow {
  readonly firstColumn: number
  readonly firstRow: number
  readonly columns: number
  readonly rows: number
  readonly effortMm: Float32Array
}

/** Reached from nowhere. */
export const emptyWindow: EffortWindow = {
  firstColumn: 0,
  firstRow: 0,
  columns: 0,
  rows: 0,
  effortMm: new Float32Array(0),
}

/** Copies what the last run of a marcher reached. */
export function windowOf(grid: Grid, layers: number, marcher: Marcher, count: number): EffortWindow {
  const cells = cellCount(grid)
  let firstColumn = grid.columns
  let lastColumn = -1
  let firstRow = grid.rows
  let lastRow = -1
  for (let i = 0; i < count; i++) {
    const cell = (marcher.order[i] ?? 0) % cells
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    if (column < firstColumn) firstColumn = column
    if (column > lastColumn) lastColumn = column
    if (row < firstRow) firstRow = row
    if (row > lastRow) lastRow = row
  }
  const columns = Math.max(0, lastColumn - firstColumn + 1)
  const rows = Math.max(0, lastRow - firstRow + 1)
  const effortMm = new Float32Array(columns * rows * layers)
  for (let layer = 0; layer < layers; layer++) {
    for (let row = 0; row < rows; row++) {
      const from = layer * cells + (firstRow + row) * grid.columns + firstColumn
      effortMm.set(marcher.effortMm.subarray(from, from + columns), (layer * rows + row) * columns)
    }
  }
  return { firstColumn, firstRow, columns, rows, effortMm }
}

/**
 * A place made ready to be looked up in many windows: up to four cells and their weights (bilinear between centres), or
 * the one cell where something that lands there gets onto the board.
 */
export interface Spot {
  readonly layer: number
  readonly column: number
  readonly row: number
  /** Weights of the cells (column, row), (column + 1, row), (column, row + 1), (column + 1, row + 1). */
  readonly weights: readonly [number, number, number, number]
}

/** Effort at a spot; Infinity where a cell that counts was not reached. */
export function effortAt(window: EffortWindow, spot: Spot): number {
  const column = spot.column - window.firstColumn
  const row = spot.row - window.firstRow
  const { columns, rows, effortMm } = window
  const [w00, w10, w01, w11] = spot.weights
  if (w10 === 0 && w01 === 0 && w11 === 0) {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return Infinity
    return effortMm[(spot.layer * rows + row) * columns + column] ?? Infinity
  }
  if (column < 0 || row < 0 || column + 1 >= columns || row + 1 >= rows) return Infinity
  const at = (spot.layer * rows + row) * columns + column
  return (
    w00 * (effortMm[at] ?? Infinity) +
    w10 * (effortMm[at + 1] ?? Infinity) +
    w01 * (effortMm[at + columns] ?? Infinity) +
    w11 * (effortMm[at + columns + 1] ?? Infinity)
  )
}
