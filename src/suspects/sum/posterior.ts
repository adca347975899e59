/** What the sum answers about one card. Types only. */
import type { Bundle } from './bundle.ts'
import type { GroupSum } from './evaluate.ts'
import type { ReducedVariable } from './states.ts'
import type { WeighedCause } from './own-sum.ts'

/** One way in which the shared variables act on the groups, with its probability given all that was seen. */
export interface Kept {
  readonly probability: number
  readonly rare: Bundle
  readonly likely: Bundle
  /** By group: number of the pattern of both. */
  readonly patterns: Int32Array
}

export interface Posterior {
  readonly variables: readonly ReducedVariable[]
  readonly groups: readonly GroupSum[]
  /** Likeliest first; probabilities sum to one. */
  readonly kept: readonly Kept[]
  /** By variable, by state: its probability. */
  readonly states: readonly Float64Array[]
  /** Own causes that touch nothing bad, by their probability. */
  readonly idle: readonly WeighedCause[]
  /** P(all that was seen), up to a constant of the card. */
  readonly evidence: number
  /** At most so much probability lies in what was not summed. */
  readonly leftOut: number
  /** Ways were too many to go through: the rarest were passed over, and `leftOut` does not bound them. */
  readonly passedOver: boolean
}
