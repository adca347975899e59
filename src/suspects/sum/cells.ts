/**
 * Every bundle of the rare variables (rows) with every one of the likely ones (columns): the product of both weights and of
 * what each group makes of both. Where they are many, only those rows and columns are gone through that come to something
 * beside the heaviest of the other kind.
 */
import type { Bundle } from './bundle.ts'
import type { PairTable } from './values.ts'

export interface CellsInput {
  readonly rows: readonly Bundle[]
  readonly columns: readonly Bundle[]
  /** By group. */
  readonly tables: readonly PairTable[]
  /** By group, by column: its number in the group's table. */
  readonly columnsOf: readonly Int32Array[]
}

export interface Cells {
  readonly total: number
  readonly ofRow: Float64Array
  readonly ofColumn: Float64Array
  /** Cells that are worth keeping, in any order. */
  readonly heavy: {
    readonly row: readonly number[]
    readonly column: readonly number[]
    readonly mass: readonly number[]
  }
  /** Rows or columns were too many to go through: the rarest were passed over, which no bound covers. */
  readonly passedOver: boolean
}

/** Up to so many cells nothing is passed over. */
const FEW_CELLS = 40_000
const MOST_ROWS = 120
const MOST_COLUMNS = 300
const PROBED = 16
/** As shares of the largest cell. */
const WORTH_KEEPING = 1e-7
const NEGLIGIBLE = 1e-8

/**
 * The whole mass, its margins by row and column, and the cells that are worth keeping. Exact up to 40,000 cells;
 * beyond, rows and columns are left out that come to less than 1e-8 of the best beside the heaviest of the other
 * kind, and more only where `passedOver` says so.
 */
export function sumCells(input: CellsInput): Cells {
  const { rows, columns } = input
  const few = rows.length * columns.length <= FEW_CELLS
  // Rows are judged beside the heaviest columns, then columns beside the best of those rows: neither kind can be
  // ranked alone, since a row is worth what a column leaves unexplained.
  const chosenRows = few
    ? Int32Array.from(rows.keys())
    : worthwhile(
        rows,
        MOST_ROWS,
        heaviest(columns).map((probe) => massesOfRows(input, probe)),
      )
  const chosen = few
    ? Int32Array.from(columns.keys())
    : worthwhile(
        columns,
        MOST_COLUMNS,
        [...chosenRows.subarray(0, PROBED)].map((probe) => massesOfColumns(input, probe)),
      )
  const ofRow = new Float64Array(rows.length)
  const ofColumn = new Float64Array(columns.length)
  const heavy = { row: [] as number[], column: [] as number[], mass: [] as number[] }
  const down = downRows(input, chosenRows)
  let total = 0
  let largest = 0
  for (const column of chosen) {
    // What has become negligible beside the largest cell so far is not multiplied to its end.
    const masses = down(column, largest * NEGLIGIBLE)
    let sum = 0
    for (let at = 0; at < masses.length; at++) {
      const mass = masses[at] ?? 0
      const row = chosenRows[at] ?? 0
      sum += mass
      ofRow[row] = (ofRow[row] ?? 0) + mass
      if (mass > largest) largest = mass
      if (mass <= 0 || !(few || mass > largest * WORTH_KEEPING)) continue
      heavy.row.push(row)
      heavy.column.push(column)
      heavy.mass.push(mass)
    }
    ofColumn[column] = sum
    total += sum
  }
  const passedOver = !few && (chosenRows.length === MOST_ROWS || chosen.length === MOST_COLUMNS)
  return { total, ofRow, ofColumn, heavy, passedOver }
}

/** @returns for one column: its masses with the chosen rows; below `least` one may stand for less. Written anew each time */
function downRows({ rows, columns, tables, columnsOf }: CellsInput, chosen: Int32Array) {
  const weights = Float64Array.from(chosen, (row) => rows[row]?.weight ?? 0)
  const places = tables.map(({ rowOf }) => Int32Array.from(chosen, (row) => rowOf[row] ?? 0))
  const masses = new Float64Array(chosen.length)
  const leasts = new Float64Array(chosen.length)
  return (column: number, least: number): Float64Array => {
    const weight = columns[column]?.weight ?? 0
    leasts.fill(least)
    for (let at = 0; at < masses.length; at++) masses[at] = weight * (weights[at] ?? 0)
    for (let group = 0; group < tables.length; group++) {
      const own = places[group]
      if (own !== undefined) tables[group]?.timesDown(masses, own, columnsOf[group]?.[column] ?? 0, leasts)
    }
    return masses
  }
}

/** What all of one kind come to beside one of the other; an entry that is below its `least` may stand for less. */
type Beside = (least: Float64Array) => Float64Array

function massesOfRows({ rows, columns, tables, columnsOf }: CellsInput, column: number): Beside {
  const weight = columns[column]?.weight ?? 0
  return (least) => {
    const masses = Float64Array.from(rows, (row) => row.weight * weight)
    for (const [group, table] of tables.entries())
      table.timesDown(masses, table.rowOf, columnsOf[group]?.[column] ?? 0, least)
    return masses
  }
}

function massesOfColumns({ rows, columns, tables, columnsOf }: CellsInput, row: number): Beside {
  const weight = rows[row]?.weight ?? 0
  return (least) => {
    const masses = Float64Array.from(columns, (column) => column.weight * weight)
    for (const [group, table] of tables.entries())
      table.timesAcross(masses, table.rowOf[row] ?? 0, columnsOf[group] ?? NO_COLUMNS, least)
    return masses
  }
}

const NO_COLUMNS = new Int32Array(0)

const heaviest = (bundles: readonly Bundle[]): number[] =>
  [...bundles.keys()].toSorted((a, b) => (bundles[b]?.weight ?? 0) - (bundles[a]?.weight ?? 0)).slice(0, PROBED)

/** Numbers of those that come to most beside any of a few of the other kind, the first the best; the rest is too rare. */
function worthwhile(bundles: readonly Bundle[], most: number, probes: readonly Beside[]): Int32Array {
  const promise = new Float64Array(bundles.length)
  const least = new Float64Array(bundles.length)
  for (const [probed, beside] of probes.entries()) {
    const masses = beside(least)
    for (let one = 0; one < promise.length; one++) promise[one] = Math.max(promise[one] ?? 0, masses[one] ?? 0)
    // Whoever stays below what so many already come to is not among the best: it needs no reckoning to the end.
    if (isPowerOfTwo(probed + 1)) least.fill(largestBut(promise, most))
    for (let one = 0; one < least.length; one++) least[one] = Math.max(least[one] ?? 0, promise[one] ?? 0)
  }
  const order = Int32Array.from(promise.keys()).toSorted((a, b) => (promise[b] ?? 0) - (promise[a] ?? 0))
  const negligible = (promise[order[0] ?? 0] ?? 0) * NEGLIGIBLE
  return order.slice(0, most).filter((number) => (promise[number] ?? 0) > negligible)
}

const isPowerOfTwo = (count: number): boolean => (count & (count - 1)) === 0

/** The largest value but so many; 0 where there are not so many. */
function largestBut(values: Float64Array, count: number): number {
  return values.length > count ? (values.toSorted()[values.length - 1 - count] ?? 0) : 0
}
