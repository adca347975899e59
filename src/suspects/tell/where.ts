/** Posterior of where a spill was: the members of its hypotheses, weighed by what their states came to. */
import { cellAt, type Grid } from '../../base/index.ts'
import type { Side } from '../../board/index.ts'
import type { SpillHypotheses } from '../../spill/index.ts'
import type { SuspectsResult } from '../result.ts'
import type { Posterior } from '../sum/posterior.ts'

/** By hypothesis of one spill: its probability, all bites together; `offset` counts hypotheses before the first. */
export function hypothesisMasses(posterior: Posterior, variable: number, offset: number, count: number): Float64Array {
  const { parts, states = [] } = posterior.variables[variable] ?? {}
  const masses = new Float64Array(count)
  if (parts === undefined) return masses
  for (let i = 0; i < count; i++) {
    for (let bite = 0; bite < parts.bites; bite++) {
      const at = (offset + i) * parts.bites + bite
      const state = parts.stateOf[at] ?? 0
      const whole = states[state]?.weight ?? 0
      if (whole > 0) {
        masses[i] = (masses[i] ?? 0) + ((posterior.states[variable]?.[state] ?? 0) * (parts.weight[at] ?? 0)) / whole
      }
    }
  }
  return masses
}

export interface LocatedSpill {
  readonly hypotheses: SpillHypotheses
  /** By hypothesis. */
  readonly masses: Float64Array
}

/**
 * @param spills of one kind: all reported, or the unreported one by side; the first one's grid on the side that holds most
 * @param probability that such a spill reached something that fails
 * @returns density per cell, summing to one over that side; mean and standard deviation per axis
 */
export function whereTheSpillWas(spills: readonly LocatedSpill[], probability: number): SuspectsResult['spill'] {
  const totals: Record<Side, number> = { top: 0, bottom: 0 }
  for (const { hypotheses, masses } of spills) {
    totals[hypotheses.side] += masses.reduce((sum, mass) => sum + mass, 0)
  }
  const side: Side = totals.bottom > totals.top ? 'bottom' : 'top'
  const total = totals[side]
  const first = spills.find((spill) => spill.hypotheses.side === side)
  if (first === undefined || total <= 0) return undefined
  const grid = first.hypotheses.grid
  const density = new Float32Array(grid.columns * grid.rows)
  const moments = { x: 0, y: 0, xx: 0, yy: 0 }
  for (const spill of spills) {
    if (spill.hypotheses.side === side) deposit(spill, total, grid, density, moments)
  }
  const variance = moments.xx - moments.x ** 2 + (moments.yy - moments.y ** 2)
  return {
    at: { x: moments.x, y: moments.y },
    sdMm: Math.sqrt(Math.max(0, variance / 2)),
    side,
    grid,
    density,
    probability,
  }
}

function deposit(
  { hypotheses, masses }: LocatedSpill,
  total: number,
  grid: Grid,
  density: Float32Array,
  moments: { x: number; y: number; xx: number; yy: number },
): void {
  const { xMm, yMm, weight, group } = hypotheses.members
  for (let i = 0; i < group.length; i++) {
    const hypothesis = group[i] ?? 0
    const whole = hypotheses.groups[hypothesis]?.weight ?? 0
    const share = whole > 0 ? ((weight[i] ?? 0) * (masses[hypothesis] ?? 0)) / whole / total : 0
    if (share === 0) continue
    const x = xMm[i] ?? 0
    const y = yMm[i] ?? 0
    moments.x += share * x
    moments.y += share * y
    moments.xx += share * x * x
    moments.yy += share * y * y
    const cell = cellAt(grid, { x, y })
    if (cell >= 0) density[cell] = (density[cell] ?? 0) + share
  }
}
