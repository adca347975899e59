/** The distribution of an amount as a few equally likely levels. */
import { good, type Result } from '../base/index.ts'
import { type Behaviour, type Load, loadOf } from './film.ts'
import type { SpillMark } from './marks.ts'
import type { Substance } from './substance.ts'

/** Standard normal quantiles at (j + ½)/7: the middles of seven equally likely slices. Tables of the normal distribution. */
const QUANTILES = [-1.465234, -0.791639, -0.366106, 0, 0.366106, 0.791639, 1.465234] as const

export interface AmountLevels {
  readonly loads: readonly Load[]
  /** Weight of each level; they sum to one. */
  readonly weights: Float64Array
}

/** Log-normal about the mark's amount (its median), one level where the amount is certain. Ascending. */
export function amountLevels(mark: SpillMark, substance: Substance, behaviour: Behaviour): Result<AmountLevels> {
  const quantiles = mark.amountSdLog === 0 ? [0] : QUANTILES
  const loads: Load[] = []
  for (const z of quantiles) {
    const load = loadOf(mark.amount, substance, behaviour, Math.exp(z * mark.amountSdLog))
    if (!load.ok) return load
    loads.push(load.value)
  }
  return good({ loads, weights: new Float64Array(loads.length).fill(1 / loads.length) })
}
