/** Shapes onto a grid by area: what share of each cell, and of each face between cells, a shape covers. */
import { boxOf, cellCount, type Grid, type Point } from '../base/index.ts'

/** Sub-cells along a cell's edge. */
export const SUBCELLS = 4

/**
 * Calls `visit` for every sub-cell whose middle lies in the polygon (even-odd), row by row.
 * Column and row count sub-cells: cell column = floor(column / SUBCELLS).
 */
export function visitSubcells(
  grid: Grid,
  polygon: readonly Point[],
  visit: (column: number, row: number) => void,
): void {
  const sub = grid.cellMm / SUBCELLS
  const box = boxOf(polygon)
  const firstRow = Math.max(0, Math.floor((box.minY - grid.originYMm) / sub))
  const lastRow = Math.min(grid.rows * SUBCELLS - 1, Math.floor((box.maxY - grid.originYMm) / sub))
  for (let row = firstRow; row <= lastRow; row++) {
    const crossings = crossingsAt(polygon, grid.originYMm + (row + 0.5) * sub)
    for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
      const from = ((crossings[pair] ?? 0) - grid.originXMm) / sub
      const to = ((crossings[pair + 1] ?? 0) - grid.originXMm) / sub
      const first = Math.max(0, Math.ceil(from - 0.5))
      const last = Math.min(grid.columns * SUBCELLS - 1, Math.ceil(to - 0.5) - 1)
      for (let column = first; column <= last; column++) visit(column, row)
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

export interface BoardCover {
  /** Share of each cell that is board, 0 to 1. */
  readonly area: Float64Array
  /** Share of the face to the right neighbour, and to the upper one, that is board on both sides. */
  readonly right: Float64Array
  readonly up: Float64Array
}

/** How outline, cut-outs and drilled holes cover the grid. */
export function coverBoard(
  grid: Grid,
  outline: readonly Point[],
  cutouts: readonly (readonly Point[])[],
  drills: readonly { readonly at: Point; readonly diameterMm: number }[],
): BoardCover {
  const across = grid.columns * SUBCELLS
  const solid = new Uint8Array(across * grid.rows * SUBCELLS)
  visitSubcells(grid, outline, (column, row) => (solid[row * across + column] = 1))
  const openings = [...cutouts, ...drills.map(({ at, diameterMm }) => circle(at, diameterMm / 2))]
  for (const opening of openings) visitSubcells(grid, opening, (column, row) => (solid[row * across + column] = 0))
  return { area: areaShares(grid, solid), ...faceShares(grid, solid) }
}

function areaShares(grid: Grid, solid: Uint8Array): Float64Array {
  const across = grid.columns * SUBCELLS
  const area = new Float64Array(cellCount(grid))
  for (let i = 0; i < solid.length; i++) {
    if (solid[i] !== 1) continue
    const cell = Math.floor(i / across / SUBCELLS) * grid.columns + Math.floor((i % across) / SUBCELLS)
    area[cell] = (area[cell] ?? 0) + 1 / (SUBCELLS * SUBCELLS)
  }
  return area
}

function faceShares(grid: Grid, solid: Uint8Array): { right: Float64Array; up: Float64Array } {
  const across = grid.columns * SUBCELLS
  const right = new Float64Array(cellCount(grid))
  const up = new Float64Array(cellCount(grid))
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      let rights = 0
      let ups = 0
      for (let k = 0; k < SUBCELLS; k++) {
        const east = (row * SUBCELLS + k) * across + (column + 1) * SUBCELLS - 1
        const north = ((row + 1) * SUBCELLS - 1) * across + column * SUBCELLS + k
        if (column + 1 < grid.columns) rights += (solid[east] ?? 0) & (solid[east + 1] ?? 0)
        if (row + 1 < grid.rows) ups += (solid[north] ?? 0) & (solid[north + across] ?? 0)
      }
      right[row * grid.columns + column] = rights / SUBCELLS
      up[row * grid.columns + column] = ups / SUBCELLS
    }
  }
  return { right, up }
}

const CIRCLE_CORNERS = 32

function circle(at: Point, radiusMm: number): Point[] {
  return Array.from({ length: CIRCLE_CORNERS }, (_, i) => {
    const angle = (2 * Math.PI * i) / CIRCLE_CORNERS
    return { x: at.x + radiusMm * Math.cos(angle), y: at.y + radiusMm * Math.sin(angle) }
  })
}
