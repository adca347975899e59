/** What the plan room answers. Types only. Money in the shop's currency. */

import type { HeatSetting, JointWindow } from '../heat/index.ts'

export const stepActions = [
  'take-up',
  'wash',
  'dry',
  'test',
  'bake',
  'prepare',
  'unglue',
  'lift',
  'clean',
  'reball',
  'replace',
  'refit',
  'inspect',
] as const
export type StepAction = (typeof stepActions)[number]

export interface PlanStep {
  /** It stays with the step while others are done; see `standing`. */
  readonly n: number
  /** It came into the plan after the work had begun. */
  readonly isNew?: boolean
  readonly action: StepAction
  /** More than one when a group goes under one nozzle, or one clean serves several sites. */
  readonly refs: readonly string[]
  readonly minutes: number
  readonly cost: number
  /** How long the oven runs, of a bake; nobody waits beside it, so it is not in `minutes`. */
  readonly hours?: number
  /** Why here in the order; of a cleaning also how, a line each. */
  readonly why: string
  readonly setting: HeatSetting | undefined
  /** Of a heated step: what the joints are to reach and may not pass. */
  readonly joints?: JointWindow | undefined
  /** Of a lift: seconds of air after which every joint is liquid. */
  readonly liftFromS?: number | undefined
  /** Of a refit: °C below which the joints are firm. */
  readonly handsOffUntilC?: number | undefined
  /** Air at its limit; of a refit outside of the usual window or with a wider nozzle what is had instead; in sentences. */
  readonly short?: string | undefined
  readonly cautions: readonly string[]
  /** Refs of other parts whose joints melt in this step, or that come near their limit. */
  readonly exposed: readonly {
    readonly ref: string
    readonly jointPeakC: number
    readonly melts: boolean
    readonly overLimit: boolean
    /** °C from which its joints may crack, where they get so hot without melting. */
    readonly cracksFromC?: number | undefined
  }[]
}

export interface Material {
  readonly what: string
  /** Of a new part: which it stands in for. */
  readonly insteadOf?: string
  readonly amount: string
  readonly why: string
  readonly cost: number
}

export interface Plan {
  readonly steps: readonly PlanStep[]
  readonly minutes: number
  /** Money out: minutes × rate, new parts, materials. */
  readonly cost: number
  /** Expected harm to parts in passing, in money. The order is the one with the least `cost` + `exposureCost`. */
  readonly exposureCost: number
  /** Chance that no part is spoiled in passing. */
  readonly unharmed: number
  readonly materials: readonly Material[]
  /** Why nothing is baked, and when something would be; empty where something is, or nothing is asked for. */
  readonly unbaked: string
  /** Heat count of each part on the list, and of each neighbour that melts, after the plan. */
  readonly heatCounts: readonly {
    readonly ref: string
    readonly before: number
    readonly after: number
    /** Undefined for chip parts and coils: the limit is one of packages. */
    readonly limit: number | undefined
  }[]
  /** Proved optimal, or the bound that best-first search stopped at. */
  readonly optimality: {
    readonly proved: boolean
    readonly costIsAtMostPctAboveBest: number
    readonly sentence: string
  }
}

export interface PlanAnswer {
  readonly best: Plan
  /** The best order of a clearly different kind, and what it would cost more; undefined where there is none. */
  readonly alternative: { readonly plan: Plan; readonly differsIn: string; readonly costsMore: number } | undefined
  readonly worth: {
    /** That what is wrong is cured, whatever the passes spoil; and that the card works afterwards. */
    readonly curesProbability: number
    readonly successProbability: number
    readonly costOfRepair: number
    readonly valueIfRepaired: number
    /** Of repairing against leaving it. */
    readonly expectedGain: number
    /** Value of the repaired card from which on repairing pays; infinite where success is impossible. */
    readonly breakEvenValue: number
    readonly sentence: string
  }
  readonly notes: readonly string[]
}
