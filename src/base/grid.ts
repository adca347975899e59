/** A square raster over the board. Cell (0, 0) is the lower left; cell centres sit half a cell in. */
import type { Box, Point } from './geometry.ts'

export interface Grid {
  readonly originXMm: number
  readonly originYMm: number
  readonly cellMm: number
  readonly columns: number
  readonly rows: number
}

/** The smallest grid of the given cell that covers `box` with `marginMm` around it. */
export function gridOver(box: Box, cellMm: number, marginMm = 0): Grid {
  return {
    originXMm: box.minX - marginMm,
    originYMm: box.minY - marginMm,
    cellMm,
    columns: Math.max(1, Math.ceil((box.maxX - box.minX + 2 * marginMm) / cellMm - 1e-9)),
    rows: Math.max(1, Math.ceil((box.maxY - box.minY + 2 * marginMm) / cellMm - 1e-9)),
  }
}

/** Number of cells; they are numbered row by row from the lower left. */
export const cellCount = (grid: Grid): number => grid.columns * grid.rows

/** Index of the cell that holds a point, or -1 outside of the grid. */
export function cellAt(grid: Grid, point: Point): number {
  const column = Math.floor((point.x - grid.originXMm) / grid.cellMm)
  const row = Math.floor((point.y - grid.originYMm) / grid.cellMm)
  if (column < 0 || row < 0 || column >= grid.columns || row >= grid.rows) return -1
  return row * grid.columns + column
}

/** Centre of a cell on the board, mm, y up. Takes any number: who hands in one off the raster gets a point off it. */
export function cellCentre(grid: Grid, cell: number): Point {
  const column = cell % grid.columns
  const row = (cell - column) / grid.columns
  return { x: grid.originXMm + (column + 0.5) * grid.cellMm, y: grid.originYMm + (row + 0.5) * grid.cellMm }
}

/**
 * A loop of d3-contour, which counts in cells from the grid's corner, in board mm.
 * @param loop its first point once more at the end
 * @returns x, y in turn, without that last point
 */
export function loopOnBoard(loop: readonly (readonly number[])[], grid: Grid): Float32Array {
  const points = new Float32Array(2 * Math.max(0, loop.length - 1))
  for (let i = 0; i + 1 < loop.length; i++) {
    points[2 * i] = grid.originXMm + (loop[i]?.[0] ?? 0) * grid.cellMm
    points[2 * i + 1] = grid.originYMm + (loop[i]?.[1] ?? 0) * grid.cellMm
  }
  return points
}
