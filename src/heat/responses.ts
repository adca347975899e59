/**
 * How targets answer to one kelvin of preheat and to one kelvin of jet. Without latent heat the board is linear, so
 * every setting's curves are sums of these two: one march each instead of one per setting tried, for all targets at once.
 */
import type { HeatPlaces } from './films.ts'
import { atJoint, extremes, type JointPoints, onePerCell } from './joint-points.ts'
import { zeroState } from './network.ts'
import type { ThermalBoard } from './thermal-board.ts'
import { marchPhases } from './time-loop.ts'

/** Rise per kelvin, point by point (rows: points; columns: moments 0, step, 2·step …). */
export interface Responses {
  readonly stepS: number
  readonly moments: number
  /** Joint cells of the target first, then its body nodes. */
  readonly joints: number
  readonly points: number
  /** During air time, from a preheat of one kelvin that goes on. */
  readonly preheat: Float64Array
  /** During air time, from a jet of one kelvin that starts at 0. */
  readonly jet: Float64Array
  /** The same summed over time (s), from which a jet that comes up slowly is read. */
  readonly jetSum: Float64Array
  /** Steepest rise of the target's joints during preheat alone, 1/s. */
  readonly preheatSlope: number
  /** Greatest rise of any cell at the end of the preheat. */
  readonly preheatHottest: number
}

/** One target while the board is marched. */
interface Watched {
  readonly joints: JointPoints
  readonly nodes: Int32Array
  readonly preheat: Float64Array
  readonly jet: Float64Array
  steepest: number
  last: number
}

/**
 * @param parts indices of the targets among the board's parts
 * @returns one answer a target, in the same order
 */
export function respond(
  board: ThermalBoard,
  places: HeatPlaces,
  parts: readonly number[],
  preheatS: number,
  airS: number,
  stepS: number,
): Responses[] {
  const moments = Math.ceil(airS / stepS - 1e-9) + 1
  const targets = parts.map((part) => watched(board, part, moments))
  let hottest = 0
  const warm = zeroState(board.capacityJPerK.length, board.bodies.cell.length)
  const base = { board, places, stepS, latent: undefined }
  const plan = [
    { phase: 'preheat' as const, durationS: preheatS },
    { phase: 'air' as const, durationS: airS },
  ]
  const step = airS / (moments - 1)
  const onlyPreheat = { preheatRiseK: 1, jetRiseK: 0, jetFromK: 0, rampS: 0 }
  marchPhases({ ...base, drive: onlyPreheat, plan }, warm, (timeS, phase) => {
    if (phase === 'preheat') for (const target of targets) steepen(target, warm.cells, stepS)
    if (timeS >= preheatS - 1e-6) {
      if (phase === 'preheat') hottest = warm.cells.reduce((a, b) => Math.max(a, b), 0)
      for (const target of targets) note(target.preheat, moments, Math.round((timeS - preheatS) / step), target, warm)
    }
    return true
  })
  const cold = zeroState(board.capacityJPerK.length, board.bodies.cell.length)
  const onlyJet = { preheatRiseK: 0, jetRiseK: 1, jetFromK: 1, rampS: 0 }
  marchPhases({ ...base, drive: onlyJet, plan: plan.slice(1) }, cold, (timeS) => {
    for (const target of targets) note(target.jet, moments, Math.round(timeS / step), target, cold)
    return true
  })
  return targets.map(({ joints, nodes, preheat, jet, steepest }) => ({
    stepS: step,
    moments,
    joints: joints.count,
    points: joints.count + nodes.length,
    preheat,
    jet,
    jetSum: summed(jet, joints.count + nodes.length, moments, step),
    preheatSlope: steepest,
    preheatHottest: hottest,
  }))
}

function watched(board: ThermalBoard, part: number, moments: number): Watched {
  const all = board.jointPoints[part]
  if (all === undefined) throw new RangeError(`no part ${part}`)
  const joints = onePerCell(all)
  const nodes = Int32Array.from([...board.bodies.part.keys()].filter((n) => board.bodies.part[n] === part))
  const length = (joints.count + nodes.length) * moments
  return { joints, nodes, preheat: new Float64Array(length), jet: new Float64Array(length), steepest: 0, last: 0 }
}

function steepen(target: Watched, cells: Float64Array, stepS: number): void {
  const { high } = extremes(target.joints, cells)
  target.steepest = Math.max(target.steepest, (high - target.last) / stepS)
  target.last = high
}

function note(
  into: Float64Array,
  moments: number,
  moment: number,
  { joints, nodes }: Watched,
  state: { readonly cells: Float64Array; readonly nodes: Float64Array },
): void {
  for (let k = 0; k < joints.count; k++) into[k * moments + moment] = atJoint(joints, k, state.cells)
  for (let k = 0; k < nodes.length; k++) into[(joints.count + k) * moments + moment] = state.nodes[nodes[k] ?? 0] ?? 0
}

function summed(values: Float64Array, points: number, moments: number, stepS: number): Float64Array {
  const sums = new Float64Array(values.length)
  for (let p = 0; p < points; p++) {
    for (let m = 1; m < moments; m++) {
      const i = p * moments + m
      sums[i] = (sums[i - 1] ?? 0) + (stepS * ((values[i - 1] ?? 0) + (values[i] ?? 0))) / 2
    }
  }
  return sums
}

/**
 * Rise at a point per kelvin of a jet that comes up evenly over `rampMoments` steps, by superposition of delayed starts:
 * (1/S)·(I(t) - I(t - S)) with I the time sum of the answer to a sudden start.
 */
export function rampedJet(responses: Responses, point: number, moment: number, rampMoments: number): number {
  const i = point * responses.moments + moment
  if (rampMoments === 0) return responses.jet[i] ?? 0
  const before = moment > rampMoments ? (responses.jetSum[i - rampMoments] ?? 0) : 0
  return ((responses.jetSum[i] ?? 0) - before) / (rampMoments * responses.stepS)
}
