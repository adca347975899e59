/** What a pass must reach and may not pass, for one target: every joint liquid, and the limits of the body and the board. */
import type { PlacedPart } from '../board/index.ts'
import { alloyOf, heatAssumptions, type JointAlloy } from './assumptions.ts'
import { bodyLimitOf } from './part-heat.ts'
import type { HeatRun } from './result.ts'
import { profileLimits } from './standards.ts'

export interface Wanted {
  readonly alloy: JointAlloy
  readonly liquidusC: number
  readonly coldestLeastC: number
  readonly coldestAimC: number
  readonly hottestMostC: number
  readonly bodyMostC: number
  readonly boardMostC: number
  readonly rampMostCPerS: number
  readonly aboveLeastS: number
  readonly aboveMostS: number
  readonly toPeakMostS: number
  /** Nothing on the board may start to melt from preheat alone. */
  readonly preheatMostC: number
}

/** Kelvin that preheat stays below the solidus, so that no joint moves before the air comes; common practice, no source. */
const PREHEAT_MARGIN_K = 25

/**
 * The limits of one part's pass, temperatures in °C and times in s: the alloy's liquidus with its margins, the body's
 * own limit, and the rates that J-STD-020 gives for its alloy. A given alloy counts before the board file's.
 */
export function wantedFor(part: PlacedPart, jointAlloy: JointAlloy | undefined): Wanted {
  const a = heatAssumptions
  const alloy = jointAlloy ?? alloyOf(part.description)
  const { liquidusC, solidusC, hasLead } = a.alloys[alloy]
  const limits = profileLimits(hasLead)
  return {
    alloy,
    liquidusC,
    coldestLeastC: liquidusC + a.coldestJointMarginK.value,
    coldestAimC: liquidusC + a.aimJointMarginK.value,
    hottestMostC: liquidusC + a.hottestJointMarginK.value,
    bodyMostC: bodyLimitOf(part),
    boardMostC: a.boardMaxC.value,
    rampMostCPerS: limits.rampUpCPerS,
    aboveLeastS: a.moltenLeastS.value,
    aboveMostS: a.moltenMostS.value,
    toPeakMostS: limits.toPeakS,
    preheatMostC: Math.min(a.preheatSiteMostC.value, solidusC - PREHEAT_MARGIN_K),
  }
}

/** In words, what a finished run misses on its target; empty when it does what is wanted. */
export function missesOf(run: HeatRun, ref: string, wanted: Wanted): string[] {
  const heat = run.parts.find((part) => part.ref === ref)
  if (heat === undefined) return [`${ref} has no joints on the board.`]
  const boardC = run.frames.reduce((high, { boardC: frame }) => frame.reduce((a, b) => (b > a ? b : a), high), 0)
  const coldestC = heat.coldestJointPeakC ?? heat.jointPeakC
  const coldestS = heat.coldestAboveLiquidusS ?? heat.aboveLiquidusS
  const misses: string[] = []
  const say = (isMissed: boolean, sentence: string): void => {
    if (isMissed) misses.push(sentence)
  }
  const c = (value: number): string => `${value.toFixed(0)} °C`
  say(
    coldestC < wanted.coldestLeastC,
    `The coldest joint reaches ${c(coldestC)}; ${c(wanted.coldestLeastC)} is needed for ${wanted.alloy}.`,
  )
  say(
    heat.jointPeakC > wanted.hottestMostC,
    `The hottest joint reaches ${c(heat.jointPeakC)}; at most ${c(wanted.hottestMostC)} is allowed: a nozzle that heats more evenly is missing.`,
  )
  say(
    heat.bodyPeakC > wanted.bodyMostC,
    `The body reaches ${c(heat.bodyPeakC)}; its limit is ${c(wanted.bodyMostC)}: more heat from below is missing.`,
  )
  say(boardC > wanted.boardMostC, `The board reaches ${c(boardC)}; at most ${c(wanted.boardMostC)} is allowed.`)
  say(
    heat.maxRampCPerS > wanted.rampMostCPerS,
    `Joints heat at ${heat.maxRampCPerS.toFixed(1)} °C/s; ${wanted.rampMostCPerS} °C/s is allowed: hotter preheat or slower air is missing.`,
  )
  say(
    coldestS < wanted.aboveLeastS,
    `The coldest joint is molten for ${coldestS.toFixed(0)} s; at least ${wanted.aboveLeastS} s are needed to lift it and to let it wet again.`,
  )
  say(
    heat.aboveLiquidusS > wanted.aboveMostS,
    `The hottest joint is molten for ${heat.aboveLiquidusS.toFixed(0)} s; J-STD-020 has at most ${wanted.aboveMostS} s.`,
  )
  return misses
}
