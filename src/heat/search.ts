/** Tries settings on the targets' responses: for each preheat, ramp and air time the one air temperature that fits. */
import { heatAssumptions } from './assumptions.ts'
import type { Equipment } from './equipment.ts'
import { rampedJet, type Responses } from './responses.ts'
import type { Wanted } from './wanted.ts'

/** A part that is to be lifted, as the search sees it. */
export interface SearchTarget {
  readonly responses: Responses
  readonly wanted: Wanted
}

/** A package beside the targets that stays on: joints of it crack from `harmFromC` on, and it comes loose at `solidusC`. */
export interface SearchNeighbour {
  readonly responses: Responses
  readonly harmFromC: number
  readonly solidusC: number
}

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
  /** The best at each preheat that works at all, the best of them first: what the coarse grid likes may not stand a full run. */
  readonly candidates: readonly Candidate[]
  /** Hottest that the coldest joint gets with everything at full, °C, and what is wanted of it: on the target that lacks most. */
  readonly reachC: number
  readonly aimC: number
  /** What stopped settings that got hot enough, most frequent first. */
  readonly stoppedBy: readonly StopReason[]
}

export type StopReason = 'hottest' | 'body' | 'ramp' | 'time' | 'air' | 'preheat'

/** The one that is told where targets are stopped by different ones: what is too hot says more than what is too fast. */
const STOPS_OF_A_TARGET = ['hottest', 'body', 'ramp', 'time'] as const

const PREHEAT_LEVELS = 10
const RAMPS_S = [0, 20, 40, 60, 90, 120] as const
/** Kept free below limits that the full run is judged by, as the search leaves out latent heat and uses a coarse grid. */
const RAMP_SHARE = 0.93
const COOLING_TAIL_S = 15
const MARGIN_K = 2
const MARGIN_S = 5

/** @param targets at least one; every one of them has to be lifted by the same setting */
export function searchSetting(
  targets: readonly SearchTarget[],
  neighbours: readonly SearchNeighbour[],
  equipment: Equipment,
): SearchOutcome {
  const { minC } = equipment.preheater
  const mostC = mostPreheatC(targets, equipment)
  const { stepS = 1, moments = 0 } = targets[0]?.responses ?? {}
  const stops = new Map<StopReason, number>()
  const candidates: Candidate[] = []
  for (let level = 0; level <= PREHEAT_LEVELS; level++) {
    const preheatC = minC + ((mostC - minC) * level) / PREHEAT_LEVELS
    let best: Candidate | undefined
    for (const rampS of RAMPS_S) {
      const ramp = Math.round(rampS / stepS)
      for (let moment = Math.max(ramp, 10); moment < moments; moment += 3) {
        const tried = tryOne(targets, equipment, preheatC, ramp, moment)
        if (typeof tried === 'string') stops.set(tried, (stops.get(tried) ?? 0) + 1)
        else best = better(best, tried, neighbours)
      }
    }
    if (best !== undefined) candidates.push(best)
  }
  return {
    candidates: candidates.toSorted((a, b) => a.score - b.score),
    ...worstReach(targets, equipment),
    stoppedBy: [...stops.entries()].toSorted((a, b) => b[1] - a[1]).map(([reason]) => reason),
  }
}

const ambientC = heatAssumptions.ambientC.value
const delivery = heatAssumptions.jetDelivery.value

/** Mean rise of the targets' joints per kelvin of preheat when the air starts: the air starts at that temperature. */
function startShare(targets: readonly SearchTarget[]): number {
  let sum = 0
  let count = 0
  for (const { responses } of targets) {
    for (let p = 0; p < responses.joints; p++) sum += responses.preheat[p * responses.moments] ?? 0
    count += responses.joints
  }
  return count === 0 ? 0 : sum / count
}

/** How one setting drives the board: preheat, then a jet that comes up from `fromK` to `toK` in `ramp` steps. */
interface Driven {
  readonly preheatK: number
  readonly fromK: number
  readonly toK: number
  readonly ramp: number
  /** The step at which the air ends. */
  readonly moment: number
}

type Tried = Candidate & { readonly driven: Driven }

function tryOne(
  targets: readonly SearchTarget[],
  equipment: Equipment,
  preheatC: number,
  ramp: number,
  moment: number,
): Tried | StopReason {
  const preheatK = preheatC - ambientC
  if (targets.some((target) => preheatIsTooMuch(target, preheatK))) return 'preheat'
  const fromK = preheatK * startShare(targets)
  const need = targets
    .map(({ responses, wanted }) => neededJet(responses, moment, ramp, preheatK, fromK, wanted.coldestAimC - ambientC))
    .reduce((most, each) => (each.toK > most.toK ? each : most))
  // Rises add up, so the jet that brings the coldest joint to its aim is found by division and not by search; the
  // most demanding target decides.
  const airC = ambientC + need.toK / delivery
  if (airC > equipment.hotAir.maxC || airC < equipment.hotAir.minC || need.toK < fromK) return 'air'
  const driven = { preheatK, fromK, toK: need.toK, ramp, moment }
  // What it must reach is met by construction; what it may not pass has to be looked at, target by target.
  const verdicts = targets.map((target) => judge(target, driven))
  const stop = STOPS_OF_A_TARGET.find((reason) => verdicts.includes(reason))
  if (stop !== undefined) return stop
  const spreadK = verdicts.reduce<number>((most, each) => (typeof each === 'number' ? Math.max(most, each) : most), 0)
  const airS = moment * (targets[0]?.responses.stepS ?? 1)
  return {
    preheatC,
    airC,
    airS,
    airRamp: { fromC: ambientC + fromK / delivery, overS: ramp * (targets[0]?.responses.stepS ?? 1) },
    coldestPerAirC: need.perK * delivery,
    score: scoreOf(spreadK, airS, ambientC + fromK),
    driven,
  }
}

