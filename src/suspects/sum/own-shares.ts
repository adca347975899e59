/** Which sets of its own causes a group may have, under a pattern: for stories, reasons, and outcomes of checks. */
import { allBad, type GroupSum } from './evaluate.ts'
import { likelihoodOfLook, sumOf } from './own-sum.ts'
import { MARGIN_COUNT } from './patterns.ts'

/** Own causes that are there, all others that touch something bad being absent; indices into `OwnSum.causes`. */
export interface OwnStory {
  readonly members: readonly number[]
  /** Probability of all that was seen at the group together with it. */
  readonly mass: number
}

const IN_FULL = 6
const MOST_SINGLES = 2

/**
 * Sets of own causes that come to at least `least` of all that was seen at the group. Of causes of one bit at most two at
 * once are told where there are many: what is left out is rarer than any of them by far.
 */
export function ownStories(sum: GroupSum, pattern: number, least: number): OwnStory[] {
  const { own } = sum
  const singles = [...own.joints.members, ...own.tracks.members]
  const odds = singles.map((index) => {
    const { probability = 0 } = own.causes[index] ?? {}
    return probability / Math.max(1e-12, 1 - probability)
  })
  const alone = own.joints.none * own.tracks.none
  const most = singles.length <= IN_FULL ? singles.length : MOST_SINGLES
  const stories: OwnStory[] = []
  for (const set of own.sets) {
    const visit = (from: number, chosen: readonly number[], weight: number): void => {
      if (weight < least) return
      const mass = massOf(sum, pattern, set, chosen)
      if (mass >= least) stories.push({ members: [...set.members, ...chosen].toSorted((a, b) => a - b), mass })
      if (chosen.length === most) return
      for (let at = from; at < singles.length; at++)
        visit(at + 1, [...chosen, singles[at] ?? -1], weight * (odds[at] ?? 0))
    }
    visit(0, [], set.weight * alone)
  }
  return stories
}

function massOf(
  sum: GroupSum,
  number: number,
  set: GroupSum['own']['sets'][number],
  singles: readonly number[],
): number {
  const { own, book, margins, sharedLooks } = sum
  const { layout } = book
  const pattern = book.pattern(number)
  const further = set.good.slice()
  let weight = set.weight
  for (const kind of [own.joints, own.tracks]) {
    for (const index of kind.members) {
      const { probability = 0, bits = [] } = own.causes[index] ?? {}
      if (!singles.includes(index)) weight *= 1 - probability
      else {
        weight *= probability
        for (const { bit, q } of bits) further[bit] = (further[bit] ?? 1) * (1 - q)
      }
    }
  }
  if (weight === 0) return 0
  const shown = [own.unknown, set.shown]
  if (sharedLooks !== undefined) {
    for (const [kind, looks] of sharedLooks.entries()) {
      const q = pattern[layout.kinds + kind] ?? 0
      shown.push({ weight: q, looks: q * looks })
    }
    for (const kind of [own.joints, own.tracks])
      if (kind.members.some((index) => singles.includes(index))) shown.push(kind.shown)
  }
  let total = 0
  const good = new Float64Array(layout.bits)
  for (let margin = 0; margin < MARGIN_COUNT; margin++) {
    for (let bit = 0; bit < layout.bits; bit++) {
      good[bit] =
        (own.leakGood[bit] ?? 1) *
        (pattern[bit] ?? 1) *
        (pattern[layout.core + bit] ?? 1) *
        (pattern[layout.other + margin * layout.bits + bit] ?? 1)
    }
    total += (margins[margin] ?? 0) * (pattern[layout.pass + margin] ?? 1) * allBad(good, further)
  }
  return weight * total * (sharedLooks === undefined ? 1 : likelihoodOfLook(sumOf(shown)))
}
