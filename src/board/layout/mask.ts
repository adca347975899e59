/** Areas as cells of a square grid: filling polygons, pieces that hang together, and the simple polygon around a piece. */
import { cellCount, type Grid, type Point } from '../../base/index.ts'

/** One flag a cell. */
export type Mask = Uint8Array

/** A mask with no cell set. */
export const emptyMask = (grid: Grid): Mask => new Uint8Array(cellCount(grid))

/** Sets each cell whose middle lies inside the edge (x and y in turn); an edge that runs back along itself cuts nothing. */
export function fillInside(grid: Grid, mask: Mask, edge: Float64Array, value = 1): void {
  const crossings: number[][] = Array.from({ length: grid.rows }, () => [])
  for (let i = 0; i < edge.length; i += 2) {
    const next = (i + 2) % edge.length
    crossRows(grid, crossings, [edge[i] ?? 0, edge[i + 1] ?? 0, edge[next] ?? 0, edge[next + 1] ?? 0])
  }
  for (const [row, columns] of crossings.entries()) {
    columns.sort((a, b) => a - b)
    for (let k = 0; k + 1 < columns.length; k += 2) {
      const from = Math.max(0, Math.ceil((columns[k] ?? 0) - 0.5))
      const to = Math.min(grid.columns - 1, Math.ceil((columns[k + 1] ?? 0) - 0.5) - 1)
      for (let column = from; column <= to; column++) mask[row * grid.columns + column] = value
    }
  }
}

/** Notes, in columns, where a side of a polygon crosses the middle lines of rows. */
function crossRows(
  grid: Grid,
  crossings: number[][],
  [x1, y1, x2, y2]: readonly [number, number, number, number],
): void {
  if (y1 === y2) return
  const rowOf = (y: number): number => (y - grid.originYMm) / grid.cellMm - 0.5
  const [low, high] = [Math.min(rowOf(y1), rowOf(y2)), Math.max(rowOf(y1), rowOf(y2))]
  for (let row = Math.max(0, Math.ceil(low)); row < high && row < grid.rows; row++) {
    const y = grid.originYMm + (row + 0.5) * grid.cellMm
    crossings[row]?.push((x1 + ((y - y1) / (y2 - y1)) * (x2 - x1) - grid.originXMm) / grid.cellMm)
  }
}

/** Clears cells that meet others of the mask at a corner alone, until none does: what is left has simple borders. */
export function withoutPinches(grid: Grid, mask: Mask): void {
  for (let changed = true; changed; ) {
    changed = false
    for (let row = 0; row + 1 < grid.rows; row++)
      for (let column = 0; column + 1 < grid.columns; column++) {
        const a = row * grid.columns + column
        const c = a + grid.columns
        const isRising = mask[a] === 1 && mask[c + 1] === 1 && mask[a + 1] === 0 && mask[c] === 0
        const isFalling = mask[a] === 0 && mask[c + 1] === 0 && mask[a + 1] === 1 && mask[c] === 1
        if (!isRising && !isFalling) continue
        mask[isRising ? c + 1 : c] = 0
        changed = true
      }
  }
}

/** Groups of cells of one value that touch along sides, the largest first. */
export function piecesOf(grid: Grid, mask: Mask, value = 1): Int32Array[] {
  const seen = new Uint8Array(mask.length)
  const waiting = new Int32Array(mask.length)
  const pieces: Int32Array[] = []
  for (let start = 0; start < mask.length; start++) {
    if (mask[start] !== value || seen[start] === 1) continue
    seen[start] = 1
    waiting[0] = start
    let count = 1
    for (let head = 0; head < count; head++) {
      const cell = waiting[head] ?? 0
      const column = cell % grid.columns
      for (let side = 0; side < 4; side++) {
        const next = besideOf(grid, cell, column, side)
        if (next < 0 || mask[next] !== value || seen[next] === 1) continue
        seen[next] = 1
        waiting[count++] = next
      }
    }
    pieces.push(waiting.slice(0, count))
  }
  return pieces.toSorted((a, b) => b.length - a.length)
}

/** The neighbour on one of four sides, or -1 beyond the grid. */
function besideOf({ columns, rows }: Grid, cell: number, column: number, side: number): number {
  if (side === 0) return column > 0 ? cell - 1 : -1
  if (side === 1) return column + 1 < columns ? cell + 1 : -1
  if (side === 2) return cell - columns
  return cell + columns < columns * rows ? cell + columns : -1
}

/** Groups of empty cells that a piece encloses, the largest first. */
export function holesIn(grid: Grid, piece: Int32Array): Int32Array[] {
  const { columns } = grid
  const [left, right, low, high] = spanOf(grid, piece)
  const window: Grid = { ...grid, columns: right - left + 3, rows: high - low + 3 }
  const mask = emptyMask(window)
  for (const cell of piece) {
    const column = cell % columns
    mask[((cell - column) / columns - low + 1) * window.columns + column - left + 1] = 1
  }
  // The window is wider than the piece by one cell all around: what hangs together with its corner lies outside.
  const holes = piecesOf(window, mask, 0).filter((hole) => !hole.includes(0))
  return holes.map((hole) =>
    hole.map((cell) => {
      const column = cell % window.columns
      return ((cell - column) / window.columns + low - 1) * columns + column + left - 1
    }),
  )
}

/** First and last column, first and last row. */
function spanOf({ columns }: Grid, piece: Int32Array): readonly [number, number, number, number] {
  let [left, right, low, high] = [Infinity, 0, Infinity, 0]
  for (const cell of piece) {
    const column = cell % columns
    const row = (cell - column) / columns
    left = Math.min(left, column)
    right = Math.max(right, column)
    low = Math.min(low, row)
    high = Math.max(high, row)
  }
  return [left, right, low, high]
}

/** The outer border of a piece without pinches, counter-clockwise, corners only. */
export function borderOf(grid: Grid, piece: Int32Array): Point[] {
  const own = new Set(piece)
  const wide = grid.columns + 1
  const next = new Map<number, number>()
  for (const cell of piece) {
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    const corner = row * wide + column
    if (row === 0 || !own.has(cell - grid.columns)) next.set(corner, corner + 1)
    if (column + 1 === grid.columns || !own.has(cell + 1)) next.set(corner + 1, corner + 1 + wide)
    if (row + 1 === grid.rows || !own.has(cell + grid.columns)) next.set(corner + 1 + wide, corner + wide)
    if (column === 0 || !own.has(cell - 1)) next.set(corner + wide, corner)
  }
  return cornersAlong(grid, next, lowestOf(next.keys()))
}

/** The lowest corner of all lies on the outer border, where two straight lines meet. */
function lowestOf(corners: Iterable<number>): number {
  let lowest = Infinity
  for (const corner of corners) lowest = Math.min(lowest, corner)
  return lowest
}

function cornersAlong(grid: Grid, next: ReadonlyMap<number, number>, start: number): Point[] {
  const wide = grid.columns + 1
  const points: Point[] = []
  let before = 0
  for (let here = start; ; ) {
    const there = next.get(here)
    if (there === undefined) break
    if (there - here !== before)
      points.push({
        x: grid.originXMm + (here % wide) * grid.cellMm,
        y: grid.originYMm + Math.floor(here / wide) * grid.cellMm,
      })
    before = there - here
    here = there
    if (here === start) break
  }
  return points
}
