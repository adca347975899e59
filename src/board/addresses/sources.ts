/** The general way to decode: every source of a plan as a number, and numbers read from all sources by tables. */
import type { AddressPlan, NumberPlan, RestSource } from './plan.ts'
import { type BitRun, bitRuns, CHUNK_BITS, CHUNK_MASK, CHUNK_SIZE, gather, LOW_PART, linearTables } from './tables.ts'

/** One address taken apart: for each source its lowest 22 bits, those above, and the residue that its mod digit took. */
export interface Spread {
  readonly lows: Int32Array
  readonly highs: Int32Array
  readonly residues: Int32Array
  /** @param offset address after `subtract`, a whole number in the map's range */
  readonly set: (offset: number) => void
}

/**
 * Buffers for all sources of one address at a time, source 0 being the address after `subtract`. Each call of `set`
 * overwrites them.
 */
export function spreadOf(plan: AddressPlan): Spread {
  const count = plan.rests.length + 1
  const values = new Float64Array(count)
  const lows = new Int32Array(count)
  const highs = new Int32Array(count)
  const residues = new Int32Array(count)
  const steps = plan.rests.map(divisionStep)
  const put = (source: number, value: number): void => {
    const high = Math.floor(value / LOW_PART)
    values[source] = value
    highs[source] = high
    lows[source] = value - high * LOW_PART
  }
  const set = (offset: number): void => {
    put(0, offset)
    for (let i = 0; i < steps.length; i++) {
      const step = steps[i]
      if (step === undefined) continue
      const parent = values[step.parent] ?? 0
      const n = gather(parent, step.gathered)
      // Exact: n < 2^52, and the double nearest to n / modulus never rounds up to the next whole number.
      const quotient = Math.floor(n / step.modulus)
      residues[i + 1] = n - quotient * step.modulus
      put(i + 1, quotient * step.above + gather(parent, step.kept))
    }
  }
  return { lows, highs, residues, set }
}

interface DivisionStep {
  readonly parent: number
  readonly gathered: readonly BitRun[]
  readonly kept: readonly BitRun[]
  readonly modulus: number
  readonly above: number
}

const divisionStep = ({ parent, gathered, kept, modulus }: RestSource): DivisionStep => ({
  parent,
  gathered: bitRuns(gathered),
  kept: bitRuns(kept),
  modulus,
  above: 2 ** kept.length,
})

/** Reads one number from a spread: tables for the sources that its linear bits use, then the sum of its terms. */
export function numberReader(plan: NumberPlan, spread: Spread): () => number {
  const { lows, highs, residues } = spread
  const tables = tablesBySource(plan)
  const terms = plan.terms.map((term) =>
    term.kind === 'residue'
      ? { residue: true, at: term.source, mask: 0, weight: term.weight }
      : { residue: false, at: term.lowest, mask: 2 ** term.width - 1, weight: term.weight },
  )
  return () => {
    let word = 0
    for (const { source, table } of tables) {
      const low = lows[source] ?? 0
      const high = highs[source] ?? 0
      word ^=
        (table[low & CHUNK_MASK] ?? 0) ^
        (table[CHUNK_SIZE + (low >>> CHUNK_BITS)] ?? 0) ^
        (table[2 * CHUNK_SIZE + (high & CHUNK_MASK)] ?? 0) ^
        (table[3 * CHUNK_SIZE + ((high >>> CHUNK_BITS) & CHUNK_MASK)] ?? 0) ^
        (table[4 * CHUNK_SIZE + (high >>> (2 * CHUNK_BITS))] ?? 0)
    }
    let number = 0
    for (const { residue, at, mask, weight } of terms)
      number += (residue ? (residues[at] ?? 0) : (word >>> at) & mask) * weight
    return number
  }
}

function tablesBySource(plan: NumberPlan): { source: number; table: Int32Array }[] {
  const places = plan.bits.map((bit, place) => ({ bit, place }))
  return [...new Set(plan.bits.map(({ source }) => source))].map((source) => ({
    source,
    table: linearTables(places.filter(({ bit }) => bit.source === source)),
  }))
}
