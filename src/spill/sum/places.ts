/**
 * The distribution of a spill's place as weighted points. They stand on a lattice that belongs to the board, not to the
 * mark: moving the mark changes their weights and nothing else, so that probabilities change as smoothly as the
 * distribution does, and what was marched from a place is of use wherever the mark goes. Each place lies elsewhere in its
 * cell: parts and streaks run along the axes, and rows of places would meet or miss an edge all together.
 */
import { type Box, cellAt, distance, type Grid, type Point } from '../../base/index.ts'
import { evenShare, normalQuantile } from '../draws.ts'
import type { TrialPlace } from './trial.ts'
import type { Terrain } from '../ground/terrain.ts'

export interface Place extends TrialPlace {
  readonly weight: number
}

export interface Places {
  /** Each place lies in a cell of this raster. */
  readonly grid: Grid
  /** Weights sum to one. */
  readonly list: readonly Place[]
  /** Edge of the lattice's cells; undefined for a single point, which stands on none. */
  readonly spacingMm: number | undefined
}

/** Places stand over three standard deviations to either side, at least this many in each of them. */
const SPREAD_SD = 3
const PLACES_PER_SD = 3.3
const SPACINGS_MM = [0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.75, 0.9, 1.2, 1.5, 1.8, 2.4, 3, 4, 5, 6, 8]
/** A point that is surer than this is taken to be sure to this: the raster knows no better. */
const CERTAIN_SD_MM = 0.1

const DRAWS_OF_ONE = 144
const ACROSS_DRAW = 5
const ALONG_DRAW = 6

/**
 * Spacing in mm of the places for a point that is known to a standard deviation in mm: the widest step of the series
 * that gives 3.3 places in each deviation, else the finest. Undefined under 0.1 mm: the point is taken as sure.
 */
export const spacingFor = (sdMm: number): number | undefined =>
  sdMm < CERTAIN_SD_MM
    ? undefined
    : (SPACINGS_MM.findLast((spacing) => spacing <= sdMm / PLACES_PER_SD) ?? SPACINGS_MM[0])

/**
 * A two-dimensional normal distribution about `at`, cut at three standard deviations and at the board's edge: what landed
 * off the board is no spill on it, so the rest is scaled to one.
 */
export function gaussianPlaces(terrain: Terrain, at: Point, sdMm: number): Places {
  const spacingMm = spacingFor(sdMm)
  if (spacingMm === undefined) return certainPlace(terrain, at)
  const reachMm = SPREAD_SD * sdMm
  const around = { minX: at.x - reachMm, maxX: at.x + reachMm, minY: at.y - reachMm, maxY: at.y + reachMm }
  const places = latticePlaces(terrain, around, spacingMm, (place) => {
    const squared = ((place.x - at.x) ** 2 + (place.y - at.y) ** 2) / (sdMm * sdMm)
    return squared > SPREAD_SD * SPREAD_SD ? 0 : Math.exp(-squared / 2)
  })
  return places.list.length === 0 ? certainPlace(terrain, at) : places
}

/** Anywhere on one side of the board with the same density, one place every `spacingMm`. */
export const uniformPlaces = (terrain: Terrain, box: Box, spacingMm: number): Places =>
  latticePlaces(terrain, box, spacingMm, () => 1)

/** All places of a lattice that are on the board, nearest to a point first. */
export function latticePlacesNear(terrain: Terrain, at: Point, spacingMm: number): Place[] {
  const { originXMm, originYMm, columns, rows, cellMm } = terrain.grid
  const whole = {
    minX: originXMm,
    minY: originYMm,
    maxX: originXMm + columns * cellMm,
    maxY: originYMm + rows * cellMm,
  }
  const { list } = latticePlaces(terrain, whole, spacingMm, () => 1)
  return list.toSorted((a, b) => distance(a.at, at) - distance(b.at, at))
}

/** A point as many places about it: each of them draws anew what else is not known, and the raster's own error with it. */
function certainPlace(terrain: Terrain, at: Point): Places {
  const { cellMm } = terrain.grid
  const grid = { originXMm: at.x - cellMm / 2, originYMm: at.y - cellMm / 2, cellMm, columns: 1, rows: 1 }
  const about = Array.from({ length: DRAWS_OF_ONE }, (_, column) => ({
    at: {
      x: at.x + CERTAIN_SD_MM * normalQuantile(evenShare(ACROSS_DRAW, column, 0, 0)),
      y: at.y + CERTAIN_SD_MM * normalQuantile(evenShare(ALONG_DRAW, column, 0, 0)),
    },
    column,
    row: 0,
  })).filter((place) => lands(terrain, place.at))
  return { grid, list: about.map((place) => ({ ...place, weight: 1 / about.length })), spacingMm: undefined }
}

/** The places of the cells within a box, those on the board that have any weight. */
function latticePlaces(terrain: Terrain, box: Box, spacingMm: number, density: (at: Point) => number): Places {
  const { originXMm, originYMm, columns, rows, cellMm } = terrain.grid
  const firstColumn = Math.max(0, Math.floor((box.minX - originXMm) / spacingMm))
  const firstRow = Math.max(0, Math.floor((box.minY - originYMm) / spacingMm))
  const endColumn = Math.ceil(Math.min(box.maxX - originXMm, columns * cellMm) / spacingMm)
  const endRow = Math.ceil(Math.min(box.maxY - originYMm, rows * cellMm) / spacingMm)
  const found: Place[] = []
  let sum = 0
  for (let row = firstRow; row < endRow; row++) {
    for (let column = firstColumn; column < endColumn; column++) {
      const at = {
        x: originXMm + (column + evenShare(ACROSS_DRAW, column, row, 0)) * spacingMm,
        y: originYMm + (row + evenShare(ALONG_DRAW, column, row, 0)) * spacingMm,
      }
      const weight = density(at)
      if (weight === 0 || !lands(terrain, at)) continue
      sum += weight
      found.push({ at, column, row, weight })
    }
  }
  const grid: Grid = {
    originXMm: originXMm + firstColumn * spacingMm,
    originYMm: originYMm + firstRow * spacingMm,
    cellMm: spacingMm,
    columns: Math.max(1, endColumn - firstColumn),
    rows: Math.max(1, endRow - firstRow),
  }
  return { grid, list: found.map((place) => ({ ...place, weight: place.weight / sum })), spacingMm }
}

/** True where something that lands there gets onto the board. */
export function lands(terrain: Terrain, at: Point): boolean {
  const cell = cellAt(terrain.grid, at)
  return cell >= 0 && (terrain.landing[cell] ?? -1) >= 0
}
