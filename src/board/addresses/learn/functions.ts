/**
 * XOR functions from grouped rows, some of them in a wrong group. Differences of rows of one group span a space; the
 * functions are its orthogonal complement. A few wrong rows would leave no function at all, so the complement is taken
 * of many small draws of rows, and a mask is believed where it is constant in the groups of all rows but a few: random
 * sample consensus (Fischler and Bolles 1981), which over GF(2) is information-set decoding (Prange 1962).
 */
import type { Random } from '../../../base/index.ts'
import { drawDifferences, sampled, SPARE_DIFFERENCES } from './draws.ts'
import { elimination, type Elimination, isSpanned, reducedMasks } from './elimination.ts'
import { agreeing, countGroups, countRows, type GroupedRows, rowLists, wordsOf } from './groups.ts'
import { bitAt, bitsOf, COLUMNS, highOf, lowOf, xorOf } from './halves.ts'
import { judgeOf } from './judge.ts'

export interface FunctionSpace {
  /** Masks that are constant in each group, reduced, highest pivot first. */
  readonly functions: readonly number[]
  /** Masks that are constant on all rows: whether a function holds them can not be told. Reduced. */
  readonly untold: readonly number[]
  /** The rows without those that a function contradicts. */
  readonly agreeing: GroupedRows
  /** Differences beyond those needed to span their space; a mask that fits by chance passes with 2^-surplus. */
  readonly surplus: number
}

const MOST_DRAWS = 600
/** A function may be violated by so many rows; half of the wrong labels violate it. */
const MOST_VIOLATED = 0.12
/** ... and by fewer where a residue has sorted out most of the wrong labels before. */
export const MOST_VIOLATED_AFTER_RESIDUE = 0.08
const MOST_FUNCTIONS = 30
/** Groups fill the places from this share on; the rest was not met by chance. */
const FULL = 0.75

export interface FunctionWish {
  readonly random: Random
  /** Share of the rows that may contradict a function. */
  readonly mostViolated?: number
  /** How many places the residue tells apart already; 1 without a residue. */
  readonly residues?: number
}

/**
 * Bits that no row changes are untold. A parity of several bits that is one on all rows is a function that has one value
 * for all groups seen; but where the groups fill all places of the other functions, it is a habit of the addresses.
 * @param wish its draws decide the result only where the rows hardly suffice
 */
export function learnFunctions(rows: GroupedRows, wish: FunctionWish): FunctionSpace {
  const { random, mostViolated = MOST_VIOLATED, residues = 1 } = wish
  const seen = columnsSeen(rows)
  // What is constant on all rows says nothing of groups: bits that never change and habits of the addresses are set
  // apart.
  const always = allDifferences(rows, seen).complement(seen)
  const still = always.filter((mask) => bitsOf(mask).length === 1)
  const columns = still.reduce(xorOf, seen)
  const constant = reducedMasks(always.filter((mask) => bitsOf(mask).length > 1))
  let clean = rows
  let found: readonly number[] = []
  // Rows that contradict what was found are put aside and the rest is searched again: draws out of cleaner rows meet
  // functions that wrong rows hid.
  for (let pass = 0; pass < 3; pass++) {
    const more = search({ rows: sampled(clean, random), columns, known: found, random, mostViolated })
    if (more.length === found.length) break
    found = more
    clean = agreeing(rows, wordsOf(rows.halves, found))
  }
  // Draws only found out which rows to believe. All of those at once give the whole space.
  const differences = differencesOf(clean, columns)
  const possible = differences.complement(columns)
  const groups = countGroups(rows)
  const isFull = groups > 1 && groups >= FULL * residues * 2 ** (possible.length - constant.length)
  return {
    functions: isFull ? without(possible, constant) : reducedMasks(possible),
    untold: isFull ? reducedMasks([...still, ...constant]) : still,
    agreeing: clean,
    surplus: countRows(clean) - countGroups(clean) - differences.rank(),
  }
}

/** A basis of what the masks span beside the constant ones: none of it has a highest bit of theirs. */
function without(masks: readonly number[], constant: readonly number[]): number[] {
  const tops = constant.map(topBit)
  const cleared = masks.map((mask) =>
    constant.reduce((rest, row, i) => (bitAt(rest, tops[i] ?? 0) === 1 ? xorOf(rest, row) : rest), mask),
  )
  return reducedMasks(cleared)
}

interface Search {
  readonly rows: GroupedRows
  readonly columns: number
  readonly known: readonly number[]
  readonly random: Random
  readonly mostViolated: number
}

