/** Which sets of its own causes a group may have, under a pattern: for stories, reasons, and outcomes of checks. */
import { allBad, type GroupSum, shownByPattern } from './evaluate.ts'
import { rowsOf } from './margins.ts'
import { likelihoodOfLook, type OwnSet, sumOf } from './own-sum.ts'

/** Own causes that are there, all others that touch something bad being absent; indices into `OwnSum.causes`. */
export interface OwnStory {
  readonly members: readonly number[]
  /** Probability of all that was seen at the group together with it. */
  readonly mass: number
}

const IN_FULL = 6
const MOST_SINGLES = 2
/** So that odds are finite. */
const LEAST_ABSENT = 1e-12

/**
 * Sets of own causes that come to at least `least` of all that was seen at the group. Of causes of one bit at most two at
 * once are told where there are many: what is left out is rarer than any of them by far.
 */
export function ownStories(sum: GroupSum, pattern: number, least: number): OwnStory[] {
  const { own } = sum
  const singles = [...own.joints.members, ...own.tracks.members]
  const probabilities = singles.map((index) => own.causes[index]?.probability ?? 0)
  const odds = probabilities.map((probability) => probability / Math.max(LEAST_ABSENT, 1 - probability))
  const alone = probabilities.reduce((product, probability) => product * Math.max(LEAST_ABSENT, 1 - probability), 1)
  const most = singles.length <= IN_FULL ? singles.length : MOST_SINGLES
  const likelihoodWith = underPattern(sum, pattern)
  const stories: OwnStory[] = []
  for (const set of own.sets) {
    const further = set.good.slice()
    const visit = (from: number, chosen: readonly number[], weight: number): void => {
      if (weight < least) return
      const mass = weight * likelihoodWith(set, further, chosen)
      if (mass >= least) stories.push({ members: [...set.members, ...chosen].toSorted((a, b) => a - b), mass })
      if (chosen.length === most) return
      for (let at = from; at < singles.length; at++) {
        const index = singles[at] ?? -1
        const { bit = -1, q = 0 } = own.causes[index]?.bits[0] ?? {}
        const before = further[bit] ?? 1
        further[bit] = before * (1 - q)
        visit(at + 1, [...chosen, index], weight * (odds[at] ?? 0))
        further[bit] = before
      }
    }
    visit(0, [], set.weight * alone)
  }
  return stories
}

type LikelihoodWith = (set: OwnSet, further: Float64Array, singles: readonly number[]) => number

/** Probability of all that was seen under a pattern, by which own causes are there and what these leave good. */
function underPattern(sum: GroupSum, number: number): LikelihoodWith {
  const { own, book, margins, sharedLooks } = sum
  const { layout } = book
  const pattern = book.pattern(number)
  const dependence = book.dependence(number)
  const shares = margins[dependence]
  const rows = rowsOf(dependence)
  const goods = rows.map((pair) =>
    Float64Array.from(
      { length: layout.bits },
      (__, bit) =>
        (own.leakGood[bit] ?? 1) *
        (pattern[layout.memory + bit] ?? 1) *
        (pattern[layout.core + bit] ?? 1) *
        (pattern[layout.other + pair * layout.bits + bit] ?? 1),
    ),
  )
  const allBadWith = (further: Float64Array): number => {
    let total = 0
    for (let row = 0; row < rows.length; row++) {
      const good = goods[row]
      if (good === undefined) continue
      total += (shares[row] ?? 0) * (pattern[layout.pass + (rows[row] ?? 0)] ?? 1) * allBad(good, further)
    }
    return total
  }
  if (sharedLooks === undefined) return (_, further) => allBadWith(further)
  const shared = shownByPattern(own, pattern, layout.kinds, sharedLooks)
  return (set, further, singles) => {
    const kinds = [own.joints, own.tracks].filter(({ members }) => singles.some((index) => members.includes(index)))
    return allBadWith(further) * likelihoodOfLook(sumOf([shared, set.shown, ...kinds.map(({ shown }) => shown)]))
  }
}
