/** The reach at the mark's own point and amount: what the sheet draws. */
import { cellCount } from '../../base/index.ts'
import { closeVolume, curveEndMm, marchVolume } from '../flow/curve.ts'
import type { Load } from '../flow/film.ts'
import type { SpillMark } from '../marks.ts'
import type { ReachField } from '../result.ts'
import { pressedChance, pushIfPressedMm } from '../flow/press.ts'
import { type Pressed, type Site, spillSeeds } from '../flow/site.ts'
import type { Substance } from '../substance/substance.ts'
import type { Terrain } from '../ground/terrain.ts'

export interface DirectReach {
  /** The smear's and the push together. */
  readonly radiusMm: number
  /** How far it was pushed for certain: 0 where that is not known. */
  readonly pushMm: number
  readonly areaMm2: number
  readonly unplacedMm3: number
  readonly fields: readonly ReachField[]
}

/** The rings go on this far beyond the radius. */
const BEYOND = 1.6

/**
 * Marches from the mark until its load has its place. What a body keeps out and was pushed goes on from there: everything
 * within the push of the smear counts, and the radius is the smear's plus the push. A push that nobody vouches for is left
 * to the probabilities.
 */
export function directReach(site: Site, mark: SpillMark, substance: Substance, load: Load): DirectReach {
  const { terrain, marcher, behaviour } = site
  const seeds = spillSeeds(terrain, behaviour, mark.at, load, mark.downDeg)
  const curve = marchVolume(terrain, marcher, seeds, load, { limitMm: Infinity, beyond: BEYOND })
  const closed = closeVolume(curve, load) ?? { radiusMm: curveEndMm(curve), unplacedMm3: 0 }
  const isPushed = behaviour.bodies === 'kept-out' && pressedChance(mark, substance) === 1
  const pushMm = isPushed ? pushIfPressedMm(mark, substance) : 0
  const effortMm = new Float32Array(marcher.effortMm)
  if (pushMm > 0) goOnPushed(effortMm, closed.radiusMm, pushMm, site.pressed())
  const radiusMm = closed.radiusMm + pushMm
  return {
    radiusMm,
    pushMm,
    areaMm2: areaWithin(pushMm > 0 ? site.pressed().terrain : terrain, effortMm, radiusMm),
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

function goOnPushed(effortMm: Float32Array, smearMm: number, pushMm: number, { marcher }: Pressed): void {
  const cells: number[] = []
  for (let cell = 0; cell < effortMm.length; cell++) if ((effortMm[cell] ?? Infinity) <= smearMm) cells.push(cell)
  const count = marcher.run({ cells, effortMm: cells.map(() => 0) }, pushMm)
  for (let i = cells.length; i < count; i++) {
    const cell = marcher.order[i] ?? 0
    const pushed = smearMm + (marcher.effortMm[cell] ?? 0)
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