/** Functions found by draws, those known included. */
function search({ rows, columns, known, random, mostViolated }: Search): readonly number[] {
  const lists = rowLists(rows)
  const width = bitsOf(columns).length
  const wanted = width + SPARE_DIFFERENCES
  if (countRows(rows) - countGroups(rows) < wanted) return known
  const violatedBy = judgeOf(rows, width, mostViolated)
  const system = elimination()
  let found = known
  let draws = MOST_DRAWS
  for (let draw = 0; draw < draws && found.length < MOST_FUNCTIONS; draw++) {
    // A draw without a wrong row leaves the true functions, and few others, as its complement; one with a wrong row
    // leaves chance.
    const drawn = drawDifferences(system, rows.halves, lists, { wanted, columns, random })
    const fresh = system.complement(columns).filter((mask) => !isSpanned(mask, found) && violatedBy(mask) !== undefined)
    if (fresh.length > 0) found = believed([...found, ...fresh], violatedBy)
    // Each find tells how many rows are wrong, and with that how many draws are enough.
    if (fresh.length > 0 || draw === 0) draws = drawsNeeded(rows, found, drawn)
  }
  return found
}

/**
 * Those with the fewest violations first, each with all its sums with those before it: a function and its sum with a bit
 * that is hardly ever set are both violated by few rows, but not that bit by few of the rows that have it set.
 */
function believed(masks: readonly number[], violatedBy: (mask: number) => number | undefined): number[] {
  const ranked = masks.toSorted((a, b) => (violatedBy(a) ?? 0) - (violatedBy(b) ?? 0))
  const chosen: number[] = []
  let sums: readonly number[] = [0]
  for (const mask of ranked) {
    if (isSpanned(mask, chosen)) continue
    // All sums of the first few, then sums with single ones: there are too many of many.
    const others = chosen.length <= 6 ? sums : [0, ...chosen]
    if (!others.every((other) => violatedBy(xorOf(mask, other)) !== undefined)) continue
    chosen.push(mask)
    if (chosen.length <= 6) sums = [...sums, ...sums.map((sum) => xorOf(sum, mask))]
  }
  return chosen
}

/** Draws after which one without any wrong row has come up, but for one chance in 10,000. */
function drawsNeeded(rows: GroupedRows, found: readonly number[], drawn: number): number {
  if (found.length === 0) return MOST_DRAWS
  const wrong = 1 - countRows(agreeing(rows, wordsOf(rows.halves, found))) / countRows(rows)
  const clean = (1 - wrong) ** drawn
  return Math.min(MOST_DRAWS, Math.ceil(Math.log(1e-4) / Math.log1p(-Math.min(clean, 1 - 1e-4))) + 1)
}

/** Spanned by the differences of all rows, whatever their group. */
const allDifferences = (rows: GroupedRows, columns: number): Elimination =>
  differencesOf({ ...rows, group: rows.group.map((g) => (g < 0 ? -1 : 0)), groupCount: 1 }, columns)

/** Differences of each row from the first of its group. */
function differencesOf({ halves, group, groupCount }: GroupedRows, columns: number): Elimination {
  const { low, high } = halves
  const columnsLow = lowOf(columns)
  const columnsHigh = highOf(columns)
  const system = elimination()
  const first = new Int32Array(groupCount).fill(-1)
  for (let i = 0; i < group.length; i++) {
    const g = group[i] ?? -1
    if (g < 0) continue
    const other = first[g] ?? -1
    if (other < 0) first[g] = i
    else
      system.insert(
        ((low[i] ?? 0) ^ (low[other] ?? 0)) & columnsLow,
        ((high[i] ?? 0) ^ (high[other] ?? 0)) & columnsHigh,
      )
  }
  return system
}

/** Masks that are constant on all rows, reduced: whether a function holds them can not be told. */
export function unchanging(rows: GroupedRows): readonly number[] {
  const seen = columnsSeen(rows)
  return reducedMasks(allDifferences(rows, seen).complement(seen))
}

/** All bits up to the highest that is set in any row. */
export function columnsSeen({ halves }: GroupedRows): number {
  let low = 0
  let high = 0
  for (const word of halves.low) low |= word
  for (const word of halves.high) high |= word
  const width = high === 0 ? 32 - Math.clz32(low) : COLUMNS / 2 + 32 - Math.clz32(high)
  return 2 ** width - 1
}

const topBit = (mask: number): number => bitsOf(mask).at(-1) ?? 0
