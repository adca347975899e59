/**
 * The sum: every way of the rare variables with every way of the likely ones, times what each group makes of both. What is
 * too rare to matter is left out, and bounded. The probabilities that come out are checked to be one.
 */
import { type Bundle, bundled } from './bundle.ts'
import { type GroupSum, type GroupValue, valueOf, valueOfBoth } from './evaluate.ts'
import { boundOnTheRest } from './left-out.ts'
import type { Kept, Posterior } from './posterior.ts'
import type { ReducedVariable } from './states.ts'
import { allWays, likelyWays, pairWay, singleWays, type Way, type WaysInput } from './ways.ts'
import type { WeighedCause } from './own-sum.ts'

export interface TotalInput extends WaysInput {
  readonly groups: readonly GroupSum[]
  readonly idle: readonly WeighedCause[]
  readonly values: GroupValues
}

/** Values of groups by pattern, kept for the card. */
export interface GroupValues {
  readonly of: (group: number, pattern: number) => GroupValue
  /** Of two patterns at once, in all. */
  readonly ofBoth: (group: number, a: number, b: number) => number
}

export function createValues(groups: readonly GroupSum[]): GroupValues {
  const kept = groups.map(() => [] as (GroupValue | undefined)[])
  const pairs = groups.map(() => new Map<number, number>())
  const nothing: GroupValue = { all: 1, packageSound: 1, coreSound: 1, bothSound: 1 }
  return {
    of: (group, pattern) => {
      const known = kept[group]?.[pattern]
      if (known !== undefined) return known
      const sum = groups[group]
      const made = sum === undefined ? nothing : valueOf(sum, pattern)
      const list = kept[group]
      if (list !== undefined) list[pattern] = made
      return made
    },
    ofBoth: (group, a, b) => {
      const pair = a < b ? a * 2 ** 26 + b : b * 2 ** 26 + a
      const own = pairs[group]
      const known = own?.get(pair)
      if (known !== undefined) return known
      const sum = groups[group]
      const made = sum === undefined ? 1 : valueOfBoth(sum, a, b)
      if (own !== undefined && own.size > MOST_PAIRS_KEPT) own.clear()
      own?.set(pair, made)
      return made
    },
  }
}

const MOST_PAIRS = 1200
const MOST_PAIRS_KEPT = 400_000
const PAIRS_TRIED = 6000
const WORTH_KEEPING = 1e-7
const NEGLIGIBLE = 1e-8
/** Of all mass, ways that together hold less are not kept. */
const DROPPED = 1e-5
/** Up to so many cells nothing is passed over. */
const FEW_CELLS = 40_000

/** The ways of the rare variables; they stay while a spill is dragged. */
export interface RareWays {
  readonly ways: readonly Way[]
  readonly bundles: readonly Bundle[]
  /** By group: the patterns that occur in them. */
  readonly distinct: readonly Distinct[]
  readonly exact: boolean
  readonly numbers: readonly number[]
}

/** What was reported or marked is taken in all its states; of all others at most two are there at once. */
export const isLikely = ({ kind }: ReducedVariable): boolean => kind === 'spill' || kind === 'slip'

export function rareWays(input: TotalInput): RareWays {
  const numbers = [...input.variables.keys()].filter((number) => {
    const variable = input.variables[number]
    return variable !== undefined && !isLikely(variable) && variable.touching.length > 0
  })
  const all = allWays(input, numbers)
  if (all !== undefined) return madeOf(input, all, true, numbers)
  const { none, singles } = singleWays(input, numbers)
  const ways = [none, ...singles, ...likeliestPairs(input, none, singles)]
  return madeOf(input, ways, false, numbers)
}

function madeOf({ books }: TotalInput, ways: readonly Way[], exact: boolean, numbers: readonly number[]): RareWays {
  const bundles = bundled(ways)
  return { ways, bundles, distinct: books.map((_, group) => distinctOf(bundles, group)), exact, numbers }
}

/**
 * Pairs by what they come to by themselves: tried in the order of the product of both ways' promise, that is their weight
 * times how much likelier at best they make what was seen.
 */
