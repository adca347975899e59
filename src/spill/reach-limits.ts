/** Per cell how far anything gets that starts there or passes there in a streak: beyond it no field is of use. */
import { cellCentre, cellCount } from '../base/index.ts'
import type { Load } from './film.ts'
import type { Site } from './site.ts'
import type { Streaks } from './streak-arrivals.ts'

/** What lattice and cells may get wrong about a radius. */
const RADIUS_MARGIN_CELLS = 3

/**
 * The least raster, in mm, that is nowhere below the radius (with a margin) of what starts or passes there and that falls
 * from any cell by no more than the effort to get away from it. A march from a target may stop at a cell that it reaches
 * with more than this: anywhere beyond, the effort has grown by at least as much as the raster.
 */
export function reachLimits(site: Site, load: Load, streaks: Streaks | undefined): Float32Array {
  const { terrain, marcher } = site
  const least = new Float32Array(terrain.slowness.length)
  const highest = streaks === undefined ? raiseToRadii(least, site, load) : raiseAlongStreaks(least, site, streaks)
  const cells: number[] = []
  const effortMm: number[] = []
  for (let cell = 0; cell < least.length; cell++) {
    if (terrain.slowness[cell] === Infinity || least[cell] === 0) continue
    cells.push(cell)
    effortMm.push(highest - (least[cell] ?? 0))
  }
  marcher.run({ cells, effortMm }, highest)
  for (let cell = 0; cell < least.length; cell++) {
    const below = marcher.effortMm[cell] ?? Infinity
    least[cell] = below === Infinity ? 0 : highest - below
  }
  return least
}

/** Raises each cell to the radius of the load there. @returns the highest */
function raiseToRadii(least: Float32Array, site: Site, load: Load): number {
  const { terrain } = site
  const flat = site.lattice(undefined)
  const marginMm = RADIUS_MARGIN_CELLS * terrain.grid.cellMm
  let highest = 0
  for (let cell = 0; cell < cellCount(terrain.grid); cell++) {
    if (terrain.slowness[cell] === Infinity) continue
    const radiusMm = flat.radiusAt(cellCentre(terrain.grid, cell), load) + marginMm
    if (radiusMm > highest) highest = radiusMm
    least[cell] = radiusMm
  }
  return highest
}

/** Raises each cell to the radius of every streak that passes there. @returns the highest */
function raiseAlongStreaks(least: Float32Array, { terrain }: Site, streaks: Streaks): number {
  const { levels, steps, radiusMm, startColumn, startRow, stepColumns, stepRows } = streaks
  const { columns, cellMm } = terrain.grid
  let highest = 0
  for (let i = 0; i < startColumn.length; i++) {
    const top = i * levels + levels - 1
    const mine = (radiusMm[top] ?? 0) + RADIUS_MARGIN_CELLS * cellMm
    if (mine > highest) highest = mine
    for (let k = 0; k <= (steps[top] ?? 0); k++) {
      const column = Math.floor((startColumn[i] ?? 0) + k * stepColumns)
      const cell = Math.floor((startRow[i] ?? 0) + k * stepRows) * columns + column
      if (mine > (least[cell] ?? 0)) least[cell] = mine
    }
  }
  return highest
}
