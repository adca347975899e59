/** Potentials on a sheet for currents into it: directly where its lines are short enough, else step by step. */
import { directSolver, envelopeOf, workOf } from './direct.ts'
import { gradientSolver } from './gradients.ts'
import type { Sheet } from './sheet.ts'

export interface Solver {
  /**
   * @param currents into each node, A; their mean is taken off, since what goes in must come out
   * @returns potentials, mV (A times milliohm), their mean zero
   */
  potentials(currents: Float64Array): Float64Array
}

/** Multiplications that a factor may cost, about a second. */
const MOST_WORK = 6e8

/** The direct solver where its factor costs at most about a second, else conjugate gradients. */
export function createSolver(sheet: Sheet): Solver {
  const envelope = envelopeOf(sheet)
  return workOf(envelope) <= MOST_WORK ? directSolver(sheet, envelope) : gradientSolver(sheet)
}
