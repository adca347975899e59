/** The ground that a substance meets: how hard each cell is to cross, and how thick a film stands there. */
import { cellAt, cellCentre, cellCount, distance, type Grid, gridOver, type Point } from '../../base/index.ts'
import { type BoardModel, type PlacedPart, type Side, standsOnBoard } from '../../board/index.ts'
import { fillPolygon, touchPath } from './raster.ts'

/** How bodies treat the substance: drawn in, kept out at the rim, or entered like bare mask (pressed, or dried there). */
export type BodyRule = 'wicked' | 'kept-out' | 'entered'

export interface Ground {
  readonly sides: readonly Side[]
  readonly bodies: BodyRule
  /** Height in mm at which the substance stands on bare mask. */
  readonly maskFilmMm: number
  readonly dams: readonly { readonly side: Side; readonly path: readonly Point[] }[]
  readonly cellMm: number
}

/**
 * One layer a side, layer after layer, each row by row from the lower left with a rim of at least one blocked cell, so
 * that a march needs no bounds. `slowness` is effort per mm (bare mask 1, Infinity where nothing gets).
 */
export interface Terrain {
  readonly grid: Grid
  readonly sides: readonly Side[]
  readonly slowness: Float32Array
  readonly filmMm: Float32Array
  /** 1 where a body stands over the cell. */
  readonly underBody: Uint8Array
  /** Where something that lands on a cell gets onto the board: itself, the nearest cell that takes it, or -1. */
  readonly landing: Int32Array
  /** The same place on the other side where a hole or an edge leads there, else -1; undefined for one layer. */
  readonly links: Int32Array | undefined
  readonly linkEffortMm: number
}

/** A body that stands closer than this touches the mask: nothing gets under it. Common practice, no source. */
const SEATED_GAP_MM = 0.03
/** Narrower holes are vias and pins: masked, plated shut or filled by a lead. Common practice, no source. */
const OPEN_HOLE_MM = 1
/** However thin the gap, balls and flux hold the front up: never more than five times as easy. An assumption. */
const EASIEST_SLOWNESS = 0.2

const ON_BOARD = 1
const HOLE = 2

/**
 * Rasterises a board for one substance. A wicked body of gap g has slowness √(g/h), at least 0.2 and at most 1: a volume
 * that covers a radius R at the free height h covers R·√(h/g) at thickness g. Bodies that are edge-bonded, underfilled,
 * seated on the board or connectors block; so do dams, holes of 1 mm and more, cut-outs and the board's edge.
 */
export function buildTerrain(model: BoardModel, ground: Ground): Terrain {
  const grid = gridOver(model.box, ground.cellMm, ground.cellMm)
  const cells = cellCount(grid)
  const board = rasteriseBoard(model, grid)
  const terrain = {
    grid,
    sides: ground.sides,
    slowness: new Float32Array(cells * ground.sides.length).fill(Infinity),
    filmMm: new Float32Array(cells * ground.sides.length),
    underBody: new Uint8Array(cells * ground.sides.length),
    landing: new Int32Array(cells * ground.sides.length).fill(-1),
    links: ground.sides.length > 1 ? new Int32Array(cells * ground.sides.length).fill(-1) : undefined,
    linkEffortMm: model.description.thicknessMm,
  }
  for (const [layer, side] of ground.sides.entries()) {
    const base = layer * cells
    for (let cell = 0; cell < cells; cell++) {
      if (board[cell] !== ON_BOARD) continue
      terrain.slowness[base + cell] = 1
      terrain.filmMm[base + cell] = ground.maskFilmMm
    }
    for (const part of model.parts) if (part.side === side && standsOnBoard(part)) layBody(terrain, base, part, ground)
    for (const dam of ground.dams) {
      if (dam.side === side) touchPath(grid, dam.path, (cell) => block(terrain, base + cell))
    }
    findLandings(terrain, base, board)
  }
  if (terrain.links) linkSides(terrain, terrain.links, board, model)
  return terrain
}

function rasteriseBoard(model: BoardModel, grid: Grid): Uint8Array {
  const board = new Uint8Array(cellCount(grid))
  fillPolygon(grid, model.outline, (cell) => {
    board[cell] = ON_BOARD
  })
  for (const cutout of model.cutouts) {
    fillPolygon(grid, cutout, (cell) => {
      board[cell] = 0
    })
  }
  for (const drill of model.drills) {
    if (drill.diameterMm < OPEN_HOLE_MM) continue
    const reach = Math.ceil(drill.diameterMm / 2 / grid.cellMm) * grid.cellMm
    for (let y = drill.at.y - reach; y <= drill.at.y + reach; y += grid.cellMm) {
      for (let x = drill.at.x - reach; x <= drill.at.x + reach; x += grid.cellMm) {
        const cell = cellAt(grid, { x, y })
        if (board[cell] && distance(cellCentre(grid, cell), drill.at) < drill.diameterMm / 2) board[cell] = HOLE
      }
    }
  }
  return board
}

