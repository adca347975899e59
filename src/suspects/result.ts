/** What the suspects room takes and answers. */
import type { Remedy, WrongWith } from './tell/remedy.ts'
import { z } from 'zod'
import type { Grid, Point } from '../base/index.ts'
import type { Side } from '../board/index.ts'
import type { Signature } from '../report/index.ts'
import type { AreaMark, SlipMark, SpillMark } from '../spill/index.ts'

export type LaneState = 'fail' | 'pass' | 'untested'

/** All that has been observed about one card. */
export interface Findings {
  /** By lane id; a lane that is not in the map is untested. */
  readonly lanes: ReadonlyMap<string, LaneState>
  /** By part ref. */
  readonly signatures: ReadonlyMap<string, Signature>
  readonly spills: readonly SpillMark[]
  readonly areas: readonly AreaMark[]
  readonly slips: readonly SlipMark[]
  /** Rails that were measured: `low` (towards a short), `open` or `fine`. */
  readonly rails: ReadonlyMap<string, 'low' | 'open' | 'fine'>
  /** Rails of these that read at short level, against whatever range: no habit of another card explains that. */
  readonly shorted?: ReadonlySet<string> | undefined
  /** Power stages that were measured, by ref. */
  readonly stages?: ReadonlyMap<string, 'low' | 'open' | 'fine'>
  /** Checks of the catalogue that were done. */
  readonly checks?: readonly CheckAnswer[]
  /** Checks that were tried and could not be answered; they are not asked for again. */
  readonly unanswered?: readonly Pick<CheckAnswer, 'check' | 'at'>[]
  /** Work that was done since the run that `lanes` tells of, each round with the run after it. */
  readonly rounds?: readonly Round[]
  /** What the owner says: `no-accident` makes what nobody reported rarer. */
  readonly told?: 'accident' | 'no-accident' | 'unknown'
}

/** One round of work: parts that were taken off, put right and refitted, and the run after it. */
export interface Round {
  readonly lifted: readonly string[]
  /** Which of them are new parts; all that was wrong with each counts as put right where it is not said. */
  readonly replaced?: readonly string[] | undefined
  /** What else was put right before it: tracks by lane id, `rail VMEM`, `slip` and the id of its mark. */
  readonly putRight?: readonly string[] | undefined
  /** The whole board was washed before it. */
  readonly washed?: boolean | undefined
  /** By lane id; a lane that is not in the map was not tested again. */
  readonly lanes: ReadonlyMap<string, LaneState>
}

export type CauseKind =
  | 'die'
  | 'joints'
  | 'command-joints'
  | 'corridor'
  | 'rail'
  | 'rail-branch'
  | 'power-stage'
  | 'core'
  | 'core-patch'
  | 'spill'
  | 'unreported-spill'
  | 'slip'

/** A check of the catalogue that was done: where, and whether it found something. */
export const checkAnswerSchema = z.strictObject({
  check: z.string().min(1).max(80).describe('id in the catalogue of checks'),
  at: z.string().min(1).max(200).describe('what was checked: a part, a rail, a region, a lane, as the board calls it'),
  found: z.boolean(),
  run: z.number().int().min(0).max(100).optional().describe('runs of the memory test after work that came before it'),
  note: z.string().max(2000).optional(),
  on: z.iso.datetime().optional(),
})
export type CheckAnswer = z.infer<typeof checkAnswerSchema>

export interface CauseAt {
  readonly kind: CauseKind
  /** Words of the board: `U13`, `U13/A0`, `rail VPP`, `north-east of U1`. */
  readonly at: string
  /** Refs to which it points. */
  readonly refs: readonly string[]
}

export interface Story {
  readonly causes: readonly CauseAt[]
  readonly probability: number
  readonly sentence: string
}

export interface PartSuspicion {
  readonly ref: string
  /** That something is wrong with it: it failed, or its joints or what is under it did. */
  readonly probability: number
  /** That it must come off for that: all of it but for what a wash in place, where one is still due, is expected to cure. */
  readonly comesOff: number
  readonly lift: boolean
  /** Expected cost in the shop's currency of lifting it and of leaving it. */
  readonly costIfLifted: number
  readonly costIfLeft: number
  /** What is wrong with it. */
  readonly wrong: WrongWith
  /** What is done to it, by what is wrong with it. */
  readonly remedy: Remedy
  readonly why: readonly string[]
  /** Those of `why` that tell how likely a spill got to it. */
  readonly whyReached: readonly string[]
}

export interface SuspectsResult {
  readonly stories: readonly Story[]
  /** Probability of everything that the listed stories leave out. */
  readonly remainder: number
  /** Refs to lift, most probable first. */
  readonly lift: readonly string[]
  readonly expectedCost: {
    readonly ofTheList: number
    readonly ofLiftingNone: number
    readonly ofLiftingAllSuspects: number
  }
  readonly parts: readonly PartSuspicion[]
  /** That the card works once all that is on the list was done. */
  readonly works: number
  /** Something was worked on, and every lane that was tested since passes. */
  readonly proved: boolean
  /** Posterior of where the spill was; undefined without any spill hypothesis. */
  readonly spill:
    | {
        readonly at: Point
        readonly sdMm: number
        readonly side: Side
        readonly grid: Grid
        readonly density: Float32Array
        readonly probability: number
      }
    | undefined
  /** What was left out of the enumeration, in words; empty when everything was summed. */
  readonly leftOut: readonly string[]
}

/** Where nothing was judged. */
export const nothingJudged: SuspectsResult = {
  stories: [],
  remainder: 1,
  lift: [],
  expectedCost: { ofTheList: 0, ofLiftingNone: 0, ofLiftingAllSuspects: 0 },
  parts: [],
  works: 0,
  proved: false,
  spill: undefined,
  leftOut: [],
}
