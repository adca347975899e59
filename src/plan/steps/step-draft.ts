/** A step before it has its number, its money and its cautions. */
import type { PassHeat } from '../order/build.ts'
import type { PlanStep, StepAction } from '../result.ts'

export interface Draft {
  readonly action: StepAction
  readonly refs: readonly string[]
  readonly minutes: number
  readonly hours?: number
  readonly why: string
  readonly heat?: PassHeat
  readonly exposed?: PlanStep['exposed']
}
