/**
 * How targets answer to one kelvin of preheat and to one kelvin of jet. Without latent heat the board is linear, so
 * every setting's curves are sums of these two: one march each instead of one per setting tried, for all targets at once.
 */
import type { HeatPlaces } from './films.ts'
import { atJoint, extremes, type JointPoints, onePerCell } from './joint-points.ts'
import { type HeatState, zeroState } from './network.ts'
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
}

/** The board at the end of a preheat of one kelvin: the same for every nozzle that comes after. */
export interface Preheated {
  readonly state: HeatState
  /** By part asked for: steepest rise of its joints meanwhile, 1/s. */
  readonly slopes: readonly number[]
  /** Greatest rise of any cell. */
  readonly hottest: number
}

/** @param parts indices of the parts to watch among the board's parts */
export function preheat(
  board: ThermalBoard,
  places: HeatPlaces,
  parts: readonly number[],
  preheatS: number,
  stepS: number,
): Preheated {
  const joints = parts.map((part) => jointsOf(board, part))
  const last = new Float64Array(parts.length)
  const slopes = new Float64Array(parts.length)
  const state = zeroState(board.capacityJPerK.length, board.bodies.cell.length)
  const plan = [{ phase: 'preheat' as const, durationS: preheatS }]
  marchPhases({ board, places, stepS, latent: undefined, drive: ONLY_PREHEAT, plan }, state, () => {
    for (const [i, points] of joints.entries()) {
      const { high } = extremes(points, state.cells)
      slopes[i] = Math.max(slopes[i] ?? 0, (high - (last[i] ?? 0)) / stepS)
      last[i] = high
    }
    return true
  })
  return { state, slopes: [...slopes], hottest: state.cells.reduce((a, b) => Math.max(a, b), 0) }
}

const ONLY_PREHEAT = { preheatRiseK: 1, jetRiseK: 0, jetFromK: 0, rampS: 0 }
const ONLY_JET = { preheatRiseK: 0, jetRiseK: 1, jetFromK: 1, rampS: 0 }

/**
 * @param parts indices of the parts to watch, as `preheat` was asked for
 * @returns one answer a part, in the same order
 */
export function respond(
  board: ThermalBoard,
  places: HeatPlaces,
  parts: readonly number[],
  before: Preheated,
  airS: number,
  stepS: number,
): Responses[] {
  const moments = Math.ceil(airS / stepS - 1e-9) + 1
  const targets = parts.map((part) => watched(board, part, moments))
  const base = { board, places, stepS, latent: undefined, plan: [{ phase: 'air' as const, durationS: airS }] }
  const step = airS / (moments - 1)
  const warm = copyOf(before.state)
  for (const target of targets) note(target.preheat, moments, 0, target, warm)
  marchPhases({ ...base, drive: ONLY_PREHEAT }, warm, (timeS) => {
    for (const target of targets) note(target.preheat, moments, Math.round(timeS / step), target, warm)
    return true
  })
  const cold = zeroState(board.capacityJPerK.length, board.bodies.cell.length)
  marchPhases({ ...base, drive: ONLY_JET }, cold, (timeS) => {
    for (const target of targets) note(target.jet, moments, Math.round(timeS / step), target, cold)
    return true
  })
  return targets.map(({ joints, nodes, preheat: answer, jet }, i) => ({
    stepS: step,
    moments,
    joints: joints.count,
    points: joints.count + nodes.length,
    preheat: answer,
    jet,
    jetSum: summed(jet, joints.count + nodes.length, moments, step),
    preheatSlope: before.slopes[i] ?? 0,
    preheatHottest: before.hottest,
  }))
}

const copyOf = ({ cells, nodes, cellSecondsK, nodeSecondsK }: HeatState): HeatState => ({
  cells: cells.slice(),
  nodes: nodes.slice(),
  cellSecondsK: cellSecondsK.slice(),
  nodeSecondsK: nodeSecondsK.slice(),
})

function jointsOf(board: ThermalBoard, part: number): JointPoints {
  const all = board.jointPoints[part]
  if (all === undefined) throw new RangeError(`no part ${part}`)
  return onePerCell(all)
}

function watched(board: ThermalBoard, part: number, moments: number): Watched {
  const joints = jointsOf(board, part)
  const nodes = Int32Array.from([...board.bodies.part.keys()].filter((n) => board.bodies.part[n] === part))
  const length = (joints.count + nodes.length) * moments
  return { joints, nodes, preheat: new Float64Array(length), jet: new Float64Array(length) }
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
