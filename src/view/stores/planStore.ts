/** The plan as the cores last answered it, and the pass that is looked at with its heat. Answers and view state only. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { Exposure, HeatRun, HeatSetting } from '../../heat/index.ts'
import type { BenchTick, PassLog, PlanAnswer } from '../../plan/index.ts'
import type { Progress } from '../../workers/envelope.ts'

export type AnswerState = 'none' | 'working' | 'done' | 'failed' | 'stopped'

/** A change to a pass that was tried, and what it came to, in words. */
export interface TriedChange {
  readonly state: 'working' | 'done'
  readonly words: string
  readonly said: readonly string[]
  /** What would be kept, where it is a shield. */
  readonly shield: { readonly ref: string; readonly kind: 'tape' | 'heat-sink' } | undefined
}

export interface HeatLook {
  /** Number of the plan's step. */
  readonly n: number
  readonly refs: readonly string[]
  readonly setting: HeatSetting
  readonly state: AnswerState
  readonly progress: Progress | undefined
  readonly run: HeatRun | undefined
  readonly faults: readonly Fault[]
  readonly tried: TriedChange | undefined
}

export interface PlanState {
  readonly state: AnswerState
  /** The case has changed since the last question, and another will be asked once the hand rests. */
  readonly behind: boolean
  readonly progress: Progress | undefined
  /** The last good answer; while `working` it is that of a moment ago. */
  readonly answer: PlanAnswer | undefined
  /** What the last good answer was asked of, as far as it is told when it changes. */
  readonly askedOf:
    | { readonly lift: readonly string[]; readonly passes: PassLog; readonly ticks: readonly BenchTick[] }
    | undefined
  readonly exposures: readonly Exposure[]
  readonly faults: readonly Fault[]
  /** Parts that this equipment can't lift, and what is missing. */
  readonly cannot: readonly { readonly ref: string; readonly missing: readonly string[] }[]
  /** What has changed since the answer before, in words. */
  readonly changes: readonly string[]
  /** Number of the step that is pointed at in the list. */
  readonly litStep: number | undefined
  readonly look: HeatLook | undefined
  readonly timeS: number
  readonly playing: boolean
}

export type PlanStore = StoreApi<PlanState>

export const noPlan: PlanState = {
  state: 'none',
  behind: false,
  progress: undefined,
  answer: undefined,
  askedOf: undefined,
  exposures: [],
  faults: [],
  cannot: [],
  changes: [],
  litStep: undefined,
  look: undefined,
  timeS: 0,
  playing: false,
}

export const createPlanStore = (): PlanStore => createStore<PlanState>(() => noPlan)
