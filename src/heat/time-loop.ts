/** Marches a thermal board through the phases of a pass and calls back after each step. Rises above the room, K. */
import { prepareAdi } from './adi.ts'
import { type Films, filmsFor, type HeatPlaces, jetRiseK, type Phase } from './films.ts'
import type { LatentStore } from './latent.ts'
import { type HeatGain, type HeatState, networkOf } from './network.ts'
import type { HeatSetting } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'
import { heatAssumptions } from './assumptions.ts'

export interface PhasePlan {
  readonly phase: Phase
  readonly durationS: number
}

/** Heat over the run in J: net from plate and jet, lost to still air. */
export interface HeatFlows {
  inJ: number
  lostJ: number
}

/** What heats: rises above the room, K. The jet starts at `jetFromK` and reaches `jetRiseK` after `rampS`. */
export interface Drive {
  readonly preheatRiseK: number
  readonly jetRiseK: number
  readonly jetFromK: number
  readonly rampS: number
}

/**
 * What a setting in °C asks for, as rises above ambient in K. Without a ramp the jet has its full rise from the
 * start.
 */
export function driveOf(setting: Pick<HeatSetting, 'preheatC' | 'airC' | 'airRamp'>): Drive {
  return {
    preheatRiseK: setting.preheatC - heatAssumptions.ambientC.value,
    jetRiseK: jetRiseK(setting.airC),
    jetFromK: jetRiseK(setting.airRamp?.fromC ?? setting.airC),
    rampS: setting.airRamp?.overS ?? 0,
  }
}

/** Rise of the jet some time after it started. */
const jetRiseAt = (drive: Drive, afterS: number): number =>
  afterS >= drive.rampS ? drive.jetRiseK : drive.jetFromK + ((drive.jetRiseK - drive.jetFromK) * afterS) / drive.rampS

/** Called after each step; false stops the run. */
export type Watcher = (timeS: number, phase: Phase) => boolean

export interface March {
  readonly board: ThermalBoard
  readonly places: HeatPlaces
  readonly drive: Drive
  readonly plan: readonly PhasePlan[]
  readonly stepS: number
  readonly latent: LatentStore | undefined
}

/**
 * Each phase is cut into equal steps of at most `stepS`; its first step is two damped half steps, as the air jumps there.
 * @param state moved in place
 * @returns the heat that flowed, or undefined when the watcher stopped the run
 */
export function marchPhases(march: March, state: HeatState, watcher: Watcher): HeatFlows | undefined {
  const flows: HeatFlows = { inJ: 0, lostJ: 0 }
  let timeS = 0
  for (const { phase, durationS } of march.plan) {
    if (durationS <= 0) continue
    if (!marchPhase(march, phase, durationS, timeS, state, flows, watcher)) return undefined
    timeS += durationS
  }
  return flows
}

function marchPhase(
  march: March,
  phase: Phase,
  durationS: number,
  fromS: number,
  state: HeatState,
  flows: HeatFlows,
  watcher: Watcher,
): boolean {
  // Equal steps, so that the factors below serve the whole phase; the slack keeps rounding from adding a step.
  const count = Math.max(1, Math.ceil(durationS / march.stepS - 1e-9))
  const step = durationS / count
  const films = filmsFor(march.board, march.places, phase)
  const network = networkOf(march.board, films)
  // Two sets of factors: Crank-Nicolson for the run of the phase, two damped half steps for its start, where the air
  // jumps and θ = 1/2 would ring (Rannacher, Numer. Math. 43, 1984; from memory).
  const plain = prepareAdi(network, step, 0.5)
  const damped = prepareAdi(network, step / 2, 1)
  const gain: HeatGain = { cells: films.cellLossWPerK.slice(), nodes: films.nodeLossWPerK.slice() }
  let riseK = NaN
  let grossW = 0
  const advance = (lengthS: number, afterS: number): void => {
    // The jet of the middle of a step keeps a ramp at second order. The gain is only set anew when it changes.
    const wantedK = jetRiseAt(march.drive, afterS + lengthS / 2)
    if (wantedK !== riseK) {
      riseK = wantedK
      setGain(films, march.drive.preheatRiseK, riseK, gain)
      grossW = sumOf(gain.cells) + sumOf(gain.nodes)
    }
    const kernel = lengthS === step ? plain : damped
    kernel.advance(state, gain)
    flows.inJ += lengthS * grossW
    // Melting takes up heat, freezing gives it back: settled after each step, as the next starts from there.
    march.latent?.settle(state.cells)
  }
  // The integrals count from the start of the phase, because films and with them losses change between phases.
  state.cellSecondsK.fill(0)
  state.nodeSecondsK.fill(0)
  for (let k = 0; k < count; k++) {
    // The damped start takes two half steps, so that times stay on the same raster.
    if (k === 0) {
      advance(step / 2, 0)
      advance(step / 2, step / 2)
    } else advance(step, k * step)
    if (!watcher(fromS + (k + 1) * step, phase)) return false
  }
  addFlows(films, state, flows)
  return true
}

/** Gain in W per cell and node for a rise of the plate and one of the jet, written into `gain`. */
export function setGain(films: Films, preheatRiseK: number, jetK: number, gain: HeatGain): void {
  fillGain(gain.cells, films.cellPreheatWPerK, films.cellJetWPerK, preheatRiseK, jetK)
  fillGain(gain.nodes, films.nodePreheatWPerK, films.nodeJetWPerK, preheatRiseK, jetK)
}

function fillGain(out: Float64Array, preheat: Float64Array, jet: Float64Array, preheatK: number, jetK: number): void {
  for (let i = 0; i < out.length; i++) out[i] = (preheat[i] ?? 0) * preheatK + (jet[i] ?? 0) * jetK
}

/** What plate and jet took back from warm cells lessens the heat brought; the rest of the loss went to still air. */
function addFlows(films: Films, state: HeatState, flows: HeatFlows): void {
  const all = dot(films.cellLossWPerK, state.cellSecondsK) + dot(films.nodeLossWPerK, state.nodeSecondsK)
  const still = dot(films.cellStillWPerK, state.cellSecondsK) + dot(films.nodeStillWPerK, state.nodeSecondsK)
  flows.inJ -= all - still
  flows.lostJ += still
}

function sumOf(values: Float64Array): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i] ?? 0
  return sum
}

/** Sum of the products of two arrays, over the length of the first. */
export function dot(a: Float64Array, b: Float64Array): number {
  let total = 0
  for (let i = 0; i < a.length; i++) total += (a[i] ?? 0) * (b[i] ?? 0)
  return total
}

/** Heat stored in cells and bodies above the room, J, without what is bound in molten solder. */
export const storedJ = (board: ThermalBoard, state: HeatState): number =>
  dot(board.capacityJPerK, state.cells) + dot(board.bodies.capacityJPerK, state.nodes)
