/** What either engine answers about one card. Types only. */
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'

/** A card's network with the good findings summed out. */
export interface Problem {
  /** Number of bad findings that are left. */
  readonly n: number
  readonly leak: Float64Array
  readonly points: readonly ReducedPoint[]
  /** Spatial causes that stand while a mark is dragged, then the one that moves (if any). */
  readonly standing: readonly ReducedSpatial[]
  readonly moving: ReducedSpatial | undefined
  /** Part of each bad finding, by bit; findings without a part have their own one. */
  readonly partOfBit: readonly string[]
}

export interface Posterior {
  /** P(bad findings), given the good ones. */
  readonly evidence: number
  /** By index into `Problem.points`. */
  readonly points: Float64Array
  /** One array a spatial cause, standing first: probability of each of its groups. */
  readonly groups: readonly Float64Array[]
  /** Probability that none of these parts (indices) needs lifting because of a cause that touches a bad finding, or of a spatial one. */
  readonly noneLifted: (parts: readonly number[]) => number
  readonly leftOut: readonly string[]
}
