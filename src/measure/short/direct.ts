/**
 * Potentials on a sheet by Cholesky's factor within its envelope (Jennings, Comput. J. 9, 1966): row i of the factor is
 * full from the first node that it is joined to, and empty before. One factor serves every current.
 */
import { diagonalOf, takeOffMean } from './network.ts'
import type { Sheet } from './sheet.ts'
import type { Solver } from './solve.ts'

export interface Envelope {
  /** First node of each row that is not empty. */
  readonly first: Int32Array
  /** Where row i's diagonal stands among the factor's values; node j of the row stands i - j before it. */
  readonly at: Float64Array
}

/**
 * Where each row of the factor begins and ends. It rests on the numbering of the cells alone, so that the cost is
 * known before anything is factored.
 */
export function envelopeOf({ cells, west, south }: Sheet): Envelope {
  const first = new Int32Array(cells.length)
  const at = new Float64Array(cells.length)
  let end = -1
  for (let i = 0; i < cells.length; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    first[i] = Math.min(i, left < 0 ? i : left, below < 0 ? i : below)
    end += i - (first[i] ?? 0) + 1
    at[i] = end
  }
  return { first, at }
}

/** Multiplications that the factor costs, about. */
export function workOf({ first }: Envelope): number {
  let work = 0
  for (let i = 0; i < first.length; i++) work += (i - (first[i] ?? 0)) ** 2 / 2
  return work
}

/** A solver that factors the sheet once; each question then costs one forward and one back substitution. */
export function directSolver(sheet: Sheet, envelope: Envelope): Solver {
  const n = sheet.cells.length
  const factor = factorOf(sheet, envelope)
  return {
    potentials: (currents) => {
      const x = Float64Array.from(currents)
      takeOffMean(x)
      // The last node is held at 0: without a fixed potential there is no unique answer.
      x[n - 1] = 0
      substitute(factor, envelope, x, n - 1)
      takeOffMean(x)
      return x
    },
  }
}

/** All rows but the last. */
function factorOf(sheet: Sheet, { first, at }: Envelope): Float64Array {
  const { west, south, westPerMilliohm, southPerMilliohm } = sheet
  const diagonal = diagonalOf(sheet)
  const rows = first.length - 1
  const factor = new Float64Array((at[rows] ?? 0) + 1)
  for (let i = 0; i < rows; i++) {
    const begin = first[i] ?? 0
    const base = (at[i] ?? 0) - i
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    if (left >= 0) factor[base + left] = -(westPerMilliohm[i] ?? 0)
    if (below >= 0) factor[base + below] = -(southPerMilliohm[i] ?? 0)
    let pivot = diagonal[i] ?? 0
    for (let j = begin; j < i; j++) {
      const other = (at[j] ?? 0) - j
      let sum = factor[base + j] ?? 0
      // Both rows are empty before their envelopes begin: the product starts where the later one does.
      for (let k = Math.max(begin, first[j] ?? 0); k < j; k++) sum -= (factor[base + k] ?? 0) * (factor[other + k] ?? 0)
      sum /= factor[other + j] ?? 1
      factor[base + j] = sum
      pivot -= sum * sum
    }
    factor[base + i] = Math.sqrt(pivot)
  }
  return factor
}

function substitute(factor: Float64Array, { first, at }: Envelope, x: Float64Array, rows: number): void {
  for (let i = 0; i < rows; i++) {
    const base = (at[i] ?? 0) - i
    let sum = x[i] ?? 0
    for (let j = first[i] ?? 0; j < i; j++) sum -= (factor[base + j] ?? 0) * (x[j] ?? 0)
    x[i] = sum / (factor[base + i] ?? 1)
  }
  // Backwards by columns: the factor lies row by row, so each solved value is taken off all that it enters.
  for (let i = rows - 1; i >= 0; i--) {
    const base = (at[i] ?? 0) - i
    const value = (x[i] ?? 0) / (factor[base + i] ?? 1)
    x[i] = value
    for (let j = first[i] ?? 0; j < i; j++) x[j] = (x[j] ?? 0) - (factor[base + j] ?? 0) * value
  }
}
