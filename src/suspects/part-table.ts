/** Sums over one part's own causes, kept by what the shared causes do to that part: few distinct cases recur. */
import { type OwnSum, sumOver } from './part-sum.ts'

export interface PartTable {
  /** Number of the case that these shares of good make for this part; equal cases have equal numbers. */
  readonly caseOf: (goods: readonly Float64Array[]) => number
  /** Probability that all of the part's bad findings are bad in a case, under this sum. */
  readonly value: (sum: OwnSum, number: number) => number
}

/** @param bits the part's bad findings */
export function createPartTable(bits: readonly number[]): PartTable {
  const numbers = new Map<string, number>()
  const cases: Float64Array[] = []
  const values = new WeakMap<OwnSum, Map<number, number>>()
  const caseOf = (goods: readonly Float64Array[]): number => {
    const own = Float64Array.from(bits, (bit) => goods.reduce((product, good) => product * (good[bit] ?? 1), 1))
    const key = own.join()
    const known = numbers.get(key)
    if (known !== undefined) return known
    numbers.set(key, cases.length)
    return cases.push(own) - 1
  }
  const value = (sum: OwnSum, number: number): number => {
    const kept = values.get(sum) ?? new Map<number, number>()
    values.set(sum, kept)
    const known = kept.get(number)
    if (known !== undefined) return known
    const made = sumOver(sum, cases[number] ?? new Float64Array(bits.length))
    kept.set(number, made)
    return made
  }
  return { caseOf, value }
}
