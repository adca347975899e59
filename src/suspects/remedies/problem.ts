/** The question of a decision tree: what may be wrong, what can be done about it at which price, and what it costs to give up. */
import type { Cures } from './figures.ts'
import type { WorldFault } from './fault-book.ts'

export interface Effort {
  readonly money: number
  readonly minutes: number
}

export interface TreePart {
  readonly ref: string
  readonly lift: Effort
  /** Undefined where it always goes back as a new one. */
  readonly reball: Effort | undefined
  /** With the price of the new part. */
  readonly replace: Effort
  /** That it is lost in lifting, and what that costs; with a core it ends the repair. */
  readonly lossChance: number
  readonly lossMoney: number
  readonly lossEnds: boolean
  readonly refitDefect: number
  /** Its faults as bits of `faults`; 0 where it has none of a kind. */
  readonly die: number
  readonly joints: number
  readonly beneath: number
  /** Failing packages whose tracks end at it, as bits. */
  readonly touches: number
}

export interface TreePlace {
  readonly name: string
  /** Its fault as a bit of `faults`. */
  readonly fault: number
  /** It reads short: finding that takes more than going into it. */
  readonly hunt?: Effort | undefined
}

export interface TreeProblem {
  readonly faults: readonly WorldFault[]
  /** Worlds: faults as bits, and their weights, which sum to one. */
  readonly sets: Int32Array
  readonly weights: Float64Array
  /** Parts that may come off. */
  readonly parts: readonly TreePart[]
  /** Rails, tracks and the like that may be put right. */
  readonly places: readonly TreePlace[]
  readonly placeEffort: Effort
  /**
   * Washing and drying the whole card, or taking metal up by hand; undefined where nothing was spilled or it was done.
   */
  readonly wash: Effort | undefined
  /** Metal lies there: no wash dissolves it. */
  readonly byHand: boolean
  /** What lies in the open, as a bit of `faults`; 0 where nothing does. */
  readonly open: number
  /** A run of the memory test after work. */
  readonly run: Effort
  /** Once, before the first heat. */
  readonly prepare: Effort
  readonly cures: Cures
  /** What it costs to send it back not working, before and after any heat: what the working card is worth more. */
  readonly giveUpCold: number
  readonly giveUpHot: number
  /** One comeback of a card that passed and was not in order. */
  readonly comeback: number
  /** Parts that are off as it begins, as bits, and whether anything was heated yet. */
  readonly begun: { readonly off: number; readonly hot: boolean }
  /** So many decisions are looked ahead; beyond, what likely needs it may be lifted at once before it is given up. */
  readonly depth: number
  readonly liftsBeyond: boolean
}

export type TreeAction =
  | { readonly kind: 'wash' }
  /** Taking one part off and looking under it. */
  | { readonly kind: 'lift'; readonly part: number }
  /** Cleaning and refitting all that is off, `replaced` of them (as bits of parts) with new parts, and a run. */
  | { readonly kind: 'refit'; readonly replaced: number }
  /** Places as bits. */
  | { readonly kind: 'repair-around'; readonly places: number }
  | { readonly kind: 'return' }

export interface TreeOutcome {
  readonly seen: 'passes' | 'fails' | 'something' | 'nothing'
  /** Of a run that fails: the packages that fail still, as bits of the failing ones. */
  readonly failing?: number
  readonly probability: number
  /** The chance that the card ends up working from here on. */
  readonly works: number
  /** Undefined once the card passes. */
  readonly node: TreeNode | undefined
}

/** From here on: the expected cost, minutes, and the chance that the card ends up working. */
export interface TreeValue {
  readonly cost: number
  readonly minutes: number
  readonly works: number
}

export interface TreeNode extends TreeValue {
  readonly action: TreeAction
  readonly outcomes: readonly TreeOutcome[]
  /** Of several lifts that are told as one action: the parts in order, the chance that none of them ends the repair, what follows. */
  readonly atOnce?: { readonly parts: readonly number[]; readonly kept: number; readonly next: TreeNode }
}

export interface TreeState {
  readonly sets: Int32Array
  readonly weights: Float64Array
  /** Parts that are off, as bits. */
  readonly off: number
  /** Something was heated. */
  readonly hot: boolean
  readonly washed: boolean
  /** Places that were gone into, as bits. */
  readonly repaired: number
}

/**
 * The state in which the work begins: all worlds with their weights, parts off as they are, nothing washed or
 * repaired yet.
 */
export const startOf = ({ sets, weights, begun }: TreeProblem): TreeState => ({
  sets,
  weights,
  off: begun.off,
  hot: begun.hot,
  washed: false,
  repaired: 0,
})

/** Weight of all worlds of a state: the probability of coming there, from the start. */
export const massOf = ({ weights }: Pick<TreeState, 'weights'>): number => {
  let sum = 0
  for (let at = 0; at < weights.length; at++) sum += weights[at] ?? 0
  return sum
}

/** Weight of the worlds that have one of these faults. */
export function massWith({ sets, weights }: Pick<TreeState, 'sets' | 'weights'>, faults: number): number {
  let sum = 0
  for (let at = 0; at < weights.length; at++) if (((sets[at] ?? 0) & faults) !== 0) sum += weights[at] ?? 0
  return sum
}
