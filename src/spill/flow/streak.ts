/** A mounted board makes a streak: the seed of the spread is a segment that runs downhill from the point. */
import { cellAt, cellCentre, cellCount, type Point } from '../../base/index.ts'
import type { Behaviour, Load } from './film.ts'
import type { Terrain } from '../ground/terrain.ts'

/** Share of the volume that runs down; the rest stays where it landed. An assumption. */
const RUNNING_SHARE = 0.5

/**
 * Length in mm of the streak that a volume makes: a rivulet two capillary lengths wide and as high as the film holds the
 * share of the volume that runs, L = ½·V/(2·lc·h). 0 for what does not flow. An assumption, of the size that rivulets have.
 */
export function streakLengthMm(load: Load, behaviour: Behaviour): number {
  if (behaviour.liquid === undefined) return 0
  const sectionMm2 = 2 * behaviour.liquid.capillaryLengthMm * load.maskFilmMm
  return (RUNNING_SHARE * load.volumeMm3) / sectionMm2
}

/** Where a streak starts: where it landed, or where what lands on a closed body first gets onto the board. */
export function streakStart(terrain: Terrain, at: Point): Point {
  const under = cellAt(terrain.grid, at)
  const landing = under < 0 ? -1 : (terrain.landing[under] ?? -1)
  return landing < 0 || landing === under ? at : cellCentre(terrain.grid, landing)
}

/** Where a streak of at most `lengthMm` ends: at its length, or before the first cell that stops it (dam, wall, edge). */
export function streakEnd(terrain: Terrain, layer: number, from: Point, downDeg: number, lengthMm: number): Point {
  const openMm = streakOpenMm(terrain, layer, from, downDeg, lengthMm)
  const down = (downDeg * Math.PI) / 180
  return { x: from.x + openMm * Math.cos(down), y: from.y + openMm * Math.sin(down) }
}

/** How many of its `lengthMm` a streak has before the first cell that stops it, read every quarter of a cell. */
export function streakOpenMm(terrain: Terrain, layer: number, from: Point, downDeg: number, lengthMm: number): number {
  const { grid, slowness } = terrain
  const base = layer * cellCount(grid)
  const stepColumns = Math.cos((downDeg * Math.PI) / 180) / 4
  const stepRows = Math.sin((downDeg * Math.PI) / 180) / 4
  const steps = Math.ceil((4 * lengthMm) / grid.cellMm)
  const column = (from.x - grid.originXMm) / grid.cellMm
  const row = (from.y - grid.originYMm) / grid.cellMm
  for (let k = 1; k <= steps; k++) {
    const x = Math.floor(column + k * stepColumns)
    const y = Math.floor(row + k * stepRows)
    const inside = x >= 0 && y >= 0 && x < grid.columns && y < grid.rows
    if (!inside || slowness[base + y * grid.columns + x] === Infinity) return ((k - 1) * grid.cellMm) / 4
  }
  return lengthMm
}
