/** Rows by group: addresses of one group lie, as far as their labels are right, in one channel. */
import { type Halves, highOf, lowOf, parity32 } from './halves.ts'

export interface GroupedRows {
  readonly halves: Halves
  /** Group of each row; -1 for a row that does not count. */
  readonly group: Int32Array
  readonly groupCount: number
}

export interface RowLists {
  /** Row numbers, group by group. */
  readonly order: Int32Array
  /** Group g has `order[starts[g]]` up to `order[starts[g + 1]]`. */
  readonly starts: Int32Array
}

/** Row numbers by group, ascending within each, by a counting sort; rows of group -1 are left out. */
export function rowLists({ group, groupCount }: Omit<GroupedRows, 'halves'>): RowLists {
  const starts = new Int32Array(groupCount + 1)
  for (const g of group) if (g >= 0) starts[g + 1] = (starts[g + 1] ?? 0) + 1
  for (let g = 0; g < groupCount; g++) starts[g + 1] = (starts[g + 1] ?? 0) + (starts[g] ?? 0)
  const next = starts.slice()
  const order = new Int32Array(starts[groupCount] ?? 0)
  for (const [row, g] of group.entries()) {
    if (g < 0) continue
    const place = next[g] ?? 0
    order[place] = row
    next[g] = place + 1
  }
  return { order, starts }
}

/** Word of each row: bit i is the parity of (row AND masks[i]); at most 30 masks. */
export function wordsOf({ low, high }: Halves, masks: readonly number[]): Int32Array {
  const words = new Int32Array(low.length)
  for (const [bit, mask] of masks.entries()) {
    const maskLow = lowOf(mask)
    const maskHigh = highOf(mask)
    for (let i = 0; i < words.length; i++) {
      const odd = parity32(((low[i] ?? 0) & maskLow) ^ ((high[i] ?? 0) & maskHigh))
      words[i] = (words[i] ?? 0) | (odd << bit)
    }
  }
  return words
}

/**
 * The commonest value of each group. Of values that are equally common, the one that fewer other groups have: a wrong
 * label puts the value of another group there.
 * @param values whole numbers from 0 to 2^40
 * @returns -1 for a group without rows
 */
export function commonest(values: ArrayLike<number>, group: Int32Array, groupCount: number): Float64Array {
  const counts = new Map<number, number>()
  for (let row = 0; row < group.length; row++) {
    const g = group[row] ?? -1
    if (g < 0) continue
    const key = (values[row] ?? 0) * groupCount + g
    counts.set(key, (counts.get(key) ?? 0) + 1)
  }
  const held = new Map<number, number>()
  for (const key of counts.keys()) {
    const value = Math.floor(key / groupCount)
    held.set(value, (held.get(value) ?? 0) + 1)
  }
  const best = new Float64Array(groupCount).fill(-1)
  const bestCount = new Int32Array(groupCount)
  for (const [key, count] of counts) {
    const value = Math.floor(key / groupCount)
    const g = key - value * groupCount
    const lead = count - (bestCount[g] ?? 0)
    if (lead < 0 || (lead === 0 && (held.get(value) ?? 0) >= (held.get(best[g] ?? -1) ?? 0))) continue
    best[g] = value
    bestCount[g] = count
  }
  return best
}

/** The groups without the rows whose value is not their group's commonest. */
export function agreeing(rows: GroupedRows, values: ArrayLike<number>): GroupedRows {
  const usual = commonest(values, rows.group, rows.groupCount)
  return { ...rows, group: rows.group.map((g, row) => (g >= 0 && values[row] === usual[g] ? g : -1)) }
}

/** A group within a group must have this share of its rows, or wrong labels have made it. */
const LEAST_SHARE = 0.1

/** Groups of one group and one value; few rows of a group whose value hardly any other of it has belong to none. */
export function finerGroups(
  { group }: Omit<GroupedRows, 'halves'>,
  values: ArrayLike<number>,
): Omit<GroupedRows, 'halves'> {
  const indexes = new Map<string, number>()
  const sizes = new Map<number, number>()
  const finerSizes: number[] = []
  const finer = group.map((g, row) => {
    if (g < 0) return -1
    const key = `${g} ${values[row]}`
    const index = indexes.get(key) ?? indexes.size
    indexes.set(key, index)
    sizes.set(g, (sizes.get(g) ?? 0) + 1)
    finerSizes[index] = (finerSizes[index] ?? 0) + 1
    return index
  })
  const isLarge = (index: number, g: number): boolean => (finerSizes[index] ?? 0) > LEAST_SHARE * (sizes.get(g) ?? 0)
  return { group: finer.map((index, row) => (isLarge(index, group[row] ?? -1) ? index : -1)), groupCount: indexes.size }
}

/** How many rows each group has. */
export function groupSizes(group: Int32Array, groupCount: number): Int32Array {
  const sizes = new Int32Array(groupCount)
  for (const g of group) if (g >= 0) sizes[g] = (sizes[g] ?? 0) + 1
  return sizes
}

/** @returns for a mask, on how many rows of each group it has odd parity; the array is the same one at each call */
export function oddCounter({ halves: { low, high }, group, groupCount }: GroupedRows): (mask: number) => Int32Array {
  const ones = new Int32Array(groupCount)
  return (mask) => {
    const maskLow = lowOf(mask)
    const maskHigh = highOf(mask)
    ones.fill(0)
    for (let i = 0; i < group.length; i++) {
      const g = group[i] ?? -1
      if (g >= 0) ones[g] = (ones[g] ?? 0) + parity32(((low[i] ?? 0) & maskLow) ^ ((high[i] ?? 0) & maskHigh))
    }
    return ones
  }
}

interface AddressRows {
  readonly addresses: Float64Array
  readonly group: Int32Array
}

/** Of the rows with these numbers at most so many, evenly out of all. */
export function evenRows({ addresses, group }: AddressRows, rows: readonly number[], most: number): AddressRows {
  const step = Math.max(1, rows.length / most)
  const picked = Array.from({ length: Math.floor(rows.length / step) }, (_, i) => rows[Math.floor(i * step)] ?? 0)
  return {
    addresses: Float64Array.from(picked, (i) => addresses[i] ?? 0),
    group: Int32Array.from(picked, (i) => group[i] ?? -1),
  }
}

/** How many rows have a group; -1 marks those without. */
export function countRows({ group }: GroupedRows): number {
  let count = 0
  for (const g of group) if (g >= 0) count++
  return count
}

/** How many groups have at least one row. */
export const countGroups = ({ group }: GroupedRows): number => {
  const seen = new Set(group)
  seen.delete(-1)
  return seen.size
}
