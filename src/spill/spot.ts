/** From a point on the board to the cells of a terrain where its efforts are read. */
import { cellAt, cellCount, type Point } from '../base/index.ts'
import type { Terrain } from './terrain.ts'
import type { Spot } from './window.ts'

/** Keeps every weight above zero, so that an unreached cell never meets a weight of nothing (0 · Infinity). */
const LEAST_WEIGHT = 1e-6

/** The spot of a point, or undefined off the board. Bilinear where all four cells around are alike, else one cell. */
export function spotOf(terrain: Terrain, layer: number, at: Point): Spot | undefined {
  const { grid } = terrain
  const base = layer * cellCount(grid)
  const under = cellAt(grid, at)
  const landing = under < 0 ? -1 : (terrain.landing[base + under] ?? -1)
  if (landing < 0) return undefined
  if (landing !== base + under) return cellSpot(terrain, layer, landing - base)
  const x = (at.x - grid.originXMm) / grid.cellMm - 0.5
  const y = (at.y - grid.originYMm) / grid.cellMm - 0.5
  const column = Math.floor(x)
  const row = Math.floor(y)
  const corner = base + row * grid.columns + column
  const alike = [corner, corner + 1, corner + grid.columns, corner + grid.columns + 1].every(
    (cell) => terrain.slowness[cell] === terrain.slowness[base + under],
  )
  if (!alike) return cellSpot(terrain, layer, under)
  const right = Math.min(1 - LEAST_WEIGHT, Math.max(LEAST_WEIGHT, x - column))
  const up = Math.min(1 - LEAST_WEIGHT, Math.max(LEAST_WEIGHT, y - row))
  return { layer, column, row, weights: [(1 - right) * (1 - up), right * (1 - up), (1 - right) * up, right * up] }
}

function cellSpot(terrain: Terrain, layer: number, cell: number): Spot {
  const column = cell % terrain.grid.columns
  return { layer, column, row: (cell - column) / terrain.grid.columns, weights: [1, 0, 0, 0] }
}
