/**
 * What the groups make of patterns, kept for the card: of one pattern in all its parts, of two at once in all. While a spill
 * is dragged the same patterns come again and again.
 */
import type { Bundle } from './bundle.ts'
import { type GroupSum, type GroupValue, valueOf, valueOfBoth } from './evaluate.ts'
import { type OwnStory, ownStories } from './own-shares.ts'

export interface GroupValues {
  readonly of: (group: number, pattern: number) => GroupValue
  /** Sets of own causes that come to more than a trace of that value. */
  readonly stories: (group: number, pattern: number) => readonly OwnStory[]
}

const NOTHING: GroupValue = { all: 1, packageSound: 1, coreSound: 1, bothSound: 1 }

/** Up to so many sets are told in full, of more only what comes to this share. */
const FEW_SETS = 128
const TRACE = 1e-5
const MOST_KEPT = 20_000

/** Values of these groups, reckoned when first asked for. Of each group a bounded number is kept. */
export function createValues(groups: readonly GroupSum[]): GroupValues {
  const values = groups.map(() => new Map<number, GroupValue>())
  const told = groups.map(() => new Map<number, readonly OwnStory[]>())
  const of: GroupValues['of'] = (group, pattern) =>
    remembered(values[group], pattern, () => {
      const sum = groups[group]
      return sum === undefined ? NOTHING : valueOf(sum, pattern)
    })
  const stories: GroupValues['stories'] = (group, pattern) =>
    remembered(told[group], pattern, () => {
      const sum = groups[group]
      const whole = of(group, pattern).all
      return sum === undefined || whole <= 0 ? [] : ownStories(sum, pattern, whole * leastShare(sum))
    })
  return { of, stories }
}

function remembered<T>(kept: Map<number, T> | undefined, key: number, make: () => T): T {
  const before = kept?.get(key)
  if (before !== undefined) return before
  const made = make()
  if (kept !== undefined && kept.size >= MOST_KEPT) kept.clear()
  kept?.set(key, made)
  return made
}

function leastShare({ own }: GroupSum): number {
  const sets = own.sets.length * 2 ** (own.joints.members.length + own.tracks.members.length)
  return sets <= FEW_SETS ? 0 : TRACE
}

/** What one group makes of the rare variables' patterns (rows) together with the likely ones' (columns). */
export interface PairTable {
  /** By bundle of the rare variables: its row. */
  readonly rowOf: Int32Array
  /** @returns by bundle of the likely variables: its column; numbers given out before may be void then */
  readonly place: (likely: readonly Bundle[]) => Int32Array
  readonly value: (row: number, column: number) => number
  /** Multiplies each mass by the value at its row of a column, unless it is at most as large as its `least` already. */
  readonly timesDown: (masses: Float64Array, rows: Int32Array, column: number, least: Float64Array) => void
  /** The same along a row. */
  readonly timesAcross: (masses: Float64Array, row: number, columns: Int32Array, least: Float64Array) => void
}

/** Values of one group that are kept at once: some 10 MB. */
const MOST_VALUES = 1_200_000
const UNKNOWN = -1

/**
 * An empty table of one group: a row for each distinct pattern of the rare bundles, a column for each likely one that
 * is placed.
 */
export function pairTable(sum: GroupSum, group: number, rare: readonly Bundle[]): PairTable {
  const { patterns, at: rowOf } = distinctOf(rare, group)
  let columnOf = new Map<number, number>()
  let likely: number[] = []
  /** By column, by row: rows are what the sum goes through most often. */
  let table: Float64Array[] = []

  const place: PairTable['place'] = (bundles) => {
    if (table.length * patterns.length > MOST_VALUES) {
      columnOf = new Map()
      likely = []
      table = []
    }
    return Int32Array.from(bundles, (bundle) => {
      const pattern = bundle.patterns[group] ?? 0
      const known = columnOf.get(pattern)
      if (known !== undefined) return known
      const column = likely.push(pattern) - 1
      table.push(new Float64Array(patterns.length).fill(UNKNOWN))
      columnOf.set(pattern, column)
      return column
    })
  }
  const value = (row: number, column: number): number => {
    const values = table[column]
    const known = values?.[row] ?? UNKNOWN
    if (known >= 0 || values === undefined) return known
    const made = valueOfBoth(sum, patterns[row] ?? 0, likely[column] ?? 0)
    values[row] = made
    return made
  }
  const timesDown: PairTable['timesDown'] = (masses, rows, column, least) => {
    const values = table[column]
    if (values === undefined) return
    for (let at = 0; at < masses.length; at++) {
      const mass = masses[at] ?? 0
      if (mass <= (least[at] ?? 0)) continue
      const row = rows[at] ?? 0
      const known = values[row] ?? UNKNOWN
      masses[at] = mass * (known >= 0 ? known : value(row, column))
    }
  }
  const timesAcross: PairTable['timesAcross'] = (masses, row, columns, least) => {
    for (let at = 0; at < masses.length; at++) {
      const mass = masses[at] ?? 0
      if (mass > (least[at] ?? 0)) masses[at] = mass * value(row, columns[at] ?? 0)
    }
  }
  return { rowOf, place, value, timesDown, timesAcross }
}

/** The patterns of bundles at one group, each once, and by bundle which of them it has. */
function distinctOf(bundles: readonly Bundle[], group: number): { patterns: readonly number[]; at: Int32Array } {
  const known = new Map<number, number>()
  const patterns: number[] = []
  const at = Int32Array.from(bundles, (bundle) => {
    const pattern = bundle.patterns[group] ?? 0
    const place = known.get(pattern) ?? patterns.push(pattern) - 1
    known.set(pattern, place)
    return place
  })
  return { patterns, at }
}
