/** Is a mask one of the functions? By how many rows contradict it, and whether chance could make so few. */
import { countGroups, countRows, type GroupedRows, groupSizes, oddCounter } from './groups.ts'
import { bitsOf, COLUMNS, HALF_BITS } from './halves.ts'

/** A function may be violated by so many rows on its rarer side, or of its bit that changes least; else it is constant. */
const MOST_VIOLATED_OF_RARE = 0.35
/** A mask is believed where fewer than 2^-7 masks would fit as well by chance. */
export const SURE_BITS = 7

/** Judges whether a mask is constant in the groups but for few rows, of which it tells the number: else undefined. */
export function judgeOf(rows: GroupedRows, width: number, mostViolated: number): (mask: number) => number | undefined {
  const { group, groupCount } = rows
  const sizes = groupSizes(group, groupCount)
  const count = countRows(rows)
  const freedom = count - countGroups(rows)
  const oddOf = oddCounter(rows)
  const changes = changesOf(rows)
  return (mask) => {
    const ones = oddOf(mask)
    let violated = 0
    let all = 0
    for (let g = 0; g < groupCount; g++) {
      const one = ones[g] ?? 0
      violated += Math.min(one, (sizes[g] ?? 0) - one)
      all += one
    }
    const rare = Math.max(Math.min(all, count - all), Math.min(...bitsOf(mask).map((bit) => changes[bit] ?? 0)))
    if (violated > mostViolated * count || violated > MOST_VIOLATED_OF_RARE * rare) return undefined
    return width + log2Ways(freedom, violated) - freedom < -SURE_BITS ? violated : undefined
  }
}

/** For each bit, how many rows have it on its rarer side. */
function changesOf(rows: GroupedRows): number[] {
  const { halves, group } = rows
  const count = countRows(rows)
  return Array.from({ length: COLUMNS }, (_, bit) => {
    const words = bit < HALF_BITS ? halves.low : halves.high
    const place = bit % HALF_BITS
    let set = 0
    for (let i = 0; i < words.length; i++) if ((group[i] ?? -1) >= 0) set += ((words[i] ?? 0) >>> place) & 1
    return Math.min(set, count - set)
  })
}

/** log2 of the ways to pick at most `picked` of `count`, by the entropy bound. */
export function log2Ways(count: number, picked: number): number {
  if (picked <= 0) return 0
  const share = Math.min(picked / count, 0.5)
  return -count * (share * Math.log2(share) + (1 - share) * Math.log2(1 - share))
}
