/** Sums over one part's own causes, kept by what the shared causes do to that part: few distinct cases recur. */
import { type OwnSum, sumOver } from './part-sum.ts'

/** Distinct ways in which a list of things touches one part, and which of them each thing is. */
export interface Patterns {
  readonly distinct: readonly Float64Array[]
  readonly of: Int32Array
}

/** @param goods by thing, by bit: what it leaves good; @param bits the part's bad findings */
export function patternsOf(goods: readonly Float64Array[], bits: readonly number[]): Patterns {
  const known = new Map<string, number>()
  const distinct: Float64Array[] = []
  const of = new Int32Array(goods.length)
  for (const [thing, good] of goods.entries()) {
    const own = Float64Array.from(bits, (bit) => good[bit] ?? 1)
    const key = own.join()
    const number = known.get(key) ?? distinct.push(own) - 1
    known.set(key, number)
    of[thing] = number
  }
  return { distinct, of }
}

/** What touches the part: a set of shared points, a row, and one further place (0 is none). */
export interface PartTable {
  readonly sets: Patterns
  readonly rows: Patterns
  readonly places: Patterns
  /** Number of a case from the numbers of its patterns. */
  readonly caseOf: (set: number, row: number, place: number) => number
  /** Probability that all of the part's bad findings are bad in a case, under this sum. */
  readonly value: (sum: OwnSum, number: number) => number
}

export function createPartTable(sets: Patterns, rows: Patterns, places: Patterns): PartTable {
  const rowCount = rows.distinct.length
  const placeCount = places.distinct.length
  const values = new WeakMap<OwnSum, Map<number, number>>()
  const caseOf = (set: number, row: number, place: number): number => (set * rowCount + row) * placeCount + place
  const goodOf = (number: number): Float64Array => {
    const place = places.distinct[number % placeCount]
    const rest = Math.floor(number / placeCount)
    const row = rows.distinct[rest % rowCount]
    const set = sets.distinct[Math.floor(rest / rowCount)]
    return (set ?? new Float64Array(0)).map((good, i) => good * (row?.[i] ?? 1) * (place?.[i] ?? 1))
  }
  const value = (sum: OwnSum, number: number): number => {
    let kept = values.get(sum)
    if (kept === undefined) values.set(sum, (kept = new Map()))
    const known = kept.get(number)
    if (known !== undefined) return known
    const made = sumOver(sum, goodOf(number))
    kept.set(number, made)
    return made
  }
  return { sets, rows, places, caseOf, value }
}
