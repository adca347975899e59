/**
 * What a piece of evidence was worth when it came. Before it the best list of parts to lift was L; since, it is M. Its worth
 * is the expected cost of L with what is known since, less that of M: never negative, nil where the list stays. That is
 * the conditional value of sample information: Raiffa and Schlaifer, Applied Statistical Decision Theory, 1961 (from
 * memory); its mean over the outcomes that were possible is what a check is expected to save before it is made.
 */
import type { Asker, Known } from '../scorecard/ask.ts'

export interface Worth {
  /** In the shop's currency. */
  readonly worth: number
  /** Refs of the best list before and since. */
  readonly before: readonly string[]
  readonly since: readonly string[]
}

export interface Valuer {
  readonly worthOf: (before: Known, since: Known) => Worth
}

/** Remembers the best list of each state of knowledge, as the next piece of evidence starts from where the last one led. */
export function createValuer({ ask, costsOf }: Pick<Asker, 'ask' | 'costsOf'>): Valuer {
  const lists = new Map<Known, readonly string[]>()
  const bestList = (known: Known): readonly string[] => {
    const kept = lists.get(known)
    if (kept !== undefined) return kept
    const { lift } = ask(known)
    lists.set(known, lift)
    return lift
  }
  return {
    worthOf: (before, since) => {
      const old = bestList(before)
      const now = bestList(since)
      if (sameParts(old, now)) return { worth: 0, before: old, since: now }
      const [costOfOld = 0, costOfNow = 0] = costsOf(since, [old, now])
      return { worth: Math.max(0, costOfOld - costOfNow), before: old, since: now }
    },
  }
}

const sameParts = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((ref) => b.includes(ref))
