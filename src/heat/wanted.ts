/** What a pass must reach and may not pass, for one target: its window for lifting or refitting, the limits of body and board. */
import { decimals, say } from '../base/index.ts'
import type { PlacedPart } from '../board/index.ts'
import { alloyOf, heatAssumptions, type JointAlloy } from './assumptions.ts'
import { bodyLimitOf } from './part-heat.ts'
import type { HeatRun, JointWindow } from './result.ts'
import { profileLimits } from './standards.ts'

/**
 * A part comes off as soon as every joint is liquid; to go on again its joints have to form. The cooler window is for
 * bodies whose limit leaves no room for the usual one.
 */
export type HeatPurpose = 'lift' | 'refit' | 'cooler refit'

export interface Wanted {
  readonly purpose: HeatPurpose
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

const assumed = heatAssumptions

/** How far above the liquidus, and for how long. */
const windows: Readonly<
  Record<HeatPurpose, { coldestK: number; aimK: number; hottestK: number; leastS: number; mostS: number }>
> = {
  lift: {
    coldestK: assumed.coldestJointMarginK.value,
    aimK: assumed.aimJointMarginK.value,
    hottestK: assumed.hottestJointMarginK.value,
    leastS: assumed.moltenLeastS.value,
    mostS: assumed.moltenMostS.value,
  },
  refit: {
    coldestK: assumed.refitColdestMarginK.value,
    aimK: assumed.refitAimMarginK.value,
    hottestK: assumed.refitHottestMarginK.value,
    leastS: assumed.refitMoltenLeastS.value,
    mostS: assumed.refitMoltenMostS.value,
  },
  'cooler refit': {
    coldestK: assumed.refitCoolerMarginK.value,
    aimK: assumed.refitCoolerMarginK.value + 2,
    hottestK: assumed.refitHottestMarginK.value,
    leastS: assumed.refitMoltenLeastS.value,
    mostS: assumed.moltenMostS.value,
  },
}

/**
 * The limits of one part's pass, temperatures in °C and times in s: the alloy's liquidus with the margins of lifting or
 * refitting, the body's own limit, and the rates that J-STD-020 gives for its alloy. A given alloy counts before the
 * board file's.
 */
export function wantedFor(part: PlacedPart, jointAlloy: JointAlloy | undefined, purpose: HeatPurpose): Wanted {
  const alloy = jointAlloy ?? alloyOf(part.description)
  const { liquidusC, solidusC, hasLead } = assumed.alloys[alloy]
  const limits = profileLimits(hasLead)
  const { coldestK, aimK, hottestK, leastS, mostS } = windows[purpose]
  return {
    purpose,
    alloy,
    liquidusC,
    coldestLeastC: liquidusC + coldestK,
    coldestAimC: liquidusC + aimK,
    hottestMostC: liquidusC + hottestK,
    bodyMostC: bodyLimitOf(part),
    boardMostC: assumed.boardMaxC.value,
    rampMostCPerS: limits.rampUpCPerS,
    aboveLeastS: leastS,
    aboveMostS: mostS,
    toPeakMostS: limits.toPeakS,
    preheatMostC: Math.min(assumed.preheatSiteMostC.value, solidusC - PREHEAT_MARGIN_K),
  }
}

/** What the joints of all these parts together are to reach and may not pass: the strictest of their limits, the bodies' among them. */
export function jointWindow(parts: readonly PlacedPart[], purpose: HeatPurpose): JointWindow {
  const wanted = parts.map((part) => wantedFor(part, undefined, purpose))
  return {
    coldestLeastC: Math.max(...wanted.map(({ coldestLeastC }) => coldestLeastC)),
    // a joint is part of its body: what that may not pass, its joints may not either
    hottestMostC: Math.min(...wanted.map(({ hottestMostC, bodyMostC }) => Math.min(hottestMostC, bodyMostC))),
  }
}

const WHY_MOLTEN: Readonly<Record<HeatPurpose, string>> = {
  lift: say('to lift it'),
  refit: say('for its joints to form'),
  'cooler refit': say('for its joints to form'),
}

/** In words, what a finished run misses on its target; empty when it does what is wanted. */
export function missesOf(run: HeatRun, ref: string, wanted: Wanted): string[] {
  const heat = run.parts.find((part) => part.ref === ref)
  if (heat === undefined) return [say('{ref} has no joints on the board.', { ref })]
  const boardC = run.frames.reduce((high, { boardC: frame }) => frame.reduce((a, b) => (b > a ? b : a), high), 0)
  const coldestC = heat.coldestJointPeakC ?? heat.jointPeakC
  const coldestS = heat.coldestAboveLiquidusS ?? heat.aboveLiquidusS
  const misses: string[] = []
  const missedIf = (isMissed: boolean, sentence: string): void => {
    if (isMissed) misses.push(sentence)
  }
  const c = (value: number): string => `${value.toFixed(0)} °C`
  missedIf(
    coldestC < wanted.coldestLeastC,
    say('The coldest joint reaches {coldestC}; {coldestLeastC} is needed for {alloy}.', {
      coldestC: c(coldestC),
      coldestLeastC: c(wanted.coldestLeastC),
      alloy: wanted.alloy,
    }),
  )
  missedIf(
    heat.jointPeakC > wanted.hottestMostC,
    say(
      'The hottest joint reaches {jointPeakC}; at most {hottestMostC} is allowed: a nozzle that heats more evenly is missing.',
      { jointPeakC: c(heat.jointPeakC), hottestMostC: c(wanted.hottestMostC) },
    ),
  )
  missedIf(
    heat.bodyPeakC > wanted.bodyMostC,
    say('The body reaches {bodyPeakC}; its limit is {bodyMostC}: more heat from below is missing.', {
      bodyPeakC: c(heat.bodyPeakC),
      bodyMostC: c(wanted.bodyMostC),
    }),
  )
  missedIf(
    boardC > wanted.boardMostC,
    say('The board reaches {boardC}; at most {boardMostC} is allowed.', {
      boardC: c(boardC),
      boardMostC: c(wanted.boardMostC),
    }),
  )
  missedIf(
    heat.maxRampCPerS > wanted.rampMostCPerS,
    say(
      'Joints heat at {maxRampCPerS} °C/s; {rampMostCPerS} °C/s is allowed: hotter preheat or slower air is missing.',
      { maxRampCPerS: decimals(heat.maxRampCPerS, 1), rampMostCPerS: wanted.rampMostCPerS },
    ),
  )
  missedIf(
    coldestS < wanted.aboveLeastS,
    say('The coldest joint is molten for {coldestS} s; at least {aboveLeastS} s are needed {WHYMOLTEN}.', {
      coldestS: decimals(coldestS, 0),
      aboveLeastS: wanted.aboveLeastS,
      WHYMOLTEN: WHY_MOLTEN[wanted.purpose],
    }),
  )
  missedIf(
    heat.aboveLiquidusS > wanted.aboveMostS,
    say('The hottest joint is molten for {aboveLiquidusS} s; at most {aboveMostS} s are allowed.', {
      aboveLiquidusS: decimals(heat.aboveLiquidusS, 0),
      aboveMostS: wanted.aboveMostS,
    }),
  )
  return misses
}
