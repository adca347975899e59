/** Tries settings on the target's responses: for each preheat, ramp and air time the one air temperature that fits. */
import { heatAssumptions } from './assumptions.ts'
import type { Equipment } from './equipment.ts'
import { rampedJet, type Responses } from './responses.ts'
import type { Wanted } from './wanted.ts'

export interface Candidate {
  readonly preheatC: number
  readonly airC: number
  readonly airS: number
  readonly airRamp: { readonly fromC: number; readonly overS: number }
  /** Rise of the coldest joint per °C of set air: for corrections after a full run. */
  readonly coldestPerAirC: number
  readonly score: number
}

export interface SearchOutcome {
  readonly best: Candidate | undefined
  /** Hottest that the coldest joint gets with everything at full, °C. */
  readonly reachC: number
  /** What stopped settings that got hot enough, most frequent first. */
  readonly stoppedBy: readonly StopReason[]
}

export type StopReason = 'hottest' | 'body' | 'ramp' | 'time' | 'air' | 'preheat'

const PREHEAT_LEVELS = 10
const RAMPS_S = [0, 20, 40, 60, 90, 120] as const
/** Kept free below limits that the full run is judged by, as the search leaves out latent heat and uses a coarse grid. */
const RAMP_SHARE = 0.93
const COOLING_TAIL_S = 15
const MARGIN_K = 2
const MARGIN_S = 5

export function searchSetting(responses: Responses, wanted: Wanted, equipment: Equipment): SearchOutcome {
  const { minC, maxC } = equipment.preheater
  const stops = new Map<StopReason, number>()
  let best: Candidate | undefined
  for (let level = 0; level <= PREHEAT_LEVELS; level++) {
    const preheatC = minC + ((maxC - minC) * level) / PREHEAT_LEVELS
    for (const rampS of RAMPS_S) {
      const ramp = Math.round(rampS / responses.stepS)
      for (let moment = Math.max(ramp, 10); moment < responses.moments; moment += 3) {
        const tried = tryOne(responses, wanted, equipment, preheatC, ramp, moment)
        if (typeof tried === 'string') stops.set(tried, (stops.get(tried) ?? 0) + 1)
        else if (best === undefined || tried.score < best.score) best = tried
      }
    }
  }
  return {
    best,
    reachC: fullReachC(responses, equipment, wanted),
    stoppedBy: [...stops.entries()].toSorted((a, b) => b[1] - a[1]).map(([reason]) => reason),
  }
}

const ambientC = heatAssumptions.ambientC.value
const delivery = heatAssumptions.jetDelivery.value

/** Mean rise of the target's joints per kelvin of preheat when the air starts: the air starts at that temperature. */
function startShare(responses: Responses): number {
  let sum = 0
  for (let p = 0; p < responses.joints; p++) sum += responses.preheat[p * responses.moments] ?? 0
  return responses.joints === 0 ? 0 : sum / responses.joints
}

function tryOne(
  responses: Responses,
  wanted: Wanted,
  equipment: Equipment,
  preheatC: number,
  ramp: number,
  moment: number,
): Candidate | StopReason {
  const preheatK = preheatC - ambientC
  if (preheatK * responses.preheatHottest + ambientC > wanted.preheatMostC) return 'preheat'
  if (preheatK * responses.preheatSlope > wanted.rampMostCPerS * RAMP_SHARE) return 'preheat'
  const fromK = preheatK * startShare(responses)
  const at = (point: number, when: number, toK: number): number =>
    riseAt(responses, point, when, ramp, preheatK, fromK, toK) + ambientC
  const need = neededJet(responses, moment, ramp, preheatK, fromK, wanted.coldestAimC - ambientC)
  const airC = ambientC + need.toK / delivery
  if (airC > equipment.hotAir.maxC || airC < equipment.hotAir.minC || need.toK < fromK) return 'air'
  let hottestC = 0
  for (let p = 0; p < responses.joints; p++) hottestC = Math.max(hottestC, at(p, moment, need.toK))
  if (hottestC > wanted.hottestMostC - MARGIN_K) return 'hottest'
  for (let p = responses.joints; p < responses.points; p++)
    if (at(p, moment, need.toK) > wanted.bodyMostC - MARGIN_K) return 'body'
  const shape = shapeOf(responses, moment, wanted.liquidusC, (point, when) => at(point, when, need.toK))
  if (shape.rampCPerS > wanted.rampMostCPerS * RAMP_SHARE) return 'ramp'
  if (shape.coldestS < wanted.aboveLeastS + MARGIN_S || shape.hottestS + COOLING_TAIL_S > wanted.aboveMostS)
    return 'time'
  const boardC = ambientC + fromK
  return {
    preheatC,
    airC,
    airS: moment * responses.stepS,
    airRamp: { fromC: ambientC + fromK / delivery, overS: ramp * responses.stepS },
    coldestPerAirC: need.perK * delivery,
    score: scoreOf(hottestC - wanted.coldestAimC, moment * responses.stepS, boardC),
  }
}

