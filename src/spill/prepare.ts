/** The work that is done once, in slices: radii over the whole board, then a field for each target. */
import { cellCentre, cellCount } from '../base/index.ts'
import type { Load } from './film.ts'
import type { SpillMark } from './marks.ts'
import type { Site } from './site.ts'
import type { RadiusLattice } from './radii.ts'
import { markedLevels, streaks } from './spread.ts'
import type { Terrain } from './terrain.ts'
import type { BoardTargets } from './targets.ts'

/** Yields the share of the work done, from 0 to 1, after each slice. */
export function* prepareSteps(
  site: Site,
  mark: SpillMark,
  loads: readonly Load[],
  targets: BoardTargets,
): Generator<number, void> {
  const lattice = site.lattice(mark.downDeg)
  const wanted = [...targets.regions, ...targets.corridors, ...targets.bodies.map(({ target }) => target)]
  const steps = lattice.nodes.length + wanted.length
  const levels = markedLevels(site, mark, loads).toReversed()
  const most = loads[loads.length - 1]
  let limitMm = 0
  let done = 0
  for (const node of lattice.nodes) {
    for (const level of levels) {
      const load = loads[level]
      if (load !== undefined) limitMm = Math.max(limitMm, lattice.radiusAtNode(node, load))
    }
    yield ++done / steps
  }
  const raster =
    streaks(site, mark) || most === undefined ? undefined : radiusRaster(site.terrain, lattice, most, limitMm)
  for (const target of wanted) {
    if (raster === undefined || most === undefined) site.fields.of(target, { limitMm, load: undefined })
    else site.fields.prepare(target, most, raster)
    yield ++done / steps
  }
}

/** What lattice and cells may get wrong about a radius. */
const MARGIN_CELLS = 3

/** Per cell of the spill's side how far the load gets from there, with a margin; the farthest for the other side. */
function radiusRaster(terrain: Terrain, lattice: RadiusLattice, load: Load, farthestMm: number): Float32Array {
  const cells = cellCount(terrain.grid)
  const marginMm = MARGIN_CELLS * terrain.grid.cellMm
  const radiusMm = new Float32Array(terrain.slowness.length).fill(farthestMm + marginMm)
  for (let cell = 0; cell < cells; cell++) {
    if (terrain.slowness[cell] === Infinity) continue
    radiusMm[cell] = lattice.radiusAt(cellCentre(terrain.grid, cell), load) + marginMm
  }
  return radiusMm
}
