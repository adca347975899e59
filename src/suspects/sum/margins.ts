/**
 * A memory package bears a weak supply by a margin of its own, and so does what each of its channels meets at the core. Two
 * margins are gone through at once: the package's, which is also that of its first channel at the core, and that of its second
 * channel there. As one number a pair is 3 · first + second.
 */
import { MARGINS } from '../assumptions.ts'
import type { MarginOf } from '../network/cause.ts'

const COUNT = MARGINS.length
export const MARGIN_PAIRS = COUNT * COUNT

/** What depends on margins: nothing, on the first of a pair alone, or on both. */
export type Dependence = 0 | 1 | 2

/** @returns by pair, from the shares of one margin; sums to one if these do */
export const pairShares = (shares: readonly number[]): number[] =>
  shares.flatMap((first) => shares.map((second) => first * second))

/** The value at a pair of what is told by one of its margins. */
export const atPair = (byMargin: readonly number[], pair: number, of: MarginOf): number | undefined =>
  byMargin[of === 'first' ? Math.floor(pair / COUNT) : pair % COUNT]

const ROWS: Readonly<Record<Dependence, readonly number[]>> = {
  0: [0],
  1: Array.from({ length: COUNT }, (_, first) => first * COUNT),
  2: Array.from({ length: MARGIN_PAIRS }, (_, pair) => pair),
}

/** Pairs that stand for all, as far as something depends on margins. */
export const rowsOf = (dependence: Dependence): readonly number[] => ROWS[dependence]

/** @returns by dependence, by row of `rowsOf`: the share that it stands for, from the shares of pairs */
export const rowShares = (shares: readonly number[]): Readonly<Record<Dependence, readonly number[]>> => ({
  0: [1],
  1: ROWS[1].map((from) => shares.slice(from, from + COUNT).reduce((sum, share) => sum + share, 0)),
  2: shares,
})
