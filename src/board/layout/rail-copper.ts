/**
 * The copper of rails from the zones of a layout, for the search for a short: simple polygons of square steps. Holes that a
 * sheet hardly feels are filled; around the others a piece is cut, and its parts lie side by side as one sheet.
 */
import { boxOf, cellCentre, distance, type Grid, gridOver, type Point, someOf, say } from '../../base/index.ts'
import { groupedBy } from '../group.ts'
import type { Rail } from '../schema.ts'
import type { Layout, Pour } from './model.ts'
import { borderOf, emptyMask, fillInside, holesIn, type Mask, piecesOf, withoutPinches } from './mask.ts'
import { type Netlist, pinsOn } from './netlist.ts'
import { tidyPoint } from './parts.ts'

/** Steps of the border are no finer and no coarser than this, mm. */
const FINEST_MM = 0.25
const COARSEST_MM = 4
/** Cells of one rail's layer at first. */
const CELLS = 40_000
/** More corners than this take long to check and tell a meter nothing. */
const MOST_CORNERS = 1200
const MOST_PIECES = 64
const SMALLEST_PIECE_MM2 = 1
/** Clearances of vias and pins; the plane's resistance is taken as uncertain for them. */
const SMALLEST_HOLE_MM2 = 12
/** A rail whose zones are near to fewer of its pads than this runs in tracks, which are no sheet. */
const FEWEST_PADS_SHARE = 0.6
/** Pads hang on a plane by vias that near; as the search for a short counts them, mm. */
const NEAR_PAD_MM = 3

type Copper = NonNullable<Rail['copper']>

export interface Ground {
  /** The outline's lower-left corner on the sheet (y up). */
  readonly origin: Point
  readonly outline: readonly Point[]
  readonly cutouts: readonly (readonly Point[])[]
}

/** The rails with the copper of their zones, where that reaches most of their pads. */
export function withCopper(
  rails: readonly Rail[],
  { layout, netlist }: { readonly layout: Layout; readonly netlist: Netlist },
  ground: Ground,
  untold: string[],
): Rail[] {
  const pours = groupedBy(
    layout.pours.filter(({ net }) => net !== undefined),
    ({ net }) => net ?? '',
  )
  const shown = new Map(layout.layers.copper.map((layer) => [layer.name, layer.shown]))
  const drawn: string[] = []
  const tracked: string[] = []
  const result = rails.map((rail): Rail => {
    const own = pours.get(rail.name) ?? []
    if (own.length === 0) return rail
    const copper = copperFrom(own, shown, ground)
    const pads = pinsOn(netlist, rail.name).map(({ at }) => at)
    const isEnough = copper.length > 0 && shareNear(copper, pads) >= FEWEST_PADS_SHARE
    ;(isEnough ? drawn : tracked).push(rail.name)
    return isEnough ? { ...rail, copper } : rail
  })
  if (drawn.length > 0)
    untold.push(
      say('Copper of these rails is taken from their zones, in square steps and without small holes: {drawn}.', {
        drawn: someOf(drawn, 10),
      }),
    )
  if (tracked.length > 0)
    untold.push(
      say("Zones reach too few pads of these rails, so their copper isn't drawn: {tracked}.", {
        tracked: someOf(tracked, 10),
      }),
    )
  return result
}

/** As fine as the count of corners allows. */
function copperFrom(pours: readonly Pour[], shown: ReadonlyMap<string, string>, ground: Ground): Copper {
  const edges = pours.map((pour) => ({ layer: pour.layer, edge: onBoard(pour.edge, ground.origin) }))
  const byLayer = groupedBy(edges, ({ layer }) => layer)
  const box = boxOf(edges.flatMap(({ edge }) => extremesOf(edge)))
  const areaMm2 = (box.maxX - box.minX) * (box.maxY - box.minY)
  for (let cellMm = Math.max(FINEST_MM, Math.sqrt(areaMm2 / CELLS)); cellMm <= COARSEST_MM; cellMm *= 1.6) {
    const grid = gridOver(box, cellMm, cellMm)
    const allowed = allowedCells(grid, ground)
    const pieces = [...byLayer].flatMap(([layer, own]) =>
      piecesOn(
        grid,
        own.map(({ edge }) => edge),
        allowed,
      ).map((cells) => ({ layer: shown.get(layer) ?? layer, cells })),
    )
    const kept = pieces.toSorted((a, b) => b.cells.length - a.cells.length).slice(0, MOST_PIECES)
    const copper = kept.map(({ layer, cells }) => ({
      layer: layer.slice(0, 120),
      polygon: borderOf(grid, cells).map(tidyPoint),
    }))
    if (copper.reduce((sum, { polygon }) => sum + polygon.length, 0) <= MOST_CORNERS) return copper
  }
  return []
}

