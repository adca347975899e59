/**
 * Functions that are constant in some of the groups only. Where a group holds the addresses of several channels, each
 * function of the channels has one value there or two, and other groups have other channels together: what is constant in
 * enough of them is a function, and the functions of all groups together tell the channels apart.
 */
import type { Random } from '../../../base/index.ts'
import { drawDifferences, SPARE_DIFFERENCES } from './draws.ts'
import { type Elimination, elimination, insertMask } from './elimination.ts'
import { parityBits } from './evidence.ts'
import { columnsSeen } from './functions.ts'
import { countRows, type GroupedRows, groupSizes, oddCounter, rowLists } from './groups.ts'
import { bitsOf, xorOf } from './halves.ts'
import { SURE_BITS } from './judge.ts'

const MOST_DRAWS = 3000
/** Draws without a new function, after which no other is looked for. */
const IDLE_DRAWS = 600
const MOST_MASKS = 64
/** A draw leaves few functions unless a row among it is one too few: all sums of so many are judged. */
const MOST_SUMMED = 5

/**
 * @param known masks of which nothing more is to be found: functions that part the groups already, and such as are constant
 * on all rows
 * @returns masks that are constant in enough groups, those that tell most of the rows first; sums of others among them
 */
export function partlyConstant(rows: GroupedRows, known: readonly number[], random: Random): readonly number[] {
  const columns = columnsSeen(rows)
  const width = bitsOf(columns).length
  const lists = rowLists(rows)
  const tell = toldBits(rows)
  const told = new Map<number, number>()
  const judged = new Set<number>()
  const wanted = width - known.length + SPARE_DIFFERENCES
  const system = elimination()
  const besideKnown = elimination()
  const found = elimination()
  for (const mask of known) insertMask(found, mask)
  const foundAtFirst = found.rank()
  let idle = 0
  for (let draw = 0; draw < MOST_DRAWS && idle < IDLE_DRAWS && lists.order.length > wanted; draw++) {
    if (found.rank() > foundAtFirst) idle++
    drawDifferences(system, rows.halves, lists, { wanted, columns, random })
    const left = beside(known, system.complement(columns), besideKnown)
    for (const mask of left.length > MOST_SUMMED ? left : sumsOf(left)) {
      if (judged.has(mask)) continue
      judged.add(mask)
      const bits = tell(mask)
      if (bits <= width + SURE_BITS) continue
      told.set(mask, bits)
      if (insertMask(found, mask)) idle = 0
    }
  }
  const ranked = [...told].toSorted(([, a], [, b]) => b - a)
  return ranked.map(([mask]) => mask).slice(0, MOST_MASKS)
}

/** Masks that neither those known nor those before them span; `system` is only worked in. */
function beside(known: readonly number[], masks: readonly number[], system: Elimination): readonly number[] {
  if (known.length === 0) return masks
  system.clear()
  for (const mask of known) insertMask(system, mask)
  return masks.filter((mask) => insertMask(system, mask))
}

const sumsOf = (masks: readonly number[]): number[] =>
  masks.reduce<number[]>((sums, mask) => [...sums, ...sums.map((sum) => xorOf(sum, mask))], [0]).slice(1)

/** How many bits fewer the parities of a mask take when each group that it suits has shares of its own. */
function toldBits(rows: GroupedRows): (mask: number) => number {
  const { group, groupCount } = rows
  const sizes = groupSizes(group, groupCount)
  const count = countRows(rows)
  const bitsFor = parityBits(count)
  const oddOf = oddCounter(rows)
  return (mask) => {
    const ones = oddOf(mask)
    const all = ones.reduce((sum, odd) => sum + odd, 0)
    const together = bitsFor(count, all)
    // A group without shares of its own is written with those of all rows; a bit says which.
    let apart = 0
    for (let g = 0; g < groupCount; g++) {
      const size = sizes[g] ?? 0
      if (size > 0) apart += 1 + Math.min((together / count) * size, bitsFor(size, ones[g] ?? 0))
    }
    return together - apart
  }
}
