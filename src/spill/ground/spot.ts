/** From a point on the spill's side to the cells of a terrain where its efforts are read. */
import { cellAt, type Point } from '../../base/index.ts'
import type { Terrain } from './terrain.ts'
import type { Spot } from './window.ts'

/** A cell counts from this weight on, so that one that was not reached always shows. */
const LEAST_WEIGHT = 1e-3

/** The spot of a point on layer 0, or undefined off the board. Bilinear where the four cells around are alike, else one cell. */
export function spotOf(terrain: Terrain, at: Point): Spot | undefined {
  const { grid, slowness } = terrain
  const under = cellAt(grid, at)
  const landing = under < 0 ? -1 : (terrain.landing[under] ?? -1)
  if (landing < 0) return undefined
  if (landing !== under) return cellSpot(terrain, landing)
  const x = (at.x - grid.originXMm) / grid.cellMm - 0.5
  const y = (at.y - grid.originYMm) / grid.cellMm - 0.5
  const column = Math.floor(x)
  const row = Math.floor(y)
  const corner = row * grid.columns + column
  const mine = slowness[under]
  const alike =
    slowness[corner] === mine &&
    slowness[corner + 1] === mine &&
    slowness[corner + grid.columns] === mine &&
    slowness[corner + grid.columns + 1] === mine
  if (!alike) return cellSpot(terrain, under)
  const right = snapped(x - column)
  const up = snapped(y - row)
  return { column, row, weights: [(1 - right) * (1 - up), right * (1 - up), (1 - right) * up, right * up] }
}

function snapped(share: number): number {
  if (share < LEAST_WEIGHT) return 0
  return share > 1 - LEAST_WEIGHT ? 1 : share
}

function cellSpot(terrain: Terrain, cell: number): Spot {
  const column = cell % terrain.grid.columns
  return { column, row: (cell - column) / terrain.grid.columns, weights: [1, 0, 0, 0] }
}
