/**
 * How far an amount gets from anywhere on the board: volume curves from a lattice of points, marched once and kept, with
 * the radius between them interpolated.
 */
import { cellAt, cellCount, type Point } from '../base/index.ts'
import { closeVolume, curveEndMm, joinCurves, marchVolume, type VolumeCurve } from './curve.ts'
import type { Load } from './film.ts'
import { createMarcher, type Seeds } from './march.ts'
import type { Terrain } from './terrain.ts'

export interface LatticeNode {
  readonly key: number
  readonly at: Point
}

export interface RadiusLattice {
  /** Effort radius in mm of a load at a point of the board. */
  radiusAt(at: Point, load: Load): number
  /** All lattice points that are on the board. */
  readonly nodes: readonly LatticeNode[]
  /** Effort radius of a load at one lattice point. */
  radiusAtNode(node: LatticeNode, load: Load): number
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
/** A streak averages over its length, and takes a march for each of its lengths. */
const STREAK_NODE_SPACING_CELLS = 9
const FINE_TO_CELLS = 10
const MOST_RADII = 64

export function createRadiusLattice(ground: RadiusGround): RadiusLattice {
  const { grid } = ground.fine
  const spacingMm = (ground.oneCurve ? NODE_SPACING_CELLS : STREAK_NODE_SPACING_CELLS) * grid.cellMm
  const columns = Math.ceil((grid.columns * grid.cellMm) / spacingMm) + 1
  const rows = Math.ceil((grid.rows * grid.cellMm) / spacingMm) + 1
  const nodeAt = (column: number, row: number): Point => ({
    x: grid.originXMm + column * spacingMm,
    y: grid.originYMm + row * spacingMm,
  })
  const radiusOf = createCurveShelf(ground)
  const onBoard = new Uint8Array(columns * rows)
  const nodes: LatticeNode[] = []
  for (let key = 0; key < onBoard.length; key++) {
    const at = nodeAt(key % columns, Math.floor(key / columns))
    if (!lands(ground, at)) continue
    onBoard[key] = 1
    nodes.push({ key, at })
  }

  const radiusAt = (at: Point, load: Load): number => {
    const x = (at.x - grid.originXMm) / spacingMm
    const y = (at.y - grid.originYMm) / spacingMm
    let sum = 0
    let weights = 0
    for (let row = Math.floor(y); row <= y + 1; row++) {
      for (let column = Math.floor(x); column <= x + 1; column++) {
        const weight = (1 - Math.abs(x - column)) * (1 - Math.abs(y - row))
        const key = row * columns + column
        if (weight < 1e-9 || onBoard[key] !== 1) continue
        sum += weight * radiusOf(key, nodeAt(column, row), load)
        weights += weight
      }
    }
    if (weights > 0) return sum / weights
    return radiusOf(onBoard.length + cellAt(grid, at), at, load)
  }
  return { radiusAt, nodes, radiusAtNode: ({ key, at }, load) => radiusOf(key, at, load) }
}

function lands({ fine, layer }: RadiusGround, at: Point): boolean {
  const cell = cellAt(fine.grid, at)
  return cell >= 0 && (fine.landing[layer * cellCount(fine.grid) + cell] ?? -1) >= 0
}

interface Node {
  /** One curve for all loads, or one a volume where streaks run. */
  readonly curves: Map<number, VolumeCurve>
  /** Radii that were asked for before, by volume. */
  readonly radii: Map<number, { readonly load: Load; readonly radiusMm: number }>
}

/** Radius of a load at a node, whose number is `key`. */
function createCurveShelf(ground: RadiusGround): (key: number, at: Point, load: Load) => number {
  const fineMarcher = createMarcher(ground.fine)
  const coarseMarcher = createMarcher(ground.coarse)
  const limitMm = FINE_TO_CELLS * ground.fine.grid.cellMm
  const nodes = new Map<number, Node>()

  const curveFor = (at: Point, load: Load): VolumeCurve => {
    const fineSeeds = ground.seeds(ground.fine, at, load)
    const fine = marchVolume(ground.fine, fineMarcher, fineSeeds, load, { limitMm, beyond: 1 })
    if (fine.full || closeVolume(fine, load) !== undefined) return fine
    const coarseSeeds = ground.seeds(ground.coarse, at, load)
    const end = { limitMm: Infinity, beyond: 1 }
    const coarse = marchVolume(ground.coarse, coarseMarcher, coarseSeeds, withMargin(load), end)
    return joinCurves(fine, coarse)
  }
  const closeAt = (node: Node, at: Point, load: Load): number => {
    const curveKey = ground.oneCurve ? 0 : load.volumeMm3
    const kept = node.curves.get(curveKey)
    const closed = kept === undefined ? undefined : closeVolume(kept, load)
    if (closed !== undefined) return closed.radiusMm
    const curve = curveFor(at, load)
    if (node.curves.size >= MOST_RADII) node.curves.clear()
    node.curves.set(curveKey, curve)
    return closeVolume(curve, load)?.radiusMm ?? curveEndMm(curve)
  }
  return (key, at, load) => {
    let node = nodes.get(key)
    if (node === undefined) {
      node = { curves: new Map(), radii: new Map() }
      nodes.set(key, node)
    }
    const before = node.radii.get(load.volumeMm3)
    if (before !== undefined && before.load.maskFilmMm === load.maskFilmMm) return before.radiusMm
    const radiusMm = closeAt(node, at, load)
    if (node.radii.size >= MOST_RADII) node.radii.clear()
    node.radii.set(load.volumeMm3, { load, radiusMm })
    return radiusMm
  }
}

/** A coarse curve that is joined to a fine one may hold a little less than it seems: march on for a quarter more. */
const withMargin = (load: Load): Load => ({ ...load, volumeMm3: load.volumeMm3 * 1.25 })
