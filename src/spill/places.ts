/** The distribution of a spill's place as weighted points on a raster, ready to be looked up in effort fields. */
import { type Box, cellAt, cellCentre, cellCount, type Grid, gridOver, type Point } from '../base/index.ts'
import { spotOf } from './spot.ts'
import type { Terrain } from './terrain.ts'
import type { CellWindow } from './raster.ts'
import { packSpots, type Spot, type Spots } from './window.ts'

export interface Place {
  readonly at: Point
  readonly weight: number
}

export interface Places {
  /** Each place is the centre of a cell of this raster. */
  readonly grid: Grid
  readonly list: readonly Place[]
  /** Weights of the places once more; they sum to one. */
  readonly weights: Float64Array
  /** Where the effort of each place is read, and the cells of the terrain that these spots span. */
  readonly spots: Spots
  readonly cells: CellWindow
  /** The cell of the terrain where what lands at each place gets onto the board. */
  readonly landing: Int32Array
}

/** Places along each axis, over three standard deviations to either side, unless they would stand too far apart. */
const PLACES_ACROSS = 11
const SPREAD_SD = 3
const WIDEST_SPACING_MM = 8
/** A point that is surer than this is taken as certain. */
const CERTAIN_SD_MM = 0.05

/**
 * A two-dimensional normal distribution about `at`, cut at three standard deviations and at the board's edge: what landed
 * off the board is no spill on it, so the rest is scaled to one.
 */
export function gaussianPlaces(terrain: Terrain, at: Point, sdMm: number): Places {
  const certain = sdMm < CERTAIN_SD_MM
  const widthMm = 2 * Math.min(SPREAD_SD * sdMm, diagonalMm(terrain.grid))
  const spacingMm = Math.min(WIDEST_SPACING_MM, widthMm / PLACES_ACROSS)
  const across = certain ? 1 : 2 * Math.round((widthMm / spacingMm - 1) / 2) + 1
  const cellMm = certain ? terrain.grid.cellMm : spacingMm
  const half = (across * cellMm) / 2
  const grid: Grid = { originXMm: at.x - half, originYMm: at.y - half, cellMm, columns: across, rows: across }
  return weighted(terrain, grid, (place) => {
    if (certain) return 1
    const squared = ((place.x - at.x) ** 2 + (place.y - at.y) ** 2) / (sdMm * sdMm)
    return squared > SPREAD_SD * SPREAD_SD ? 0 : Math.exp(-squared / 2)
  })
}

const diagonalMm = ({ columns, rows, cellMm }: Grid): number => Math.hypot(columns, rows) * cellMm

/** Anywhere on one side of the board with the same density, one place every `spacingMm`. */
export function uniformPlaces(terrain: Terrain, box: Box, spacingMm: number): Places {
  return weighted(terrain, gridOver(box, spacingMm), () => 1)
}

function weighted(terrain: Terrain, grid: Grid, density: (at: Point) => number): Places {
  const found: Place[] = []
  const spots: Spot[] = []
  let sum = 0
  for (let cell = 0; cell < cellCount(grid); cell++) {
    const at = cellCentre(grid, cell)
    const weight = density(at)
    const spot = weight > 0 ? spotOf(terrain, at) : undefined
    if (spot === undefined) continue
    sum += weight
    found.push({ at, weight })
    spots.push(spot)
  }
  const list = found.map((place) => ({ at: place.at, weight: place.weight / sum }))
  const weights = Float64Array.from(list, (place) => place.weight)
  const landing = Int32Array.from(list, ({ at }) => terrain.landing[cellAt(terrain.grid, at)] ?? -1)
  return { grid, list, weights, spots: packSpots(spots), cells: spanOf(spots), landing }
}

function spanOf(spots: readonly Spot[]): CellWindow {
  const span = { firstColumn: Infinity, lastColumn: -Infinity, firstRow: Infinity, lastRow: -Infinity }
  for (const { column, row } of spots) {
    span.firstColumn = Math.min(span.firstColumn, column)
    span.lastColumn = Math.max(span.lastColumn, column)
    span.firstRow = Math.min(span.firstRow, row)
    span.lastRow = Math.max(span.lastRow, row)
  }
  return span
}