function onBoard(edge: Float64Array, origin: Point): Float64Array {
  return edge.map((value, i) => (i % 2 === 0 ? value - origin.x : -value - origin.y))
}

function extremesOf(edge: Float64Array): Point[] {
  const [low, high] = [
    { x: Infinity, y: Infinity },
    { x: -Infinity, y: -Infinity },
  ]
  for (let i = 0; i + 1 < edge.length; i += 2) {
    const [x, y] = [edge[i] ?? 0, edge[i + 1] ?? 0]
    low.x = Math.min(low.x, x)
    low.y = Math.min(low.y, y)
    high.x = Math.max(high.x, x)
    high.y = Math.max(high.y, y)
  }
  return [low, high]
}

const flat = (polygon: readonly Point[]): Float64Array => Float64Array.from(polygon.flatMap(({ x, y }) => [x, y]))

/** Cells that lie on the board with all four corners, and not in a cut-out. */
function allowedCells(grid: Grid, { outline, cutouts }: Ground): Mask {
  const half = grid.cellMm / 2
  const corners: Grid = {
    ...grid,
    originXMm: grid.originXMm - half,
    originYMm: grid.originYMm - half,
    columns: grid.columns + 1,
    rows: grid.rows + 1,
  }
  const isOn = emptyMask(corners)
  fillInside(corners, isOn, flat(outline))
  const allowed = emptyMask(grid).map((_, cell) => {
    const column = cell % grid.columns
    const at = ((cell - column) / grid.columns) * corners.columns + column
    const all = [at, at + 1, at + corners.columns, at + corners.columns + 1]
    return all.every((corner) => isOn[corner] === 1) ? 1 : 0
  })
  for (const cutout of cutouts) fillInside(grid, allowed, flat(cutout), 0)
  return allowed
}

function piecesOn(grid: Grid, edges: readonly Float64Array[], allowed: Mask): Int32Array[] {
  const mask = emptyMask(grid)
  for (const edge of edges) fillInside(grid, mask, edge)
  for (let cell = 0; cell < mask.length; cell++) if (allowed[cell] !== 1) mask[cell] = 0
  withoutPinches(grid, mask)
  return cutAtHoles(grid, mask)
}

/** Pieces without holes: small ones are filled, and a piece is cut in two through the middle of its widest. */
function cutAtHoles(grid: Grid, mask: Mask): Int32Array[] {
  const cellMm2 = grid.cellMm * grid.cellMm
  const waiting = piecesOf(grid, mask)
  const whole: Int32Array[] = []
  for (let piece = waiting.shift(); piece !== undefined; piece = waiting.shift()) {
    if (piece.length * cellMm2 < SMALLEST_PIECE_MM2) continue
    const holes = holesIn(grid, piece)
    const [widest] = holes
    const isCut = widest !== undefined && widest.length * cellMm2 >= SMALLEST_HOLE_MM2
    if (!isCut || whole.length + waiting.length >= MOST_PIECES) {
      whole.push(Int32Array.from([...piece, ...holes.flatMap((hole) => [...hole])]))
      continue
    }
    const middle = middleColumn(grid, widest)
    for (const isLeft of [true, false]) {
      const side = emptyMask(grid)
      for (const cell of piece) if (cell % grid.columns < middle === isLeft) side[cell] = 1
      waiting.push(...piecesOf(grid, side))
    }
  }
  return whole
}

function middleColumn(grid: Grid, cells: Int32Array): number {
  let low = grid.columns
  let high = 0
  for (const cell of cells) {
    low = Math.min(low, cell % grid.columns)
    high = Math.max(high, cell % grid.columns)
  }
  return Math.ceil((low + high + 1) / 2)
}

/** Share of points with copper near. */
function shareNear(copper: Copper, points: readonly Point[]): number {
  if (points.length === 0) return 0
  const box = boxOf(copper.flatMap(({ polygon }) => polygon))
  const grid = gridOver(box, NEAR_PAD_MM / 6, NEAR_PAD_MM)
  const mask = emptyMask(grid)
  for (const { polygon } of copper) fillInside(grid, mask, flat(polygon))
  const reach = Math.ceil(NEAR_PAD_MM / grid.cellMm)
  const isNear = (point: Point): boolean => {
    const column = Math.floor((point.x - grid.originXMm) / grid.cellMm)
    const row = Math.floor((point.y - grid.originYMm) / grid.cellMm)
    for (let r = Math.max(0, row - reach); r <= Math.min(grid.rows - 1, row + reach); r++)
      for (let c = Math.max(0, column - reach); c <= Math.min(grid.columns - 1, column + reach); c++) {
        const cell = r * grid.columns + c
        if (mask[cell] === 1 && distance(cellCentre(grid, cell), point) <= NEAR_PAD_MM) return true
      }
    return false
  }
  return points.filter(isNear).length / points.length
}
