/**
 * The sum: every way of the rare variables with every way of the likely ones, times what each group makes of both. What is
 * too rare to matter is left out, and bounded. The probabilities that come out are checked to be one.
 */
import { type Bundle, bundled } from './bundle.ts'
import { type Cells, sumCells } from './cells.ts'
import type { GroupSum } from './evaluate.ts'
import { boundOnTheRest, type RestWeights, weightsOfTheRest } from './left-out.ts'
import { type GroupValues, type PairTable, pairTable } from './values.ts'
import type { Kept, Posterior } from './posterior.ts'
import type { ReducedVariable } from './states.ts'
import { allWays, likelyWays, pairWay, singleWays, type Way, type WaysInput } from './ways.ts'
import type { WeighedCause } from './own-sum.ts'

export interface TotalInput extends WaysInput {
  readonly groups: readonly GroupSum[]
  readonly idle: readonly WeighedCause[]
  readonly values: GroupValues
}

const MOST_PAIRS = 1200
const PAIRS_TRIED = 6000
/** Of all mass, ways that together hold less are not kept. */
const DROPPED = 1e-5

/** The ways of the rare variables; they stay while a spill is dragged. */
export interface RareWays {
  readonly bundles: readonly Bundle[]
  /** By group: what it makes of them together with the likely ones. */
  readonly tables: readonly PairTable[]
  /** What they leave out; nothing where they are all that there are. */
  readonly rest: RestWeights | undefined
}

/** What was reported, marked or worked on is taken in all its states; of all others at most two are there at once. */
export const isLikely = ({ kind }: ReducedVariable): boolean => kind === 'spill' || kind === 'slip' || kind === 'refit'

/**
 * All ways of the rare variables where they are few; else none, each state alone and the pairs that come to most,
 * with the weights of the rest for a bound.
 */
export function rareWays(input: TotalInput): RareWays {
  const numbers = [...input.variables.keys()].filter((number) => {
    const variable = input.variables[number]
    return variable !== undefined && !isLikely(variable) && variable.touching.length > 0
  })
  // Few enough: everything is summed, exactly, and there is no rest to bound.
  const all = allWays(input, numbers)
  if (all !== undefined) return madeOf(input, all, undefined)
  // Else none, each alone, and the pairs that come to most. Three rare faults at once are left to the bound.
  const { none, singles } = singleWays(input, numbers)
  const ways = [none, ...singles, ...likeliestPairs(input, none, singles)]
  return madeOf(input, ways, weightsOfTheRest(input, ways, numbers))
}

function madeOf(input: TotalInput, ways: readonly Way[], rest: RestWeights | undefined): RareWays {
  const bundles = bundled(ways)
  const tables = input.groups.map((sum, group) => pairTable(sum, group, bundles))
  return { bundles, tables, rest }
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
  // Rows stay while a spill is dragged and keep what was reckoned; only columns are made anew.
  const rows = rare.bundles
  const columns = bundled(likely.ways)
  const columnsOf = rare.tables.map((table) => table.place(columns))
  const cells = sumCells({ rows, columns, tables: rare.tables, columnsOf })
  const evidence = cells.total
  // Stories and lists ask the heaviest ways only; the states' probabilities take every cell, so that nothing is lost
  // there.
  const kept = keep(input, rows, columns, cells, rare.rest === undefined ? Infinity : mostKept)
  const states = statePosteriors(input.variables, rows, columns, cells)
  const notSummed =
    likely.leftOut +
    (rare.rest === undefined ? 0 : boundOnTheRest(rare.rest, { columns, tables: rare.tables, columnsOf }))
  // A bound on the mass that was not summed, as a share of all that there may be.
  const leftOut = Math.min(1, notSummed / Math.max(1e-300, evidence + notSummed))
  const { variables, groups, idle } = input
  const { passedOver } = cells
  return { variables, groups, kept, states, idle, evidence, leftOut, passedOver }
}

/** @param most without end where nothing is dropped: the board is small */
function keep(
  input: TotalInput,
  rows: readonly Bundle[],
  columns: readonly Bundle[],
  cells: Cells,
  most: number,
): Kept[] {
  const { heavy } = cells
  const chosen: Kept[] = []
  let held = 0
  for (const cell of heaviestCells(heavy.mass, most)) {
    if (most < Infinity && (chosen.length >= most || held >= cells.total * (1 - DROPPED))) break
    // Ways are built only for cells that are kept: the sum itself needs no pattern of both.
    const mass = heavy.mass[cell] ?? 0
    const [rare, likely] = [rows[heavy.row[cell] ?? -1], columns[heavy.column[cell] ?? -1]]
    if (rare === undefined || likely === undefined) continue
    const patterns = Int32Array.from(input.books, (book, group) =>
      book.both(rare.patterns[group] ?? 0, likely.patterns[group] ?? 0),
    )
    held += mass
    chosen.push({ probability: mass, rare, likely, patterns })
  }
  // What was dropped is spread over the rest in proportion, so that what follows sums to one.
  const whole = chosen.reduce((sum, { probability }) => sum + probability, 0)
  const scaled = chosen.map((each) => ({ ...each, probability: each.probability / whole }))
  return checkedToBeOne(scaled)
}

/** Numbers of at least so many of the largest (all, where there are not so many), the largest first. */
function heaviestCells(masses: readonly number[], most: number): number[] {
  let from = masses.reduce((largest, mass) => Math.max(largest, mass), 0)
  for (let count = 0; count < Math.min(most, masses.length) && from > 0; ) {
    from /= 4
    count = 0
    for (let cell = 0; cell < masses.length; cell++) if ((masses[cell] ?? 0) >= from) count++
  }
  const cells: number[] = []
  for (let cell = 0; cell < masses.length; cell++) if ((masses[cell] ?? 0) >= from) cells.push(cell)
  return cells.toSorted((a, b) => (masses[b] ?? 0) - (masses[a] ?? 0))
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
      // The groups can't tell the ways of a bundle apart: they share its mass by their weights.
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
    // States that touch nothing bad were summed as one quiet state: its mass goes back to them by weight, the rest to
    // absence.
    const left = Math.max(0, 1 - own.reduce((total_, mass) => total_ + mass, 0))
    for (const state of idle) own[state] = (left * (states[state]?.weight ?? 0)) / quiet
  }
  return result
}