function likeliestPairs(input: TotalInput, none: Way, singles: readonly Way[]): Way[] {
  const promise = ({ weight, patterns }: Way): number => {
    let best = weight
    for (let group = 0; group < patterns.length; group++) {
      if ((patterns[group] ?? 0) !== 0) best /= Math.max(1e-12, input.values.of(group, 0).all)
    }
    return best
  }
  const order = singles
    .map((way) => ({ way, promise: promise(way) }))
    .filter((each) => each.promise > 0)
    .toSorted((a, b) => b.promise - a.promise)
  const tried: { way: Way; mass: number }[] = []
  for (let sum = 1; tried.length < PAIRS_TRIED && sum < 2 * order.length; sum++) {
    // Along the anti-diagonals the ranks of both grow together.
    for (let i = Math.max(0, sum - order.length + 1); i * 2 < sum && tried.length < PAIRS_TRIED; i++) {
      const [a, b] = [order[i], order[sum - i]]
      if (a === undefined || b === undefined) continue
      const way = pairWay(input, a.way, b.way)
      if (way !== undefined && way.weight > 0) tried.push({ way, mass: massOf(input, way) })
    }
  }
  return tried
    .toSorted((a, b) => b.mass - a.mass)
    .slice(0, MOST_PAIRS)
    .filter(({ mass }) => mass > 0 && none.weight > 0)
    .map(({ way }) => way)
}

function massOf({ values }: TotalInput, { weight, patterns }: Way): number {
  let mass = weight
  for (let group = 0; group < patterns.length; group++) mass *= values.of(group, patterns[group] ?? 0).all
  return mass
}

/** @param mostKept up to so many ways are kept, the likeliest first */
export function total(input: TotalInput, rare: RareWays, mostKept: number): Posterior {
  const likelyNumbers = [...input.variables.keys()].filter((number) => {
    const variable = input.variables[number]
    return variable !== undefined && isLikely(variable) && variable.touching.length > 0
  })
  const likely = likelyWays(input, likelyNumbers)
  const rows = rare.bundles
  const columns = bundled(likely.ways)
  const cells = sumCells(input, rare, columns)
  const evidence = cells.total
  const kept = keep(input, rows, columns, cells, rare.exact ? Infinity : mostKept)
  const states = statePosteriors(input.variables, rows, columns, cells)
  const notSummed = likely.leftOut + (rare.exact ? 0 : boundOnTheRest(input, rare, columns))
  const leftOut = Math.min(1, notSummed / Math.max(1e-300, evidence + notSummed))
  const { variables, groups, idle } = input
  const { passedOver } = cells
  return { variables, groups, kept, states, idle, evidence, leftOut, passedOver }
}

interface Cells {
  readonly total: number
  readonly ofRow: Float64Array
  readonly ofColumn: Float64Array
  readonly heavy: readonly { readonly row: number; readonly column: number; readonly mass: number }[]
  /** Rows or columns were too many to go through: the rarest were passed over, which no bound covers. */
  readonly passedOver: boolean
}

function sumCells(input: TotalInput, { bundles: rows, distinct }: RareWays, columns: readonly Bundle[]): Cells {
  const tables = input.books.map((_, group) => tableOf(input, group, { rows, columns, ofRows: distinct[group] }))
  const few = rows.length * columns.length <= FEW_CELLS
  const beside = (row: number, column: number, least: number): number => {
    let mass = (rows[row]?.weight ?? 0) * (columns[column]?.weight ?? 0)
    for (let group = 0; group < tables.length && mass > least; group++) mass *= tables[group]?.of(row, column) ?? 1
    return mass
  }
  const chosen = few ? [...rows.keys()] : worthwhile(rows.length, heaviest(columns), MOST_ROWS, beside)
  const across = few
    ? [...columns.keys()]
    : worthwhile(columns.length, chosen.slice(0, PROBED), MOST_COLUMNS, (column, row, least) =>
        beside(row, column, least),
      )
  const ofRow = new Float64Array(rows.length)
  const ofColumn = new Float64Array(columns.length)
  const heavy: { row: number; column: number; mass: number }[] = []
  const weights = Float64Array.from(columns, ({ weight }) => weight)
  let sum = 0
  let largest = 0
  for (const row of chosen) {
    const weight = rows[row]?.weight ?? 0
    for (const column of across) {
      let mass = weight * (weights[column] ?? 0)
      for (let group = 0; group < tables.length; group++) {
        // A mass that can't come to anything any more is not worth the other groups.
        if (mass < largest * NEGLIGIBLE) break
        mass *= tables[group]?.of(row, column) ?? 1
      }
      sum += mass
      ofRow[row] = (ofRow[row] ?? 0) + mass
      ofColumn[column] = (ofColumn[column] ?? 0) + mass
      if (mass > largest) largest = mass
      if (mass > 0 && (few || mass > largest * WORTH_KEEPING)) heavy.push({ row, column, mass })
    }
  }
  const passedOver = !few && (chosen.length === MOST_ROWS || across.length === MOST_COLUMNS)
  return { total: sum, ofRow, ofColumn, heavy, passedOver }
}

const MOST_ROWS = 120
const MOST_COLUMNS = 300
const PROBED = 16

const heaviest = (bundles: readonly Bundle[]): number[] =>
  [...bundles.keys()].toSorted((a, b) => (bundles[b]?.weight ?? 0) - (bundles[a]?.weight ?? 0)).slice(0, PROBED)

