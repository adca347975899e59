/** A rail's copper as square cells joined to their neighbours: the thin sheet in finite volumes. */
import {
  boxOf,
  type Grid,
  gridOver,
  cellCentre,
  cellCount,
  distance,
  type Point,
  polygonContains,
} from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { shortAssumptions } from './assumptions.ts'
import type { RailCopper } from './copper.ts'

/** One connected piece of copper. Nodes are its cells, line by line along the grid’s shorter side from the lower left. */
export interface Sheet {
  readonly grid: Grid
  /** Cell of the grid for each node. */
  readonly cells: Int32Array
  /** Node of each cell, -1 where the piece is not. */
  readonly nodeOf: Int32Array
  /** Node to the left and below, -1 where there is none, with the conductance to it, per milliohm. */
  readonly west: Int32Array
  readonly south: Int32Array
  readonly westPerMilliohm: Float64Array
  readonly southPerMilliohm: Float64Array
}

const MOST_CELLS = 14_000
const FINEST_MM = 0.2
const COARSEST_MM = 3

/** @param cellMm chosen so that some 14,000 cells are copper where left out, between 0.2 and 3 mm */
export function sheetsOf(model: BoardModel, copper: RailCopper, cellMm?: number): Sheet[] {
  const box = boxOf(copper.pieces.flatMap(({ polygon }) => polygon))
  const spanMm2 = (box.maxX - box.minX) * (box.maxY - box.minY)
  const size = cellMm ?? Math.min(COARSEST_MM, Math.max(FINEST_MM, Math.sqrt(spanMm2 / MOST_CELLS)))
  const grid = gridOver(box, size)
  return piecesOf(grid, conductanceOn(grid, model, copper))
}

/** Conductance of one square at each cell, per milliohm; 0 off the copper. */
function conductanceOn(grid: Grid, model: BoardModel, copper: RailCopper): Float64Array {
  const perMilliohm = new Float64Array(cellCount(grid))
  const assumed = copper.from === 'assumed'
  for (let cell = 0; cell < perMilliohm.length; cell++) {
    const at = cellCentre(grid, cell)
    let sum = 0
    for (const piece of copper.pieces) if (polygonContains(piece.polygon, at)) sum += piece.perMilliohm
    if (sum > 0 && !(assumed && isBare(model, at))) perMilliohm[cell] = sum
  }
  return perMilliohm
}

/** Off the board, or in a hole or cut-out. Drawn copper is taken as it is drawn. */
function isBare(model: BoardModel, at: Point): boolean {
  if (!polygonContains(model.outline, at)) return true
  if (model.cutouts.some((cutout) => polygonContains(cutout, at))) return true
  return model.drills.some((drill) => distance(drill.at, at) < drill.diameterMm / 2 + shortAssumptions.clearanceMm)
}

/** Cells that touch along an edge belong together; the largest piece comes first. */
function piecesOf(grid: Grid, perMilliohm: Float64Array): Sheet[] {
  const pieceOf = new Int32Array(perMilliohm.length).fill(-1)
  const sizes: number[] = []
  const waiting = new Int32Array(perMilliohm.length)
  for (let start = 0; start < perMilliohm.length; start++) {
    if (perMilliohm[start] === 0 || pieceOf[start] !== -1) continue
    const piece = sizes.length
    let count = 0
    let end = 0
    waiting[end++] = start
    pieceOf[start] = piece
    while (count < end) {
      const cell = waiting[count++] ?? 0
      const column = cell % grid.columns
      if (column > 0) end = join(cell - 1, piece, perMilliohm, pieceOf, waiting, end)
      if (column + 1 < grid.columns) end = join(cell + 1, piece, perMilliohm, pieceOf, waiting, end)
      end = join(cell - grid.columns, piece, perMilliohm, pieceOf, waiting, end)
      end = join(cell + grid.columns, piece, perMilliohm, pieceOf, waiting, end)
    }
    sizes.push(count)
  }
  const order = sizes.map((_, piece) => piece).toSorted((a, b) => (sizes[b] ?? 0) - (sizes[a] ?? 0))
  return order.map((piece) => sheetOf(grid, perMilliohm, pieceOf, piece, sizes[piece] ?? 0))
}

function join(
  cell: number,
  piece: number,
  perMilliohm: Float64Array,
  pieceOf: Int32Array,
  waiting: Int32Array,
  end: number,
): number {
  if (!((perMilliohm[cell] ?? 0) > 0) || pieceOf[cell] !== -1) return end
  pieceOf[cell] = piece
  waiting[end] = cell
  return end + 1
}

function sheetOf(grid: Grid, perMilliohm: Float64Array, pieceOf: Int32Array, piece: number, count: number): Sheet {
  const cells = new Int32Array(count)
  const nodeOf = new Int32Array(perMilliohm.length).fill(-1)
  // Short lines keep a node's neighbours close in number, which is what the direct solver lives on.
  const byColumns = grid.columns > grid.rows
  for (let i = 0, node = 0; i < perMilliohm.length; i++) {
    const cell = byColumns ? (i % grid.rows) * grid.columns + Math.floor(i / grid.rows) : i
    if (pieceOf[cell] !== piece) continue
    cells[node] = cell
    nodeOf[cell] = node++
  }
  const west = new Int32Array(count).fill(-1)
  const south = new Int32Array(count).fill(-1)
  const westPerMilliohm = new Float64Array(count)
  const southPerMilliohm = new Float64Array(count)
  // Half a cell of each: the two halves lie in series, and a square's conductance does not depend on its size.
  const between = (a: number, b: number): number => {
    const first = perMilliohm[a] ?? 0
    const second = perMilliohm[b] ?? 0
    return (2 * first * second) / (first + second)
  }
  for (let node = 0; node < count; node++) {
    const cell = cells[node] ?? 0
    const left = cell % grid.columns === 0 ? -1 : (nodeOf[cell - 1] ?? -1)
    const below = nodeOf[cell - grid.columns] ?? -1
    west[node] = left
    south[node] = below
    if (left >= 0) westPerMilliohm[node] = between(cell, cell - 1)
    if (below >= 0) southPerMilliohm[node] = between(cell, cell - grid.columns)
  }
  return { grid, cells, nodeOf, west, south, westPerMilliohm, southPerMilliohm }
}
