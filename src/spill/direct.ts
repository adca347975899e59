/** The reach at the mark's own point and amount: what the sheet draws. */
import { cellCount } from '../base/index.ts'
import { closeVolume, curveEndMm, marchVolume } from './curve.ts'
import type { Push } from './fields.ts'
import type { Load } from './film.ts'
import type { SpillMark } from './marks.ts'
import type { ReachField } from './result.ts'
import { type Site, spillSeeds } from './site.ts'
import type { Terrain } from './terrain.ts'

export interface DirectReach {
  readonly radiusMm: number
  readonly areaMm2: number
  readonly unplacedMm3: number
  readonly fields: readonly ReachField[]
}

/** The rings go on this far beyond the radius. */
const BEYOND = 1.6

/**
 * Marches from the mark until its load has its place. What a body keeps out and was pushed goes on from there: everything
 * within the push of the smear counts, and the radius is the smear's plus the push.
 */
export function directReach(site: Site, mark: SpillMark, load: Load): DirectReach {
  const { terrain, marcher, push } = site
  const seeds = spillSeeds(terrain, site.behaviour, mark.at, load, mark.downDeg)
  const curve = marchVolume(terrain, marcher, seeds, load, { limitMm: Infinity, beyond: BEYOND })
  const closed = closeVolume(curve, load) ?? { radiusMm: curveEndMm(curve), unplacedMm3: 0 }
  const effortMm = new Float32Array(marcher.effortMm)
  if (push !== undefined) goOnPushed(effortMm, closed.radiusMm, push)
  const radiusMm = closed.radiusMm + (push?.pushMm ?? 0)
  return {
    radiusMm,
    areaMm2: areaWithin(push?.terrain ?? terrain, effortMm, radiusMm),
    unplacedMm3: closed.unplacedMm3,
    fields: terrain.sides.map((side, layer) => ({
      side,
      grid: terrain.grid,
      effortMm: layerOf(terrain, effortMm, layer),
    })),
  }
}

function layerOf(terrain: Terrain, effortMm: Float32Array, layer: number): Float32Array {
  if (terrain.sides.length === 1) return effortMm
  const cells = cellCount(terrain.grid)
  return effortMm.slice(layer * cells, (layer + 1) * cells)
}

function goOnPushed(effortMm: Float32Array, smearMm: number, push: Push): void {
  const cells: number[] = []
  for (let cell = 0; cell < effortMm.length; cell++) if ((effortMm[cell] ?? Infinity) <= smearMm) cells.push(cell)
  const count = push.marcher.run({ cells, effortMm: cells.map(() => 0) }, push.pushMm)
  for (let i = cells.length; i < count; i++) {
    const cell = push.marcher.order[i] ?? 0
    const pushed = smearMm + (push.marcher.effortMm[cell] ?? 0)
    if (pushed < (effortMm[cell] ?? Infinity)) effortMm[cell] = pushed
  }
}

/** Area in mm² of {T <= r}; a cell counts by the share of it that the front has crossed. */
function areaWithin(terrain: Terrain, effortMm: Float32Array, radiusMm: number): number {
  const { cellMm } = terrain.grid
  let cells = 0
  for (let cell = 0; cell < effortMm.length; cell++) {
    const effort = effortMm[cell] ?? Infinity
    if (effort > radiusMm + cellMm) continue
    const half = ((terrain.slowness[cell] ?? 0) * cellMm) / 2
    const from = Math.max(0, effort - half)
    cells += Math.min(1, Math.max(0, (radiusMm - from) / (effort + half - from)))
  }
  return cells * cellMm * cellMm
}
