/**
 * What can be wrong with a card, as the sum takes it: causes that only one memory package suffers from, and shared
 * variables, each of which is absent or in one of its states.
 */
import type { CauseAt, CauseKind } from '../result.ts'

/** Which part has to come off to put right what a touch did: the memory package, the core, or neither. */
export type End = 'memory' | 'core' | 'other'

/** What a cause does to an observation: index into the observations, and the probability that it makes it bad. */
export interface Touch {
  readonly finding: number
  readonly q: number
}

/** Which of a package's two margins a touch goes by: its own, which is also that of its first channel at the core, or that of its second channel there. */
export type MarginOf = 'first' | 'second'

/** A touch of a shared variable's state. */
export interface SharedTouch extends Touch {
  /** By margin of the memory package, thin first; in place of `q` where it depends on that. */
  readonly byMargin?: readonly number[]
  /** The first where left out. */
  readonly marginOf?: MarginOf
  readonly end: End
  /** The run from which on it is put right. */
  readonly rightFrom: number
  /** The run from which on it can be there at all; the first where left out. */
  readonly wrongFrom?: number
}

/** A cause that only one memory package suffers from: there or not. */
export interface OwnCause {
  readonly kind: CauseKind
  readonly at: CauseAt
  /** Ref of the memory package. */
  readonly part: string
  readonly prior: number
  readonly touches: readonly Touch[]
  /** Whether the package has to come off for it. */
  readonly lifts: boolean
  readonly rightFrom: number
  /** The run from which on it can be there at all. */
  readonly wrongFrom: number
}

export interface SharedState {
  /** Probability that the variable is in this state, before anything is seen. */
  readonly weight: number
  readonly at: CauseAt
  readonly touches: readonly SharedTouch[]
  /** Index of the part that has to come off, whatever fails: a stage or the core; or -1. */
  readonly lifts: number
}

/** Rails, stages, the core, its refits, slips: few states, each written out. */
export interface ListedVariable {
  readonly kind: 'power' | 'core' | 'refit' | 'slip'
  /** A rail, a branch or a slip that nobody has put right yet: no lift does. */
  readonly isOpen: boolean
  /** Probability that none of its states is the case. */
  readonly absent: number
  readonly states: readonly SharedState[]
}

/** One state of a spill: what it covers, by index into the items. */
export interface Covered {
  readonly weight: number
  readonly regions: Uint16Array
  readonly corridors: Uint16Array
  readonly areas: Uint16Array
}

/** What covering one region, corridor or area does. Harm grows with the spill's bite; being seen does not. */
export interface Item {
  readonly harm: readonly SharedTouch[]
  readonly shows: readonly SharedTouch[]
}

export interface SpillItems {
  readonly regions: readonly Item[]
  readonly corridors: readonly Item[]
  readonly areas: readonly Item[]
}

/** A spill: a place and an amount (its states), and how hard it bites. */
export interface SpillVariable {
  readonly kind: 'spill' | 'unreported-spill'
  readonly prior: number
  readonly states: readonly Covered[]
  readonly items: SpillItems
  /** Share and strength of each bite. */
  readonly bites: readonly { readonly share: number; readonly strength: number }[]
  /** Places that stories tell apart. */
  readonly labels: readonly CauseAt[]
  /** Row by state, column by label: which share of the state's weight lies there; rows sum to one. */
  readonly labelShare: Float64Array
}
