/**
 * The hot loops of decoding. Each takes its tables into locals once, allocates nothing, and writes -1 for an address
 * outside of the map. Addresses are whole numbers.
 */
import { type BitRun, CHUNK_BITS, CHUNK_MASK, CHUNK_SIZE, gather, LOW_PART } from './tables.ts'

// Constants of this file fold into the loops; imported ones are read anew each time.
const BITS = CHUNK_BITS
const MASK = CHUNK_MASK
const AT_1 = CHUNK_SIZE
const AT_2 = 2 * CHUNK_SIZE
const AT_3 = 3 * CHUNK_SIZE
const AT_4 = 4 * CHUNK_SIZE
const PART = LOW_PART
const UNIT = 1 / LOW_PART

/** In a table of words and residues together, the residue stands from this bit up. */
export const RESIDUE_SHIFT = 16
/** Five residues below 64 are summed. */
export const RESIDUE_SUMS = 320
const RESIDUE_AT = RESIDUE_SHIFT

export interface MappedRange {
  readonly first: number
  readonly size: number
}

export interface LinearTables extends MappedRange {
  readonly table: Int32Array
}

/** The number is the XOR of one table entry for each chunk of the address. */
export function decodeLinear(addresses: Float64Array, out: Int32Array, { first, size, table }: LinearTables): void {
  for (let i = 0; i < addresses.length; i++) {
    const offset = (addresses[i] ?? -1) - first
    if (offset >= 0 && offset < size) {
      const high = (offset * UNIT) | 0
      const low = (offset - high * PART) | 0
      out[i] =
        (table[low & MASK] ?? 0) ^
        (table[AT_1 | (low >>> BITS)] ?? 0) ^
        (table[AT_2 | (high & MASK)] ?? 0) ^
        (table[AT_3 | ((high >>> BITS) & MASK)] ?? 0) ^
        (table[AT_4 | (high >>> (2 * BITS))] ?? 0)
    } else out[i] = -1
  }
}

export interface ResidueTables extends LinearTables {
  /** What a word, and what a sum of residues, adds to the number. Words have at most 12 bits, so that five sum up
   * without a carry into the residues. */
  readonly ofWord: Int32Array
  readonly ofSum: Int32Array
}

/** The number is a word of linear bits of the address, and a residue of it. */
export function decodeByResidue(addresses: Float64Array, out: Int32Array, tables: ResidueTables): void {
  const { first, size, table, ofWord, ofSum } = tables
  const wordMask = ofWord.length - 1
  for (let i = 0; i < addresses.length; i++) {
    const offset = (addresses[i] ?? -1) - first
    if (offset >= 0 && offset < size) {
      const high = (offset * UNIT) | 0
      const low = (offset - high * PART) | 0
      const a = table[low & MASK] ?? 0
      const b = table[AT_1 | (low >>> BITS)] ?? 0
      const c = table[AT_2 | (high & MASK)] ?? 0
      const d = table[AT_3 | ((high >>> BITS) & MASK)] ?? 0
      const e = table[AT_4 | (high >>> (2 * BITS))] ?? 0
      const word = (a ^ b ^ c ^ d ^ e) & wordMask
      out[i] = (ofWord[word] ?? 0) + (ofSum[(a + b + c + d + e) >>> RESIDUE_AT] ?? 0)
    } else out[i] = -1
  }
}

export interface QuotientTables extends LinearTables {
  readonly modulus: number
  /** Of the residue in the number; 0 where the number does not take it. */
  readonly weight: number
  /** 2^-s where the gathered bits are all those from bit s up. */
  readonly down: number
}

/**
 * The number is a word of linear bits of the quotient, and the residue: n = floor(A / 2^s), and the quotient is
 * floor((A + 1/2) / (m · 2^s)), by a product with the rounded inverse. The half keeps it right: a true value stands at
 * least 1 / (m · 2^(s + 1)) off a whole number, and two roundings move it by less than that while A < 2^51. As n is
 * below 2^31 here, all the rest is done in small integers. Failing addresses come close together: where n is that of the
 * address before, so is the number.
 */
export function decodeByTopQuotient(addresses: Float64Array, out: Int32Array, tables: QuotientTables): void {
  const { first, size, table, modulus, weight, down } = tables
  const inverse = down / modulus
  let lastGathered = -1
  let number = -1
  for (let i = 0; i < addresses.length; i++) {
    const offset = (addresses[i] ?? -1) - first
    if (offset >= 0 && offset < size) {
      const gathered = (offset * down) | 0
      if (gathered !== lastGathered) {
        const quotient = ((offset + 0.5) * inverse) | 0
        const residue = (gathered - Math.imul(quotient, modulus)) | 0
        const word =
          (table[quotient & MASK] ?? 0) ^
          (table[AT_1 | ((quotient >>> BITS) & MASK)] ?? 0) ^
          (table[AT_2 | (quotient >>> (2 * BITS))] ?? 0)
        number = (word + Math.imul(residue, weight)) | 0
        lastGathered = gathered
      }
      out[i] = number
    } else out[i] = -1
  }
}

export interface MixedTables extends LinearTables {
  readonly addressTable: Int32Array
  readonly ofWord: Int32Array | undefined
  readonly modulus: number
  readonly weight: number
  readonly runs: readonly BitRun[]
}

/** The number is a word of linear bits of the quotient (`table`) and of the address, and the residue. */
export function decodeMixed(addresses: Float64Array, out: Int32Array, tables: MixedTables): void {
  const { first, size, table, addressTable, ofWord, modulus, weight, runs } = tables
  for (let i = 0; i < addresses.length; i++) {
    const offset = (addresses[i] ?? -1) - first
    if (offset >= 0 && offset < size) {
      const n = gather(offset, runs)
      const quotient = Math.floor(n / modulus)
      const high = (quotient * UNIT) | 0
      const low = (quotient - high * PART) | 0
      const addressHigh = (offset * UNIT) | 0
      const addressLow = (offset - addressHigh * PART) | 0
      const word =
        (table[low & MASK] ?? 0) ^
        (table[AT_1 | (low >>> BITS)] ?? 0) ^
        (table[AT_2 | (high & MASK)] ?? 0) ^
        (table[AT_3 | ((high >>> BITS) & MASK)] ?? 0) ^
        (table[AT_4 | (high >>> (2 * BITS))] ?? 0) ^
        (addressTable[addressLow & MASK] ?? 0) ^
        (addressTable[AT_1 | (addressLow >>> BITS)] ?? 0) ^
        (addressTable[AT_2 | (addressHigh & MASK)] ?? 0) ^
        (addressTable[AT_3 | ((addressHigh >>> BITS) & MASK)] ?? 0) ^
        (addressTable[AT_4 | (addressHigh >>> (2 * BITS))] ?? 0)
      out[i] = (ofWord === undefined ? word : (ofWord[word] ?? 0)) + (n - quotient * modulus) * weight
    } else out[i] = -1
  }
}
