/** The board as the flow sees it: cells of one side, which of them lie on the board, and under which body. */
import { distanceToSegment, type Point, polygonContains } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, type Side, standsOnBoard } from '../../board/index.ts'

export interface Ground {
  readonly side: Side
  readonly cellMm: number
  readonly columns: number
  readonly rows: number
  readonly minX: number
  readonly minY: number
  /** 1 where the cell is board. */
  readonly board: Uint8Array
  /** Index into `bodies`, or -1. */
  readonly body: Int16Array
  /** Distance in mm from the cell to the rim of the body over it; 0 outside of bodies. */
  readonly depthMm: Float32Array
  readonly bodies: readonly PlacedPart[]
  /** By region of this side: its cells. */
  readonly regionCells: ReadonlyMap<string, Int32Array>
  /** By lane: cells of its corridor that no body covers. */
  readonly corridorCells: ReadonlyMap<string, Int32Array>
}

const CELL_MM = 1
/** Smaller bodies are part of the roughness of the board. */
const LEAST_BODY_MM2 = 8

const grounds = new WeakMap<BoardModel, Map<Side, Ground>>()

/** The ground of one side of a board, made once for each board and kept as long as it is. */
export function groundOf(model: BoardModel, side: Side): Ground {
  const known = grounds.get(model) ?? new Map<Side, Ground>()
  grounds.set(model, known)
  const ground = known.get(side) ?? build(model, side)
  known.set(side, ground)
  return ground
}

function build(model: BoardModel, side: Side): Ground {
  const { minX, minY, maxX, maxY } = model.box
  const columns = Math.ceil((maxX - minX) / CELL_MM)
  const rows = Math.ceil((maxY - minY) / CELL_MM)
  const grid = { columns, rows, minX, minY, cellMm: CELL_MM }
  const board = new Uint8Array(columns * rows)
  const body = new Int16Array(columns * rows).fill(-1)
  const depthMm = new Float32Array(columns * rows)
  const bodies = model.parts.filter(
    (part) => part.side === side && standsOnBoard(part) && part.widthMm * part.lengthMm >= LEAST_BODY_MM2,
  )
  for (let cell = 0; cell < board.length; cell++) {
    const at = centreOf(grid, cell)
    const drilled = model.drills.some((hole) => Math.hypot(at.x - hole.at.x, at.y - hole.at.y) < hole.diameterMm / 2)
    if (drilled || !polygonContains(model.outline, at)) continue
    if (model.cutouts.some((cutout) => polygonContains(cutout, at))) continue
    board[cell] = 1
  }
  for (const [index, part] of bodies.entries()) {
    for (const cell of cellsWithin(grid, part.outline)) {
      body[cell] = index
      depthMm[cell] = rimDistance(part.outline, centreOf(grid, cell))
    }
  }
  const regionCells = new Map<string, Int32Array>()
  for (const region of model.regions) {
    if (region.side !== side) continue
    const cells = cellsWithin(grid, region.polygon)
    regionCells.set(region.id, Int32Array.from(cells.length > 0 ? cells : [cellAt(grid, region.centre)]))
  }
  const corridorCells = new Map<string, Int32Array>()
  for (const { lane, path, side: own } of model.corridors) {
    if (own !== side) continue
    corridorCells.set(lane, Int32Array.from(cellsAlong(grid, path).filter((cell) => body[cell] === -1)))
  }
  return { ...grid, side, board, body, depthMm, bodies, regionCells, corridorCells }
}

type Lattice = Pick<Ground, 'columns' | 'rows' | 'minX' | 'minY' | 'cellMm'>

/** Middle of a cell on the board, mm; cells are numbered row by row from the lower left. */
export const centreOf = ({ columns, minX, minY, cellMm }: Lattice, cell: number): Point => ({
  x: minX + ((cell % columns) + 0.5) * cellMm,
  y: minY + (Math.floor(cell / columns) + 0.5) * cellMm,
})

/** The cell that holds a point; points outside are taken to the nearest cell. */
export function cellAt({ columns, rows, minX, minY, cellMm }: Lattice, { x, y }: Point): number {
  const column = Math.min(columns - 1, Math.max(0, Math.floor((x - minX) / cellMm)))
  const row = Math.min(rows - 1, Math.max(0, Math.floor((y - minY) / cellMm)))
  return row * columns + column
}

function cellsWithin(grid: Lattice, polygon: readonly Point[]): number[] {
  const xs = polygon.map(({ x }) => x)
  const ys = polygon.map(({ y }) => y)
  const cells: number[] = []
  for (let y = Math.min(...ys); y < Math.max(...ys) + grid.cellMm; y += grid.cellMm) {
    for (let x = Math.min(...xs); x < Math.max(...xs) + grid.cellMm; x += grid.cellMm) {
      const cell = cellAt(grid, { x, y })
      if (polygonContains(polygon, centreOf(grid, cell))) cells.push(cell)
    }
  }
  return [...new Set(cells)]
}

function cellsAlong(grid: Lattice, path: readonly Point[]): number[] {
  const cells = new Set<number>()
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1]
    const b = path[i]
    if (a === undefined || b === undefined) continue
    const steps = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / (grid.cellMm / 2)))
    for (let step = 0; step <= steps; step++) {
      const share = step / steps
      cells.add(cellAt(grid, { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }))
    }
  }
  return [...cells]
}

function rimDistance(outline: readonly Point[], at: Point): number {
  let least = Infinity
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]
    const b = outline[(i + 1) % outline.length]
    if (a !== undefined && b !== undefined) least = Math.min(least, distanceToSegment(at, a, b))
  }
  return least
}
