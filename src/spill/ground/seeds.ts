/** Where a march starts: cells of a terrain with the effort that it takes to get from the true shape to their centres. */
import {
  boxOf,
  cellAt,
  cellCentre,
  cellCount,
  distance,
  distanceToSegment,
  type Grid,
  type Point,
} from '../../base/index.ts'
import { distanceToArea } from './area-shape.ts'
import type { Seeds } from './march.ts'
import type { AreaMark } from '../marks.ts'
import { cellWindow, distanceToEdge, distanceToPath, fillPolygon, touchPath } from './raster.ts'
import type { Terrain } from './terrain.ts'

/** Round a point in open ground the exact distances are known; further out the march takes over. */
const EXACT_CELLS = 4
const EXACT_CELLS_BY_STREAK = 2

export const noSeeds: Seeds = { cells: [], effortMm: [] }

/** Seeds of a point, or of the nearest cell that takes it (a drop on a closed body runs off it); none off the board. */
export function pointSeeds(terrain: Terrain, layer: number, at: Point): Seeds {
  const base = layer * cellCount(terrain.grid)
  const under = cellAt(terrain.grid, at)
  const cell = under < 0 ? -1 : (terrain.landing[base + under] ?? -1)
  if (cell < 0) return noSeeds
  if (cell !== base + under) return { cells: [cell], effortMm: [0] }
  const slowness = terrain.slowness[cell] ?? Infinity
  const centre = cellCentre(terrain.grid, cell - base)
  if (!isEvenAround(terrain, cell, EXACT_CELLS)) return { cells: [cell], effortMm: [slowness * distance(centre, at)] }
  const { columns, cellMm } = terrain.grid
  const cells: number[] = []
  const effortMm: number[] = []
  for (let row = -EXACT_CELLS; row <= EXACT_CELLS; row++) {
    for (let column = -EXACT_CELLS; column <= EXACT_CELLS; column++) {
      const across = centre.x + column * cellMm - at.x
      const up = centre.y + row * cellMm - at.y
      cells.push(cell + row * columns + column)
      effortMm.push(slowness * Math.sqrt(across * across + up * up))
    }
  }
  return { cells, effortMm }
}

/** True where the ground in a square about a cell is as hard to cross as the cell itself. */
function isEvenAround({ grid, slowness }: Terrain, cell: number, reach: number): boolean {
  const mine = slowness[cell]
  for (let row = -reach; row <= reach; row++) {
    for (let column = -reach; column <= reach; column++) {
      if (slowness[cell + row * grid.columns + column] !== mine) return false
    }
  }
  return true
}

/** Seeds of a streak from a point to its end: the cells that the segment touches, and those beside it in open ground. */
export function streakSeeds(terrain: Terrain, layer: number, from: Point, to: Point): Seeds {
  if (distance(from, to) < terrain.grid.cellMm / 2) return pointSeeds(terrain, layer, from)
  const base = layer * cellCount(terrain.grid)
  const under = cellAt(terrain.grid, from)
  if (under < 0 || terrain.landing[base + under] !== base + under) return pointSeeds(terrain, layer, from)
  const cells = new Set<number>()
  touchPath(terrain.grid, [from, to], (cell) => {
    cells.add(base + cell)
    if (!isEvenAround(terrain, base + cell, EXACT_CELLS_BY_STREAK)) return
    for (const other of squareAround(terrain, base + cell, EXACT_CELLS_BY_STREAK)) cells.add(other)
  })
  return withEffort(terrain, base, [...cells], (centre) => distanceToSegment(centre, from, to))
}

/**
 * Seeds of a patch: its cells at no effort, and the cells beside it at their distance from its true edge. A patch that
 * holds no cell's centre starts from the cell of its own centre.
 * @param rim whether what touches only the outside of a closed patch counts (a part's terminals) or not (balls under it)
 */
export function patchSeeds(terrain: Terrain, layer: number, polygon: readonly Point[], rim: 'counts' | 'shut'): Seeds {
  const base = layer * cellCount(terrain.grid)
  const inside = new Set<number>()
  fillPolygon(terrain.grid, polygon, (cell) => inside.add(base + cell))
  if (inside.size === 0) {
    const cell = cellAt(terrain.grid, middleOf(polygon))
    const landing = cell < 0 ? -1 : (terrain.landing[base + cell] ?? -1)
    return landing < 0 ? noSeeds : { cells: [landing], effortMm: [0] }
  }
  const isShut = [...inside].every((cell) => terrain.slowness[cell] === Infinity)
  const beside = rim === 'shut' && isShut ? [] : cellsBeside(terrain, base, polygon, inside)
  const edge = withEffort(terrain, base, beside, (centre) => distanceToEdge(polygon, centre))
  const core = withEffort(terrain, base, [...inside], () => 0)
  return { cells: [...core.cells, ...edge.cells], effortMm: [...core.effortMm, ...edge.effortMm] }
}

