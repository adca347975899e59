/**
 * Lookup tables for address kernels. An address of up to 52 bits is cut into chunks of 11 bits, so that tables stay in
 * the nearest cache; what a GF(2) function makes of an address is the XOR of what it makes of the chunks, and a residue
 * is the sum of theirs.
 */
import type { LinearBit } from './plan.ts'

export const CHUNK_BITS = 11
export const CHUNK_SIZE = 1 << CHUNK_BITS
export const CHUNK_MASK = CHUNK_SIZE - 1
export const CHUNKS = 5

/** Two chunks lie below this and three above: a source is first taken apart here, so that both parts are small integers. */
export const LOW_PART = 2 ** (2 * CHUNK_BITS)

/**
 * @param bits of one source, each with its place in the word (at most 31 places)
 * @returns CHUNKS tables one after the other: word of chunk c with value v stands at c * CHUNK_SIZE + v
 */
export function linearTables(bits: readonly { readonly bit: LinearBit; readonly place: number }[]): Int32Array {
  return doublingTables(
    new Int32Array(CHUNKS * CHUNK_SIZE),
    (sourceBit) => {
      const column = 1n << BigInt(sourceBit)
      return bits.reduce((word, { bit, place }) => ((bit.mask & column) === 0n ? word : word | (1 << place)), 0)
    },
    (a, b) => a ^ b,
  )
}

/**
 * @param gathered source bits, lowest first, of the number n
 * @returns tables as in `linearTables`, of the residues of n that the chunks sum up to
 */
export function residueTables(gathered: readonly number[], modulus: number): Int32Array {
  const weights = new Int32Array(CHUNKS * CHUNK_BITS)
  let weight = 1 % modulus
  for (const sourceBit of gathered) {
    weights[sourceBit] = weight
    weight = (weight * 2) % modulus
  }
  return doublingTables(
    new Int32Array(CHUNKS * CHUNK_SIZE),
    (sourceBit) => weights[sourceBit] ?? 0,
    (a, b) => (a + b) % modulus,
  )
}

function doublingTables(
  tables: Int32Array,
  ofBit: (sourceBit: number) => number,
  join: (a: number, b: number) => number,
): Int32Array {
  for (let chunk = 0; chunk < CHUNKS; chunk++) {
    const base = chunk * CHUNK_SIZE
    for (let bit = 0; bit < CHUNK_BITS; bit++) {
      const word = ofBit(chunk * CHUNK_BITS + bit)
      const half = 1 << bit
      for (let v = 0; v < half; v++) tables[base + half + v] = join(tables[base + v] ?? 0, word)
    }
  }
  return tables
}

/** A stretch of source bits that moves to another place in a number. */
export interface BitRun {
  readonly down: number
  readonly length: number
  readonly up: number
}

/** Source bits, lowest first, as stretches that lie side by side in the number they make. */
export function bitRuns(bits: readonly number[]): BitRun[] {
  const runs: { low: number; length: number; place: number }[] = []
  for (const [place, bit] of bits.entries()) {
    const last = runs.at(-1)
    if (last !== undefined && last.low + last.length === bit) last.length++
    else runs.push({ low: bit, length: 1, place })
  }
  return runs.map(({ low, length, place }) => ({ down: 2 ** -low, length: 2 ** length, up: 2 ** place }))
}

/** The number that the runs gather from a whole number below 2^53; exact in doubles. */
export function gather(value: number, runs: readonly BitRun[]): number {
  let number = 0
  for (const { down, length, up } of runs) {
    const shifted = Math.floor(value * down)
    number += (shifted - Math.floor(shifted / length) * length) * up
  }
  return number
}
