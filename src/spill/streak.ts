/** A mounted board makes a streak: the seed of the spread is a segment that runs downhill from the point. */
import { cellAt, cellCount, type Point } from '../base/index.ts'
import type { Behaviour, Load } from './film.ts'
import type { Terrain } from './terrain.ts'

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

/** Where a streak of at most `lengthMm` ends: at its length, or before the first cell that stops it (dam, wall, edge). */
export function streakEnd(terrain: Terrain, layer: number, from: Point, downDeg: number, lengthMm: number): Point {
  const base = layer * cellCount(terrain.grid)
  const dx = Math.cos((downDeg * Math.PI) / 180)
  const dy = Math.sin((downDeg * Math.PI) / 180)
  const stepMm = terrain.grid.cellMm / 4
  let open = 0
  for (let along = stepMm; along < lengthMm + stepMm; along += stepMm) {
    const at = Math.min(along, lengthMm)
    const cell = cellAt(terrain.grid, { x: from.x + at * dx, y: from.y + at * dy })
    if (cell < 0 || terrain.slowness[base + cell] === Infinity) break
    open = at
  }
  return { x: from.x + open * dx, y: from.y + open * dy }
}