/** Neighbours are reckoned only where the rest does not decide already. */
function better(
  best: Candidate | undefined,
  tried: Tried,
  neighbours: readonly SearchNeighbour[],
): Candidate | undefined {
  const { driven, ...candidate } = tried
  if (best !== undefined && candidate.score >= best.score) return best
  const score = candidate.score + neighbours.reduce((sum, each) => sum + harmTo(each, driven), 0)
  return best !== undefined && score >= best.score ? best : { ...candidate, score }
}

const HARM_PER_K = 0.4
const HARM_OF_A_MELT = 40
/** The coarse grid blurs what stands beside the nozzle. */
const NEIGHBOUR_MARGIN_K = 3

function harmTo({ responses, harmFromC, solidusC }: SearchNeighbour, driven: Driven): number {
  const { preheatK, fromK, toK, ramp, moment } = driven
  let peakC = 0
  for (let p = 0; p < responses.joints; p++)
    peakC = Math.max(peakC, ambientC + riseAt(responses, p, moment, ramp, preheatK, fromK, toK))
  return HARM_PER_K * Math.max(0, peakC - harmFromC) + (peakC >= solidusC - NEIGHBOUR_MARGIN_K ? HARM_OF_A_MELT : 0)
}

/** The hottest plate that the bench has and every target bears: levels above it would find nothing. */
function mostPreheatC(targets: readonly SearchTarget[], { preheater: { minC, maxC } }: Equipment): number {
  const borne = targets.map(({ responses, wanted }) =>
    Math.min(
      (wanted.preheatMostC - ambientC) / responses.preheatHottest,
      (wanted.rampMostCPerS * RAMP_SHARE) / responses.preheatSlope,
    ),
  )
  return Math.max(minC, Math.min(maxC, Math.floor(ambientC + Math.min(...borne))))
}

const preheatIsTooMuch = ({ responses, wanted }: SearchTarget, preheatK: number): boolean =>
  preheatK * responses.preheatHottest + ambientC > wanted.preheatMostC ||
  preheatK * responses.preheatSlope > wanted.rampMostCPerS * RAMP_SHARE

/** Kelvin between the hottest joint and the aim of the coldest; or the limit of this target that the setting breaks. */
function judge({ responses, wanted }: SearchTarget, driven: Driven): number | StopReason {
  const { preheatK, fromK, toK, ramp, moment } = driven
  const at = (point: number, when: number): number =>
    riseAt(responses, point, when, ramp, preheatK, fromK, toK) + ambientC
  let hottestC = 0
  for (let p = 0; p < responses.joints; p++) hottestC = Math.max(hottestC, at(p, moment))
  if (hottestC > wanted.hottestMostC - MARGIN_K) return 'hottest'
  for (let p = responses.joints; p < responses.points; p++)
    if (at(p, moment) > wanted.bodyMostC - MARGIN_K) return 'body'
  const shape = shapeOf(responses, driven, wanted)
  if (shape === 'ramp') return 'ramp'
  if (shape.coldestS < wanted.aboveLeastS + MARGIN_S || shape.hottestS + COOLING_TAIL_S > wanted.aboveMostS)
    return 'time'
  return hottestC - wanted.coldestAimC
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

/** How long the coldest and the hottest joint are above liquidus; or that the hottest rises too fast, as soon as it does. */
function shapeOf(
  responses: Responses,
  { preheatK, fromK, toK, ramp, moment: end }: Driven,
  { liquidusC, rampMostCPerS }: Wanted,
): { coldestS: number; hottestS: number } | 'ramp' {
  const { joints, stepS } = responses
  const window = Math.max(1, Math.round(heatAssumptions.rampWindowS.value / stepS))
  const mostK = rampMostCPerS * RAMP_SHARE
  const highs: number[] = []
  let coldest = 0
  let hottest = 0
  for (let m = 0; m <= end; m++) {
    let high = -Infinity
    let low = Infinity
    for (let p = 0; p < joints; p++) {
      const c = riseAt(responses, p, m, ramp, preheatK, fromK, toK) + ambientC
      if (c > high) high = c
      if (c < low) low = c
    }
    highs.push(high)
    if (m >= window && (high - (highs[m - window] ?? high)) / (window * stepS) > mostK) return 'ramp'
    if (high >= liquidusC) hottest++
    if (low >= liquidusC) coldest++
  }
  return { coldestS: (coldest - 1) * stepS, hottestS: hottest * stepS }
}

/** Of the target that misses its aim by most. */
function worstReach(targets: readonly SearchTarget[], equipment: Equipment): { reachC: number; aimC: number } {
  return targets
    .map(({ responses, wanted }) => ({
      reachC: fullReachC(responses, equipment, wanted),
      aimC: wanted.coldestAimC,
    }))
    .reduce((worst, each) => (each.reachC - each.aimC < worst.reachC - worst.aimC ? each : worst))
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
