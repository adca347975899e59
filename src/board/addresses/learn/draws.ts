/** Draws of rows: differences within few groups, to be tried as if no label among them were wrong. */
import type { Random } from '../../../base/index.ts'
import type { Elimination } from './elimination.ts'
import type { GroupedRows, RowLists } from './groups.ts'
import { type Halves, highOf, lowOf } from './halves.ts'

/** Rows that are searched, of a larger number. */
const SEARCHED_ROWS = 3000
/** Differences drawn beyond the columns, so that a mask hardly ever fits a draw by chance: 2^-8 each. */
export const SPARE_DIFFERENCES = 8

export interface Draw {
  /** Differences, some of them sums of others. */
  readonly wanted: number
  /** Bits that count. */
  readonly columns: number
  readonly random: Random
}

/** Fills the system with differences of rows drawn from few groups. @returns how many rows were drawn */
export function drawDifferences(
  system: Elimination,
  { low, high }: Halves,
  { order, starts }: RowLists,
  draw: Draw,
): number {
  const columnsLow = lowOf(draw.columns)
  const columnsHigh = highOf(draw.columns)
  system.clear()
  let drawn = 0
  for (let differences = 0; differences < draw.wanted; ) {
    const group = groupAt(starts, draw.random.whole(order.length))
    const start = starts[group] ?? 0
    const size = (starts[group + 1] ?? 0) - start
    if (size < 2) {
      // A group of one row tells nothing, but counts as drawn, so that the loop ends where all groups are so.
      differences += 0.01
      continue
    }
    const take = Math.min(Math.max(2, Math.ceil(size * 0.6)), draw.wanted - Math.floor(differences) + 1)
    for (let i = 0; i < take; i++) swap(order, start + i, start + i + draw.random.whole(size - i))
    const first = order[start] ?? 0
    for (let i = 1; i < take; i++) {
      const row = order[start + i] ?? 0
      system.insert(
        ((low[row] ?? 0) ^ (low[first] ?? 0)) & columnsLow,
        ((high[row] ?? 0) ^ (high[first] ?? 0)) & columnsHigh,
      )
    }
    differences += take - 1
    drawn += take
  }
  return drawn
}

function swap(order: Int32Array, i: number, j: number): void {
  const kept = order[i] ?? 0
  order[i] = order[j] ?? 0
  order[j] = kept
}

/** The group that a place of the row order belongs to. */
function groupAt(starts: Int32Array, place: number): number {
  let low = 0
  let high = starts.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((starts[middle] ?? 0) <= place) low = middle
    else high = middle
  }
  return low
}

/** Rows of groups, about 3000 of a larger number. */
export function sampled(rows: GroupedRows, random: Random): GroupedRows {
  const share = SEARCHED_ROWS / rows.group.length
  if (share >= 1) return rows
  const picked: number[] = []
  for (let i = 0; i < rows.group.length; i++) if ((rows.group[i] ?? -1) >= 0 && random.next() < share) picked.push(i)
  return {
    halves: {
      low: Int32Array.from(picked, (i) => rows.halves.low[i] ?? 0),
      high: Int32Array.from(picked, (i) => rows.halves.high[i] ?? 0),
    },
    group: Int32Array.from(picked, (i) => rows.group[i] ?? -1),
    groupCount: rows.groupCount,
  }
}
