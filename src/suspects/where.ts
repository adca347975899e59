/** Posterior of where the spill was: the members of all spill hypotheses, weighed by what their groups came to. */
import { cellAt, type Grid } from '../base/index.ts'
import type { Side } from '../board/index.ts'
import type { SpillHypotheses } from '../spill/index.ts'
import type { ReducedSpatial } from './reduce.ts'
import type { SuspectsResult } from './result.ts'

/** One set of hypotheses with its place in a spatial cause's list of states. */
export interface LocatedSpill {
  readonly hypotheses: SpillHypotheses
  readonly spatial: ReducedSpatial
  /** Posterior of the spatial cause's groups. */
  readonly posterior: Float64Array
  /** Index of the hypotheses' first group among the cause's states. */
  readonly offset: number
}

/**
 * @param spills reported ones first; their grid is drawn on, else the unreported one's
 * @param probability that a spill reached something that fails
 * @returns density per cell, summing to one over the side that holds most of it; mean and standard deviation per axis
 */
export function whereTheSpillWas(spills: readonly LocatedSpill[], probability: number): SuspectsResult['spill'] {
  const masses = spills.map(memberMasses)
  const totals = { top: 0, bottom: 0 }
  for (const [index, spill] of spills.entries()) {
    totals[spill.hypotheses.side] += masses[index]?.reduce((sum, mass) => sum + mass, 0) ?? 0
  }
  const side: Side = totals.bottom > totals.top ? 'bottom' : 'top'
  const total = totals[side]
  const first = spills.find((spill) => spill.hypotheses.side === side)
  if (first === undefined || total <= 0) return undefined
  const grid = first.hypotheses.grid
  const density = new Float32Array(grid.columns * grid.rows)
  const moments = { x: 0, y: 0, xx: 0, yy: 0 }
  for (const [index, spill] of spills.entries()) {
    if (spill.hypotheses.side === side) deposit(spill.hypotheses, masses[index], total, grid, density, moments)
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

function memberMasses(spill: LocatedSpill): Float64Array {
  const { hypotheses, spatial, posterior, offset } = spill
  const perState = new Float64Array(hypotheses.groups.length)
  for (let state = 0; state < perState.length; state++) {
    const group = spatial.groupOf[offset + state] ?? 0
    const whole = spatial.groups[group]?.weight ?? 0
    const share = whole > 0 ? (posterior[group] ?? 0) / whole : 0
    const weight = hypotheses.groups[state]?.weight ?? 0
    perState[state] = weight > 0 ? (share * (spatial.stateWeight[offset + state] ?? 0)) / weight : 0
  }
  const { weight, group } = hypotheses.members
  const mass = new Float64Array(group.length)
  for (let i = 0; i < mass.length; i++) mass[i] = (weight[i] ?? 0) * (perState[group[i] ?? 0] ?? 0)
  return mass
}

function deposit(
  hypotheses: SpillHypotheses,
  masses: Float64Array | undefined,
  total: number,
  grid: Grid,
  density: Float32Array,
  moments: { x: number; y: number; xx: number; yy: number },
): void {
  const { xMm, yMm } = hypotheses.members
  for (let i = 0; i < (masses?.length ?? 0); i++) {
    const share = (masses?.[i] ?? 0) / total
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
