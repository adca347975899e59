/** From the touches of a state to its patterns: a scratch that is filled touch by touch and read out once a state. */
import type { SharedTouch } from '../network/cause.ts'
import { roleOf, seenBad, seenGood } from '../network/observations.ts'
import type { CauseKind } from '../result.ts'
import type { Frame } from './frame.ts'
import { atPair, MARGIN_PAIRS } from './margins.ts'
import { createPatternBook, NEUTRAL, neutralPattern, type PatternBook, sharedKind } from './patterns.ts'

/** How well the passing lanes of packages without a failing lane bear a state, by package and pair of margins. */
export type Healthy = ReadonlyMap<number, readonly number[]>

export interface Effect {
  /** Probability of all that was seen to be good, healthy packages by their mean over margins included. */
  readonly factor: number
  /** Present where it depends on margins. */
  readonly healthy: Healthy | undefined
  /** Number of the pattern, by group. */
  readonly patterns: Int32Array
}

export interface EffectScratch {
  readonly books: readonly PatternBook[]
  readonly start: () => void
  /** @param strength share of the touch's q that counts */
  readonly touch: (touch: SharedTouch, kind: CauseKind, strength: number) => void
  readonly read: () => Effect
}

/**
 * A scratch over the groups of a frame, with one book of patterns each. Call `start`, then `touch` for each touch of
 * a state, then `read`.
 */
export function createScratch(frame: Frame): EffectScratch {
  const books = frame.groups.map(({ bits }) => createPatternBook(bits.length))
  const patterns = books.map(({ layout }) => neutralPattern(layout))
  const touched = new Set<number>()
  const passing = new Map<number, number[]>()
  let factor = 1

  const start = (): void => {
    for (const group of touched) {
      const pattern = patterns[group]
      const kinds = books[group]?.layout.kinds ?? 0
      pattern?.fill(1).fill(0, kinds)
    }
    touched.clear()
    passing.clear()
    factor = 1
  }
  const leaveGood = ({ finding, q, byMargin, marginOf = 'first' }: SharedTouch, strength: number): void => {
    const number = frame.packageOf[finding] ?? -1
    if (byMargin === undefined || number < 0) {
      factor *= 1 - q * strength
      return
    }
    const shares = passing.get(number) ?? ALL_GOOD
    passing.set(
      number,
      shares.map((share, pair) => share * (1 - (atPair(byMargin, pair, marginOf) ?? 0) * strength)),
    )
  }
  const touch: EffectScratch['touch'] = (each, kind, strength) => {
    const { finding, q, byMargin, marginOf = 'first', end, rightFrom, wrongFrom } = each
    const observation = frame.list[finding]
    if (observation === undefined || strength === 0) return
    const role = roleOf(observation, rightFrom, wrongFrom)
    if (role === 'none') return
    if (role !== 'bad') leaveGood(each, seenGood(role, strength, observation))
    if (role === 'good') return
    const group = frame.groupOf[finding] ?? -1
    const pattern = patterns[group]
    const layout = books[group]?.layout
    if (pattern === undefined || layout === undefined) return
    touched.add(group)
    const bit = frame.bitOf[finding] ?? 0
    const shows = (share: number): number => seenBad(role, share * strength, observation)
    const bad = shows(q)
    if (end === 'memory') multiply(pattern, layout.memory + bit, 1 - bad)
    else if (end === 'core') multiply(pattern, layout.core + bit, 1 - bad)
    else {
      for (let pair = 0; pair < MARGIN_PAIRS; pair++) {
        const share = byMargin === undefined ? q : (atPair(byMargin, pair, marginOf) ?? q)
        multiply(pattern, layout.other + pair * layout.bits + bit, 1 - shows(share))
      }
    }
    const at = layout.kinds + sharedKind(kind)
    if (observation.kind === 'lane') pattern[at] = Math.max(pattern[at] ?? 0, bad)
  }
  const read = (): Effect => {
    const healthy = new Map<number, readonly number[]>()
    let all = factor
    for (const [number, shares] of passing) {
      const group = frame.groupOfPackage[number] ?? -1
      const pattern = patterns[group]
      const layout = books[group]?.layout
      if (pattern === undefined || layout === undefined) {
        healthy.set(number, shares)
        all *= meanOver(frame.margins, shares)
        continue
      }
      touched.add(group)
      for (let pair = 0; pair < MARGIN_PAIRS; pair++) multiply(pattern, layout.pass + pair, shares[pair] ?? 1)
    }
    const numbers = Int32Array.from(books, (book, group) => {
      const pattern = patterns[group]
      return pattern === undefined || !touched.has(group) ? NEUTRAL : book.numberOf(pattern)
    })
    return { factor: all, healthy: healthy.size > 0 ? healthy : undefined, patterns: numbers }
  }
  return { books, start, touch, read }
}

const ALL_GOOD: readonly number[] = Array.from({ length: MARGIN_PAIRS }, () => 1)

/** The mean of values by pair of margins, with the pairs' shares; a value that is missing counts as 1. */
export const meanOver = (margins: readonly number[], shares: readonly number[]): number =>
  margins.reduce((sum, margin, at) => sum + margin * (shares[at] ?? 1), 0)

function multiply(pattern: Float64Array, at: number, by: number): void {
  pattern[at] = (pattern[at] ?? 1) * by
}