/** Even joints, short air, and a board no warmer from below than the 150 °C that lead-free preheat starts at. */
const scoreOf = (spreadK: number, airS: number, boardC: number): number =>
  spreadK + airS / 4 + Math.max(0, boardC - 150)

function riseAt(
  responses: Responses,
  point: number,
  moment: number,
  ramp: number,
  preheatK: number,
  fromK: number,
  toK: number,
): number {
  const i = point * responses.moments + moment
  const ramped = rampedJet(responses, point, moment, ramp)
  return preheatK * (responses.preheat[i] ?? 0) + fromK * ((responses.jet[i] ?? 0) - ramped) + toK * ramped
}

/** The least jet that brings every joint to the aim at that moment, and the answer per kelvin of the joint that decides. */
function neededJet(
  responses: Responses,
  moment: number,
  ramp: number,
  preheatK: number,
  fromK: number,
  aimK: number,
): { toK: number; perK: number } {
  let toK = -Infinity
  let perK = 0
  for (let p = 0; p < responses.joints; p++) {
    const ramped = rampedJet(responses, p, moment, ramp)
    const without = riseAt(responses, p, moment, ramp, preheatK, fromK, 0)
    const need = (aimK - without) / ramped
    if (need <= toK) continue
    toK = need
    perK = ramped
  }
  return { toK, perK }
}

function shapeOf(
  responses: Responses,
  end: number,
  liquidusC: number,
  at: (point: number, moment: number) => number,
): { rampCPerS: number; coldestS: number; hottestS: number } {
  const window = Math.max(1, Math.round(heatAssumptions.rampWindowS.value / responses.stepS))
  const highs: number[] = []
  let coldest = 0
  let hottest = 0
  let rampCPerS = 0
  for (let m = 0; m <= end; m++) {
    let high = -Infinity
    let low = Infinity
    for (let p = 0; p < responses.joints; p++) {
      const c = at(p, m)
      if (c > high) high = c
      if (c < low) low = c
    }
    highs.push(high)
    if (m >= window) rampCPerS = Math.max(rampCPerS, (high - (highs[m - window] ?? high)) / (window * responses.stepS))
    if (high >= liquidusC) hottest++
    if (low >= liquidusC) coldest++
  }
  return { rampCPerS, coldestS: (coldest - 1) * responses.stepS, hottestS: hottest * responses.stepS }
}

function fullReachC(responses: Responses, equipment: Equipment, wanted: Wanted): number {
  const mostPreheatK = Math.min(
    equipment.preheater.maxC - ambientC,
    (wanted.preheatMostC - ambientC) / Math.max(1e-9, responses.preheatHottest),
  )
  const jetK = (equipment.hotAir.maxC - ambientC) * delivery
  let coldest = Infinity
  for (let p = 0; p < responses.joints; p++)
    coldest = Math.min(coldest, riseAt(responses, p, responses.moments - 1, 0, mostPreheatK, jetK, jetK))
  return coldest + ambientC
}
