/**
 * How far an amount gets from anywhere on the board: volume curves from a lattice of points, marched once and kept, with
 * the radius between them interpolated.
 */
import { cellAt, cellCount, type Point } from '../base/index.ts'
import { closeVolume, curveEndMm, joinCurves, marchVolume, type VolumeCurve } from './curve.ts'
import type { Load } from './film.ts'
import { createMarcher, type Seeds } from './march.ts'
import type { Terrain } from './terrain.ts'

export interface RadiusLattice {
  /** Effort radius in mm of a load at a point of the board. */
  radiusAt(at: Point, load: Load): number
  /** All lattice points that are on the board. */
  readonly nodes: readonly Point[]
  /** Effort radius of a load at one lattice point. */
  radiusAtNode(node: Point, load: Load): number
}

export interface RadiusGround {
  readonly fine: Terrain
  /** The same ground with cells of twice the size, for what is further out. */
  readonly coarse: Terrain
  readonly layer: number
  /** Where the spread of a load starts when it landed at a point: the point itself, or its streak. */
  seeds(terrain: Terrain, at: Point, load: Load): Seeds
  /** True where the seeds are the same for every load, so that one curve serves all. */
  readonly oneCurve: boolean
}

const NODE_SPACING_CELLS = 6
const FINE_TO_CELLS = 10
const MOST_RADII = 64

export function createRadiusLattice(ground: RadiusGround): RadiusLattice {
  const { grid } = ground.fine
  const spacingMm = NODE_SPACING_CELLS * grid.cellMm
  const columns = Math.ceil((grid.columns * grid.cellMm) / spacingMm) + 1
  const rows = Math.ceil((grid.rows * grid.cellMm) / spacingMm) + 1
  const nodeAt = (column: number, row: number): Point => ({
    x: grid.originXMm + column * spacingMm,
    y: grid.originYMm + row * spacingMm,
  })
  const radiusOf = createCurveShelf(ground)

  const radiusAt = (at: Point, load: Load): number => {
    const x = (at.x - grid.originXMm) / spacingMm
    const y = (at.y - grid.originYMm) / spacingMm
    let sum = 0
    let weights = 0
    for (const row of [Math.floor(y), Math.floor(y) + 1]) {
      for (const column of [Math.floor(x), Math.floor(x) + 1]) {
        const weight = (1 - Math.abs(x - column)) * (1 - Math.abs(y - row))
        const node = nodeAt(column, row)
        if (weight < 1e-9 || !lands(ground, node)) continue
        sum += weight * radiusOf(node, load)
        weights += weight
      }
    }
    return weights > 0 ? sum / weights : radiusOf(at, load)
  }
  const nodes: Point[] = []
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const node = nodeAt(column, row)
      if (lands(ground, node)) nodes.push(node)
    }
  }
  return { radiusAt, nodes, radiusAtNode: radiusOf }
}

function lands({ fine, layer }: RadiusGround, at: Point): boolean {
  const cell = cellAt(fine.grid, at)
  return cell >= 0 && (fine.landing[layer * cellCount(fine.grid) + cell] ?? -1) >= 0
}

interface Shelf {
  curve: VolumeCurve
  /** Radii that were asked for before, by volume. */
  readonly radii: Map<number, number>
}

function createCurveShelf(ground: RadiusGround): (at: Point, load: Load) => number {
  const fineMarcher = createMarcher(ground.fine)
  const coarseMarcher = createMarcher(ground.coarse)
  const limitMm = FINE_TO_CELLS * ground.fine.grid.cellMm
  const shelves = new Map<string, Shelf>()

  const curveFor = (at: Point, load: Load): VolumeCurve => {
    const fineSeeds = ground.seeds(ground.fine, at, load)
    const fine = marchVolume(ground.fine, fineMarcher, fineSeeds, load, { limitMm, beyond: 1 })
    if (fine.full || closeVolume(fine, load) !== undefined) return fine
    const coarseSeeds = ground.seeds(ground.coarse, at, load)
    const end = { limitMm: Infinity, beyond: 1 }
    const coarse = marchVolume(ground.coarse, coarseMarcher, coarseSeeds, withMargin(load), end)
    return joinCurves(fine, coarse)
  }
  return (at, load) => {
    const key = ground.oneCurve ? `${at.x},${at.y}` : `${at.x},${at.y},${load.volumeMm3}`
    const shelf = shelves.get(key) ?? { curve: curveFor(at, load), radii: new Map<number, number>() }
    shelves.set(key, shelf)
    const before = shelf.radii.get(load.volumeMm3)
    if (before !== undefined) return before
    let closed = closeVolume(shelf.curve, load)
    if (closed === undefined) {
      shelf.curve = curveFor(at, load)
      closed = closeVolume(shelf.curve, load)
    }
    if (shelf.radii.size >= MOST_RADII) shelf.radii.clear()
    const radiusMm = closed?.radiusMm ?? curveEndMm(shelf.curve)
    shelf.radii.set(load.volumeMm3, radiusMm)
    return radiusMm
  }
}

/** A coarse curve that is joined to a fine one may hold a little less than it seems: march on for a quarter more. */
const withMargin = (load: Load): Load => ({ ...load, volumeMm3: load.volumeMm3 * 1.25 })
