/** Shapes onto a grid: filled polygons, every cell that a line touches, distances from a polygon's edge. */
import { type Box, boxOf, distanceToSegment, type Grid, type Point } from '../../base/index.ts'

/** Calls `visit` for every cell whose centre lies inside the polygon (even-odd rule), row by row. */
export function fillPolygon(grid: Grid, polygon: readonly Point[], visit: (cell: number) => void): void {
  const window = cellWindow(grid, boxOf(polygon), 0)
  for (let row = window.firstRow; row <= window.lastRow; row++) {
    const crossings = crossingsAt(polygon, grid.originYMm + (row + 0.5) * grid.cellMm)
    for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
      const from = (crossings[pair] ?? 0) - grid.originXMm
      const to = (crossings[pair + 1] ?? 0) - grid.originXMm
      const first = Math.max(0, Math.ceil(from / grid.cellMm - 0.5))
      const last = Math.min(grid.columns - 1, Math.ceil(to / grid.cellMm - 0.5) - 1)
      for (let column = first; column <= last; column++) visit(row * grid.columns + column)
    }
  }
}

function crossingsAt(polygon: readonly Point[], y: number): number[] {
  const crossings: number[] = []
  let a = polygon[polygon.length - 1]
  for (const b of polygon) {
    if (a && a.y > y !== b.y > y) crossings.push(((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x)
    a = b
  }
  return crossings.toSorted((p, q) => p - q)
}

/**
 * Calls `visit` for every cell that a path touches, corners included (a supercover line): consecutive cells share an
 * edge, so that nothing slips through diagonally.
 */
export function touchPath(grid: Grid, path: readonly Point[], visit: (cell: number) => void): void {
  for (let i = 0; i + 1 < path.length; i++) {
    const a = path[i]
    const b = path[i + 1]
    if (a && b) touchSegment(grid, a, b, visit)
  }
}

function touchSegment(grid: Grid, a: Point, b: Point, visit: (cell: number) => void): void {
  const window = cellWindow(grid, boxOf([a, b]), 1e-9)
  const { cellMm, originXMm, originYMm } = grid
  for (let row = window.firstRow; row <= window.lastRow; row++) {
    const low = originYMm + row * cellMm
    const span = clipToBand(a, b, low, low + cellMm)
    if (span === undefined) continue
    const first = Math.max(0, Math.ceil((span.from - originXMm) / cellMm - 1e-9) - 1)
    const last = Math.min(grid.columns - 1, Math.floor((span.to - originXMm) / cellMm + 1e-9))
    for (let column = first; column <= last; column++) visit(row * grid.columns + column)
  }
}

/** The range of x that a segment has within low <= y <= high. */
function clipToBand(a: Point, b: Point, low: number, high: number): { from: number; to: number } | undefined {
  const lower = a.y <= b.y ? a : b
  const upper = a.y <= b.y ? b : a
  if (lower.y > high || upper.y < low) return undefined
  const rise = upper.y - lower.y
  const xAt = (y: number): number => (rise === 0 ? lower.x : lower.x + ((upper.x - lower.x) * (y - lower.y)) / rise)
  const start = rise === 0 ? lower.x : xAt(Math.max(low, lower.y))
  const end = rise === 0 ? upper.x : xAt(Math.min(high, upper.y))
  return { from: Math.min(start, end), to: Math.max(start, end) }
}

export interface CellWindow {
  readonly firstColumn: number
  readonly lastColumn: number
  readonly firstRow: number
  readonly lastRow: number
}

/** The cells that a box touches, with a margin, cut to the grid. Empty when last < first. */
export function cellWindow(grid: Grid, box: Box, marginMm: number): CellWindow {
  const { cellMm, originXMm, originYMm, columns, rows } = grid
  return {
    firstColumn: Math.max(0, Math.floor((box.minX - marginMm - originXMm) / cellMm)),
    lastColumn: Math.min(columns - 1, Math.floor((box.maxX + marginMm - originXMm) / cellMm)),
    firstRow: Math.max(0, Math.floor((box.minY - marginMm - originYMm) / cellMm)),
    lastRow: Math.min(rows - 1, Math.floor((box.maxY + marginMm - originYMm) / cellMm)),
  }
}

/** Distance in mm from a point to the edge of a closed polygon. */
export function distanceToEdge(polygon: readonly Point[], point: Point): number {
  let nearest = Infinity
  let a = polygon[polygon.length - 1]
  for (const b of polygon) {
    if (a) nearest = Math.min(nearest, distanceToSegment(point, a, b))
    a = b
  }
  return nearest
}

/** Distance in mm from a point to an open path of one point or more. */
export function distanceToPath(path: readonly Point[], point: Point): number {
  let nearest = Infinity
  let a = path[0]
  for (const b of path) {
    if (a) nearest = Math.min(nearest, distanceToSegment(point, a, b))
    a = b
  }
  return nearest
}
