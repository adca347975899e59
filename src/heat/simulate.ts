/** One pass over time: the board's temperatures, every part's peak, the energy balance. */
import { bad, type Fault, good, type Result, say } from '../base/index.ts'
import { heatAssumptions } from './assumptions.ts'
import { latentStore } from './latent.ts'
import { zeroState } from './network.ts'
import { judgeParts, type PartCurves } from './part-heat.ts'
import { recorder } from './recorder.ts'
import type { HeatRun, HeatSetting } from './result.ts'
import type { ThermalBoard } from './thermal-board.ts'
import { driveOf, marchPhases, type PhasePlan, storedJ } from './time-loop.ts'
import { checkSetting } from './check-setting.ts'

export interface SimulateOptions {
  /** Preheat, air and 90 s of cooling in still air where left out. */
  readonly durationS?: number
  /** 1 s, or on cells under 1 mm as many seconds as the cell has mm: longer steps make the bodies over melting joints jump. */
  readonly stepS?: number
  readonly keepEveryS?: number
  /** Latent heat of the joints; on where left out. */
  readonly latentHeat?: boolean
  readonly onProgress?: (share: number) => void
  /** Polled after each step; an aborted run answers with a fault. */
  readonly signal?: { readonly aborted: boolean }
}

export const COOLING_S = 90
const CURVES_KEPT = 12

/**
 * Preheat from below, then hot air on one spot, then both off and the board in still air.
 * @returns frames, curves of the hottest parts, every part's heat, the energy balance; or the faults of setting and options
 */
export function simulate(board: ThermalBoard, setting: HeatSetting, options: SimulateOptions = {}): Result<HeatRun> {
  const durationS = options.durationS ?? setting.preheatS + setting.airS + COOLING_S
  const stepS = options.stepS ?? Math.min(1, board.grid.cellMm)
  const faults = [...checkSetting(board, setting), ...checkTimes(durationS, stepS, options.keepEveryS ?? 5)]
  if (faults.length > 0) return bad(...faults)
  const ambientC = heatAssumptions.ambientC.value
  const plan = phasesOf(setting, durationS)
  const state = zeroState(board.capacityJPerK.length, board.bodies.cell.length)
  const latent = options.latentHeat === false ? undefined : latentStore(board, ambientC)
  const record = recorder(board, state, ambientC, options.keepEveryS ?? 5)
  record.step(0)
  const march = { board, places: setting, drive: driveOf(setting), plan, stepS, latent }
  const flows = marchPhases(march, state, (timeS) => {
    record.step(timeS)
    options.onProgress?.(timeS / durationS)
    return options.signal?.aborted !== true
  })
  if (flows === undefined) return bad({ path: '$.signal', found: say('a stop'), expected: say('a run to its end') })
  const { curves, nodePeakC, frames } = record.done()
  const parts = judgeParts(board, curves, nodePeakC)
  return good({
    setting,
    grid: board.grid,
    frames,
    curves: hottestCurves(board, curves),
    parts,
    energy: { ...flows, storedJ: storedJ(board, state) + (latent?.boundJ() ?? 0) },
    notes: [...board.notes, ...standingNotes],
  })
}

const standingNotes = [
  say(
    'Film coefficients, jet delivery and body materials are stated assumptions: trust a thermocouple at the joint above this model.',
  ),
  say(
    'After the hot air the preheater is taken away too and the board cools in still air; solder freezes without undercooling.',
  ),
]

function checkTimes(durationS: number, stepS: number, keepEveryS: number): Fault[] {
  const faults: Fault[] = []
  const check = (path: string, value: number, most: number): void => {
    if (!(value > 0 && value <= most))
      faults.push({ path, found: String(value), expected: say('more than 0 and at most {most} seconds', { most }) })
  }
  check('$.durationS', durationS, 7200)
  check('$.stepS', stepS, 60)
  check('$.keepEveryS', keepEveryS, 7200)
  return faults
}

/** The three phases, cut at the run's end. */
export function phasesOf(setting: Pick<HeatSetting, 'preheatS' | 'airS'>, durationS: number): PhasePlan[] {
  const preheatS = Math.min(setting.preheatS, durationS)
  const airS = Math.min(setting.airS, durationS - preheatS)
  return [
    { phase: 'preheat', durationS: preheatS },
    { phase: 'air', durationS: airS },
    { phase: 'cool', durationS: durationS - preheatS - airS },
  ]
}

function hottestCurves(board: ThermalBoard, curves: readonly PartCurves[]): HeatRun['curves'] {
  const peak = curves.map(({ hottestC }) => hottestC.reduce((a, b) => Math.max(a, b), -Infinity))
  return board.parts
    .map((part, p) => ({ part, p }))
    .filter(({ p }) => Number.isFinite(peak[p]) && (board.parts[p]?.pads.length ?? 0) > 0)
    .toSorted((a, b) => (peak[b.p] ?? 0) - (peak[a.p] ?? 0))
    .slice(0, CURVES_KEPT)
    .flatMap(({ part, p }) => {
      const curve = curves[p]
      return curve === undefined
        ? []
        : [{ ref: part.ref, timeS: curve.timeS, jointC: curve.hottestC, coldestC: curve.coldestC }]
    })
}