/** Cells outside of a patch whose centre is no further than a cell from its edge: a narrow corner may hold no centre. */
function cellsBeside(
  { grid }: Terrain,
  base: number,
  polygon: readonly Point[],
  inside: ReadonlySet<number>,
): number[] {
  const window = cellWindow(grid, boxOf(polygon), grid.cellMm)
  const beside: number[] = []
  for (let row = window.firstRow; row <= window.lastRow; row++) {
    for (let column = window.firstColumn; column <= window.lastColumn; column++) {
      const cell = row * grid.columns + column
      if (inside.has(base + cell) || distanceToEdge(polygon, cellCentre(grid, cell)) > grid.cellMm) continue
      beside.push(base + cell)
    }
  }
  return beside
}

/** Seeds of a strip along a path: its cells that no body covers, or all of them where bodies cover the whole strip. */
export function stripSeeds(terrain: Terrain, layer: number, path: readonly Point[], widthMm: number): Seeds {
  const base = layer * cellCount(terrain.grid)
  const touched: number[] = []
  touchPath(terrain.grid, path, (cell) => touched.push(base + cell))
  const reach = Math.floor(widthMm / 2 / terrain.grid.cellMm)
  const near = touched.flatMap((cell) => squareAround(terrain, cell, reach))
  const within = (cell: number): boolean => distanceToPath(path, cellCentre(terrain.grid, cell - base)) <= widthMm / 2
  const strip = [...new Set([...touched, ...[...new Set(near)].filter(within)])]
  const open = strip.filter((cell) => terrain.underBody[cell] === 0)
  return withEffort(terrain, base, open.length > 0 ? open : strip, () => 0)
}

/**
 * Seeds of an area mark: the cells whose centre it covers at no effort, and the ones beside those at their distance from
 * its edge. An area that covers no open cell's centre starts from its own place, like a point.
 */
export function areaSeeds(terrain: Terrain, layer: number, area: AreaMark): Seeds {
  const { grid, slowness } = terrain
  const base = layer * cellCount(grid)
  const inside = new Set<number>()
  visitArea(grid, area, (cell) => {
    if (slowness[base + cell] !== Infinity) inside.add(base + cell)
  })
  if (inside.size === 0) return pointSeeds(terrain, layer, area.at)
  const beside = new Set<number>()
  for (const cell of inside) {
    for (const other of squareAround(terrain, cell, 1)) if (!inside.has(other)) beside.add(other)
  }
  const edge = withEffort(terrain, base, [...beside], (centre) => Math.max(0, distanceToArea(area, centre)))
  return { cells: [...inside, ...edge.cells], effortMm: [...Array.from(inside, () => 0), ...edge.effortMm] }
}

/** Calls `visit` for every cell whose centre the area covers; for some more than once. */
function visitArea(grid: Grid, { at, radiusMm, path = [at], outline }: AreaMark, visit: (cell: number) => void): void {
  if (outline !== undefined) return fillPolygon(grid, outline, visit)
  let from = path[0] ?? at
  for (const to of path) {
    const window = cellWindow(grid, boxOf([from, to]), radiusMm)
    for (let row = window.firstRow; row <= window.lastRow; row++) {
      for (let column = window.firstColumn; column <= window.lastColumn; column++) {
        const cell = row * grid.columns + column
        if (distanceToSegment(cellCentre(grid, cell), from, to) <= radiusMm) visit(cell)
      }
    }
    from = to
  }
}

function withEffort(
  terrain: Terrain,
  base: number,
  cells: readonly number[],
  distanceMm: (centre: Point) => number,
): Seeds {
  const open = cells.filter((cell) => (terrain.slowness[cell] ?? Infinity) !== Infinity)
  const effortMm = open.map((cell) => (terrain.slowness[cell] ?? 0) * distanceMm(cellCentre(terrain.grid, cell - base)))
  return { cells: open, effortMm }
}

function squareAround(terrain: Terrain, cell: number, reach: number): number[] {
  const { columns } = terrain.grid
  const cells: number[] = []
  for (let row = -reach; row <= reach; row++) {
    for (let column = -reach; column <= reach; column++) {
      const other = cell + row * columns + column
      if (other >= 0 && other < terrain.slowness.length) cells.push(other)
    }
  }
  return cells
}

function middleOf(polygon: readonly Point[]): Point {
  let x = 0
  let y = 0
  for (const corner of polygon) {
    x += corner.x / polygon.length
    y += corner.y / polygon.length
  }
  return { x, y }
}
