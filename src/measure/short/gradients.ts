/**
 * Potentials on a sheet: conjugate gradients with a modified incomplete Cholesky factor (Gustafsson, BIT 18, 1978;
 * relaxed, since without a fixed potential the plain factor ends in a zero pivot). For sheets of many cells.
 */
import { diagonalOf, multiply, takeOffMean } from './network.ts'
import type { Sheet } from './sheet.ts'
import type { Solver } from './solve.ts'

const RELAXATION = 0.97
const LEAST_PIVOT_SHARE = 0.25
const TOLERANCE = 1e-10
const MOST_STEPS = 5000

/**
 * A solver that iterates until the residual is 1e-10 of the currents, or 5000 steps are done. Its work arrays are
 * shared between questions.
 */
export function gradientSolver(sheet: Sheet): Solver {
  const n = sheet.cells.length
  const diagonal = diagonalOf(sheet)
  const inverse = factorOf(sheet, diagonal)
  const residual = new Float64Array(n)
  const direction = new Float64Array(n)
  const changed = new Float64Array(n)
  const image = new Float64Array(n)

  return {
    potentials: (currents) => {
      const x = new Float64Array(n)
      residual.set(currents)
      // What goes in must come out: with a mean the singular system has no answer, and the iteration would drift.
      takeOffMean(residual)
      const target = TOLERANCE * TOLERANCE * dot(residual, residual)
      precondition(sheet, inverse, residual, changed)
      direction.set(changed)
      let power = dot(residual, changed)
      for (let step = 0; step < MOST_STEPS && dot(residual, residual) > target; step++) {
        multiply(sheet, diagonal, direction, image)
        const length = power / dot(direction, image)
        for (let i = 0; i < n; i++) {
          x[i] = (x[i] ?? 0) + length * (direction[i] ?? 0)
          residual[i] = (residual[i] ?? 0) - length * (image[i] ?? 0)
        }
        precondition(sheet, inverse, residual, changed)
        const next = dot(residual, changed)
        const share = next / power
        power = next
        for (let i = 0; i < n; i++) direction[i] = (changed[i] ?? 0) + share * (direction[i] ?? 0)
      }
      takeOffMean(x)
      return x
    },
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0)
  return sum
}

/** One over the factor's diagonal. */
function factorOf(sheet: Sheet, diagonal: Float64Array): Float64Array {
  const { west, south, westPerMilliohm, southPerMilliohm } = sheet
  const n = diagonal.length
  // Conductance from each node to the one above it and to the one on its right: what elimination fills in.
  const above = new Float64Array(n)
  const right = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    if (left >= 0) right[left] = westPerMilliohm[i] ?? 0
    if (below >= 0) above[below] = southPerMilliohm[i] ?? 0
  }
  const inverse = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    // Fill-in that the factor drops is taken off the diagonal instead, so that constant fields are met nearly
    // exactly; nearly, because wholly the last pivot would be zero.
    let pivot = diagonal[i] ?? 0
    if (left >= 0) {
      const scaled = (westPerMilliohm[i] ?? 0) * (inverse[left] ?? 0) ** 2
      pivot -= scaled * ((westPerMilliohm[i] ?? 0) + RELAXATION * (above[left] ?? 0))
    }
    if (below >= 0) {
      const scaled = (southPerMilliohm[i] ?? 0) * (inverse[below] ?? 0) ** 2
      pivot -= scaled * ((southPerMilliohm[i] ?? 0) + RELAXATION * (right[below] ?? 0))
    }
    const whole = diagonal[i] ?? 0
    // A pivot that has nearly vanished makes the factor worse than none there.
    inverse[i] = whole === 0 ? 1 : 1 / Math.sqrt(pivot < LEAST_PIVOT_SHARE * whole ? whole : pivot)
  }
  return inverse
}

function precondition(sheet: Sheet, inverse: Float64Array, from: Float64Array, to: Float64Array): void {
  const { west, south, westPerMilliohm, southPerMilliohm } = sheet
  const n = from.length
  for (let i = 0; i < n; i++) {
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    let sum = from[i] ?? 0
    if (left >= 0) sum += (westPerMilliohm[i] ?? 0) * (inverse[left] ?? 0) * (to[left] ?? 0)
    if (below >= 0) sum += (southPerMilliohm[i] ?? 0) * (inverse[below] ?? 0) * (to[below] ?? 0)
    to[i] = sum * (inverse[i] ?? 0)
  }
  for (let i = n - 1; i >= 0; i--) {
    const here = (to[i] ?? 0) * (inverse[i] ?? 0)
    to[i] = here
    const left = west[i] ?? -1
    const below = south[i] ?? -1
    if (left >= 0) to[left] = (to[left] ?? 0) + (westPerMilliohm[i] ?? 0) * (inverse[left] ?? 0) * here
    if (below >= 0) to[below] = (to[below] ?? 0) + (southPerMilliohm[i] ?? 0) * (inverse[below] ?? 0) * here
  }
}
