/** Gaps that may be shut: which bodies they belong to, and the ground with some of them shut. */
import { cellCount } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { spillAssumptions } from '../assumptions.ts'
import { evenShare } from '../draws.ts'
import { fillPolygon } from './raster.ts'
import { findLandings, type Terrain } from './terrain.ts'

/** Draws from here on are those of bodies; the ones before are those of a level. */
const FIRST_BODY_DRAW = 8

export interface Gaps {
  /** Shuts the gaps that are drawn for a place and level of a lattice; what was shut before opens. */
  draw(column: number, row: number, level: number): void
  /** Opens all of them. */
  open(): void
  /** True where a body of that number is shut now. */
  isShut(body: number): boolean
}

interface Gap {
  readonly cells: Int32Array
  readonly slowness: Float32Array
  readonly landing: Int32Array
  /** Where something that lands on one of the cells gets onto the board while the gap is shut. */
  readonly runsOffTo: Int32Array
}

/** @param bodies refs of the parts, in the order of their numbers */
export function createGaps(model: BoardModel, terrain: Terrain, bodies: readonly string[]): Gaps {
  const gaps = new Map<number, Gap>()
  const shut = new Set<number>()
  const gapOf = (body: number): Gap => {
    const made = gaps.get(body) ?? gapUnder(model, terrain, bodies[body] ?? '')
    gaps.set(body, made)
    return made
  }
  const open = (): void => {
    for (const body of shut) put(terrain, gapOf(body), false)
    shut.clear()
  }
  return {
    draw: (column, row, level) => {
      open()
      for (let body = 0; body < bodies.length; body++) {
        if (evenShare(FIRST_BODY_DRAW + body, column, row, level) >= spillAssumptions.shutGapChance.value) continue
        put(terrain, gapOf(body), true)
        shut.add(body)
      }
    },
    open,
    isShut: (body) => shut.has(body),
  }
}

function put({ slowness, landing }: Terrain, gap: Gap, isShut: boolean): void {
  for (let i = 0; i < gap.cells.length; i++) {
    const cell = gap.cells[i] ?? 0
    slowness[cell] = isShut ? Infinity : (gap.slowness[i] ?? Infinity)
    landing[cell] = (isShut ? gap.runsOffTo[i] : gap.landing[i]) ?? -1
  }
}

function gapUnder(model: BoardModel, terrain: Terrain, ref: string): Gap {
  const part = model.partByRef.get(ref)
  const layer = part === undefined ? -1 : terrain.sides.indexOf(part.side)
  const found: number[] = []
  const base = layer * cellCount(terrain.grid)
  if (part !== undefined && layer >= 0) {
    fillPolygon(terrain.grid, part.outline, (cell) => {
      if (terrain.slowness[base + cell] !== Infinity) found.push(base + cell)
    })
  }
  const cells = Int32Array.from(found)
  return {
    cells,
    slowness: Float32Array.from(cells, (cell) => terrain.slowness[cell] ?? Infinity),
    landing: Int32Array.from(cells, (cell) => terrain.landing[cell] ?? -1),
    runsOffTo: runOffs(terrain, base, cells),
  }
}

/** Breadth first from around the body, with all other gaps open. */
function runOffs(terrain: Terrain, base: number, cells: Int32Array): Int32Array {
  const onBoard = new Uint8Array(cellCount(terrain.grid))
  const slowness = terrain.slowness.slice()
  const landing = terrain.landing.slice()
  for (const cell of cells) {
    onBoard[cell - base] = 1
    slowness[cell] = Infinity
    landing[cell] = -1
  }
  findLandings({ grid: terrain.grid, slowness, landing }, base, onBoard)
  return Int32Array.from(cells, (cell) => landing[cell] ?? -1)
}
