/** Where joints are between cell middles: temperatures at the joints themselves, bilinear, of second order in the cell. */
import type { Grid, Point } from '../base/index.ts'

/** Four cells and their weights per joint, joint after joint; weights add up to 1. */
export interface JointPoints {
  readonly count: number
  readonly cells: Int32Array
  readonly weights: Float64Array
}

/** @param capacity heat capacity per cell; cells without any are off the board and get no weight */
export function jointPointsAt(grid: Grid, capacity: Float64Array, points: readonly Point[]): JointPoints {
  const cells: number[] = []
  const weights: number[] = []
  for (const point of points) {
    const u = (point.x - grid.originXMm) / grid.cellMm - 0.5
    const v = (point.y - grid.originYMm) / grid.cellMm - 0.5
    const around = cornersAt(grid, capacity, u, v)
    const sum = around.reduce((total, { weight }) => total + weight, 0)
    if (sum < 1e-9) continue
    for (const { cell, weight } of around) {
      cells.push(cell)
      weights.push(weight / sum)
    }
  }
  return { count: cells.length / 4, cells: Int32Array.from(cells), weights: Float64Array.from(weights) }
}

function cornersAt(grid: Grid, capacity: Float64Array, u: number, v: number): { cell: number; weight: number }[] {
  const column = Math.floor(u)
  const row = Math.floor(v)
  return [0, 1, 2, 3].map((k) => {
    const c = Math.max(0, Math.min(grid.columns - 1, column + (k % 2)))
    const r = Math.max(0, Math.min(grid.rows - 1, row + Math.floor(k / 2)))
    const cell = r * grid.columns + c
    const across = k % 2 === 0 ? column + 1 - u : u - column
    const along = k < 2 ? row + 1 - v : v - row
    return { cell, weight: (capacity[cell] ?? 0) > 0 ? across * along : 0 }
  })
}

/** Value at joint `k`. */
export function atJoint(points: JointPoints, k: number, values: Float64Array): number {
  const { cells, weights } = points
  const i = 4 * k
  return (
    (weights[i] ?? 0) * (values[cells[i] ?? 0] ?? 0) +
    (weights[i + 1] ?? 0) * (values[cells[i + 1] ?? 0] ?? 0) +
    (weights[i + 2] ?? 0) * (values[cells[i + 2] ?? 0] ?? 0) +
    (weights[i + 3] ?? 0) * (values[cells[i + 3] ?? 0] ?? 0)
  )
}

/** Greatest and least value over the joints; infinities where there are none. */
export function extremes(points: JointPoints, values: Float64Array): { high: number; low: number } {
  let high = -Infinity
  let low = Infinity
  for (let k = 0; k < points.count; k++) {
    const value = atJoint(points, k, values)
    if (value > high) high = value
    if (value < low) low = value
  }
  return { high, low }
}

/** One joint for each cell that is nearest to any: enough to search on, as temperatures vary little within a cell. */
export function onePerCell(points: JointPoints): JointPoints {
  const seen = new Set<number>()
  const kept: number[] = []
  for (let k = 0; k < points.count; k++) {
    const corners = [0, 1, 2, 3].map((c) => ({
      cell: points.cells[4 * k + c] ?? 0,
      weight: points.weights[4 * k + c] ?? 0,
    }))
    const nearest = corners.reduce((a, b) => (b.weight > a.weight ? b : a)).cell
    if (!seen.has(nearest)) kept.push(k)
    seen.add(nearest)
  }
  const four = kept.flatMap((k) => [4 * k, 4 * k + 1, 4 * k + 2, 4 * k + 3])
  return {
    count: kept.length,
    cells: Int32Array.from(four, (i) => points.cells[i] ?? 0),
    weights: Float64Array.from(four, (i) => points.weights[i] ?? 0),
  }
}