/**
 * Those of one kind that come to most beside any of a few of the other kind; the rest is too rare to be gone through.
 * @param beside what one and a probe come to together; anything below `least` may stand for less
 */
function worthwhile(
  count: number,
  probes: readonly number[],
  most: number,
  beside: (one: number, probe: number, least: number) => number,
): number[] {
  const promise = new Float64Array(count)
  for (let one = 0; one < count; one++) {
    let best = 0
    for (let at = 0; at < probes.length; at++) best = Math.max(best, beside(one, probes[at] ?? 0, best))
    promise[one] = best
  }
  const order = [...promise.keys()].toSorted((a, b) => (promise[b] ?? 0) - (promise[a] ?? 0))
  const least = (promise[order[0] ?? 0] ?? 0) * NEGLIGIBLE
  return order.slice(0, most).filter((number) => (promise[number] ?? 0) > least)
}

interface Table {
  /** What a group makes of a row's and a column's pattern together; reckoned when it is first asked for. */
  readonly of: (row: number, column: number) => number
}

interface Sides {
  readonly rows: readonly Bundle[]
  readonly columns: readonly Bundle[]
  readonly ofRows: Distinct | undefined
}

function tableOf({ values }: TotalInput, group: number, { rows, columns, ofRows }: Sides): Table {
  const own = ofRows ?? distinctOf(rows, group)
  const other = distinctOf(columns, group)
  const width = other.patterns.length
  const known = new Float64Array(own.patterns.length * width).fill(-1)
  const of = (row: number, column: number): number => {
    const i = own.at[row] ?? 0
    const j = other.at[column] ?? 0
    const before = known[i * width + j] ?? -1
    if (before >= 0) return before
    const made = values.ofBoth(group, own.patterns[i] ?? 0, other.patterns[j] ?? 0)
    known[i * width + j] = made
    return made
  }
  return { of }
}

interface Distinct {
  readonly patterns: readonly number[]
  /** By bundle: index of its pattern. */
  readonly at: Int32Array
}

function distinctOf(bundles: readonly Bundle[], group: number): Distinct {
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

/** @param most without end where nothing is dropped: the board is small */
function keep(
  input: TotalInput,
  rows: readonly Bundle[],
  columns: readonly Bundle[],
  cells: Cells,
  most: number,
): Kept[] {
  const order = cells.heavy.toSorted((a, b) => b.mass - a.mass)
  const chosen: Kept[] = []
  let held = 0
  for (const { row, column, mass } of order) {
    if (most < Infinity && (chosen.length >= most || held >= cells.total * (1 - DROPPED))) break
    const [rare, likely] = [rows[row], columns[column]]
    if (rare === undefined || likely === undefined) continue
    const patterns = Int32Array.from(input.books, (book, group) =>
      book.both(rare.patterns[group] ?? 0, likely.patterns[group] ?? 0),
    )
    held += mass
    chosen.push({ probability: mass, rare, likely, patterns })
  }
  const whole = chosen.reduce((sum, { probability }) => sum + probability, 0)
  const scaled = chosen.map((each) => ({ ...each, probability: each.probability / whole }))
  return checkedToBeOne(scaled)
}

function checkedToBeOne(kept: Kept[]): Kept[] {
  const sum = kept.reduce((total_, { probability }) => total_ + probability, 0)
  if (kept.length > 0 && !(Math.abs(sum - 1) < 1e-9)) throw new Error(`probabilities sum to ${sum}, expected 1`)
  return kept
}

/** By variable, by state; what touches nothing shares what is left by weight. */
function statePosteriors(
  variables: readonly ReducedVariable[],
  rows: readonly Bundle[],
  columns: readonly Bundle[],
  { ofRow, ofColumn, total: sum }: Cells,
): Float64Array[] {
  const result = variables.map(({ states }) => new Float64Array(states.length))
  const share = (bundles: readonly Bundle[], masses: Float64Array): void => {
    for (const [index, { ways, weight }] of bundles.entries()) {
      const mass = (masses[index] ?? 0) / sum
      if (mass <= 0) continue
      for (const way of ways) {
        for (const { variable, state } of way.chosen) {
          const own = result[variable]
          if (own !== undefined) own[state] = (own[state] ?? 0) + (mass * way.weight) / weight
        }
      }
    }
  }
  share(rows, ofRow)
  share(columns, ofColumn)
  for (const [number, { quiet, idle, states }] of variables.entries()) {
    const own = result[number]
    if (own === undefined || quiet <= 0) continue
    const left = Math.max(0, 1 - own.reduce((total_, mass) => total_ + mass, 0))
    for (const state of idle) own[state] = (left * (states[state]?.weight ?? 0)) / quiet
  }
  return result
}