type Layers = Pick<Terrain, 'grid' | 'slowness' | 'filmMm' | 'underBody' | 'landing'>

function layBody(terrain: Layers, base: number, part: PlacedPart, ground: Ground): void {
  const slowness = bodySlowness(part, ground)
  const filmMm = Math.min(part.standoffMm, ground.maskFilmMm)
  fillPolygon(terrain.grid, part.outline, (cell) => {
    const at = base + cell
    const before = terrain.slowness[at] ?? Infinity
    if (before === Infinity) return
    const first = terrain.underBody[at] === 0
    terrain.underBody[at] = 1
    if (slowness === Infinity) return block(terrain, at)
    terrain.slowness[at] = first ? slowness : Math.max(before, slowness)
    terrain.filmMm[at] = first ? filmMm : Math.max(terrain.filmMm[at] ?? 0, filmMm)
  })
}

function bodySlowness(part: PlacedPart, ground: Ground): number {
  if (isClosed(part) || ground.bodies === 'kept-out') return Infinity
  if (ground.bodies === 'entered') return 1
  return Math.min(1, Math.max(EASIEST_SLOWNESS, Math.sqrt(part.standoffMm / ground.maskFilmMm)))
}

/** True for a body that nothing gets under: bonded all around or underfilled, a connector, or seated on the mask. */
export function isClosed(part: PlacedPart): boolean {
  const { bonding } = part.description
  return bonding === 'edge' || bonding === 'underfill' || part.kind === 'connector' || part.standoffMm < SEATED_GAP_MM
}

function block(terrain: Layers, at: number): void {
  terrain.slowness[at] = Infinity
  terrain.filmMm[at] = 0
}

/** For every blocked cell on the board (where `board` is not 0) the open one that lies nearest. */
export function findLandings(
  terrain: Pick<Terrain, 'grid' | 'slowness' | 'landing'>,
  base: number,
  board: Uint8Array,
): void {
  const { columns } = terrain.grid
  const { landing } = terrain
  const queue: number[] = []
  for (let cell = 0; cell < board.length; cell++) {
    if (terrain.slowness[base + cell] === Infinity) continue
    landing[base + cell] = base + cell
    queue.push(cell)
  }
  const open = queue.length
  const steps = [1, -1, columns, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1]
  for (let head = 0; head < queue.length; head++) {
    const cell = queue[head] ?? 0
    for (const step of steps) {
      const next = cell + step
      if (!board[next] || landing[base + next] !== -1) continue
      landing[base + next] = landing[base + cell] ?? -1
      queue.push(next)
    }
  }
  const awaySquared = (cell: number, to: number): number => {
    const across = (cell % columns) - (to % columns)
    const up = Math.floor(cell / columns) - Math.floor(to / columns)
    return across * across + up * up
  }
  // The first to come need not be the nearest: each cell takes the best of its neighbours', outwards and once more.
  for (let round = 0; round < 2; round++) {
    for (let i = open; i < queue.length; i++) {
      const cell = queue[i] ?? 0
      let best = (landing[base + cell] ?? 0) - base
      for (const step of steps) {
        const other = board[cell + step] ? (landing[base + cell + step] ?? -1) - base : -1
        if (other >= 0 && awaySquared(cell, other) < awaySquared(cell, best)) best = other
      }
      landing[base + cell] = base + best
    }
  }
}

function linkSides(terrain: Terrain, links: Int32Array, board: Uint8Array, model: BoardModel): void {
  const cells = board.length
  const { columns } = terrain.grid
  const link = (cell: number): void => {
    if (terrain.slowness[cell] === Infinity || terrain.slowness[cells + cell] === Infinity) return
    links[cell] = cells + cell
    links[cells + cell] = cell
  }
  for (let cell = columns; cell < cells - columns; cell++) {
    if (board[cell] !== ON_BOARD) continue
    if ([1, -1, columns, -columns].some((step) => board[cell + step] !== ON_BOARD)) link(cell)
  }
  for (const drill of model.drills) {
    const cell = cellAt(terrain.grid, drill.at)
    if (cell >= 0 && drill.diameterMm >= OPEN_HOLE_MM) link(cell)
  }
}
