/**
 * The sum: every way of the rare variables with every way of the likely ones, times what each group makes of both. What is
 * too rare to matter is left out, and bounded. The probabilities that come out are checked to be one.
 */
import { type Bundle, bundled } from './bundle.ts'
import { type Cells, sumCells } from './cells.ts'
import { boundOnTheRest } from './left-out.ts'
import type { Kept, Posterior } from './posterior.ts'
import { isLikely, type RareInput, type RareWays } from './rare-ways.ts'
import type { ReducedVariable } from './states.ts'
import { likelyWays } from './ways.ts'
import type { WeighedCause } from './own-sum.ts'

export interface TotalInput extends RareInput {
  readonly idle: readonly WeighedCause[]
}

/** Of all mass, ways that together hold less are not kept. */
const DROPPED = 1e-5

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
