/** A step before it has its number, its money and its cautions. */
import type { Exposure } from '../../heat/index.ts'
import type { PlanStep, StepAction } from '../result.ts'

export interface Draft {
  readonly action: StepAction
  readonly refs: readonly string[]
  readonly minutes: number
  readonly hours?: number
  readonly why: string
  readonly exposure?: Exposure
  readonly exposed?: PlanStep['exposed']
}
