/** Numbers of up to 52 bits as two halves of 26, so that the loops over many of them work on small integers. */

export const HALF_BITS = 26
export const HALF = 2 ** HALF_BITS
/** Bits of a number: columns of the algebra. */
export const COLUMNS = 2 * HALF_BITS

export interface Halves {
  readonly low: Int32Array
  readonly high: Int32Array
}

/** @param values whole numbers from 0 to 2^52 - 1 */
export function halvesOf(values: Float64Array): Halves {
  const low = new Int32Array(values.length)
  const high = new Int32Array(values.length)
  const base = HALF
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? 0
    const upper = Math.floor(value / base)
    high[i] = upper
    low[i] = value - upper * base
  }
  return { low, high }
}

/** Bits 26 and up of a whole number below 2^52. */
export const highOf = (value: number): number => Math.floor(value / HALF)
/** The lower 26 bits of a whole number from 0 up. */
export const lowOf = (value: number): number => value % HALF
/** The number of two halves; the inverse of `lowOf` and `highOf`. */
export const joinHalves = (low: number, high: number): number => high * HALF + low

/** XOR of two whole numbers below 2^52. */
export const xorOf = (a: number, b: number): number => joinHalves(lowOf(a) ^ lowOf(b), highOf(a) ^ highOf(b))

/** AND of two whole numbers below 2^52. */
export const andOf = (a: number, b: number): number => joinHalves(lowOf(a) & lowOf(b), highOf(a) & highOf(b))

/** Parity of the bits of a 32-bit integer. */
export function parity32(word: number): number {
  let folded = word ^ (word >>> 16)
  folded ^= folded >>> 8
  folded ^= folded >>> 4
  return (0x6996 >>> (folded & 15)) & 1
}

/** Parity of (value AND mask), both below 2^52. */
export const parityAt = (value: number, mask: number): number =>
  parity32((lowOf(value) & lowOf(mask)) ^ (highOf(value) & highOf(mask)))

/** Bit of a whole number below 2^52, 0 or 1; bit 0 is the lowest. */
export const bitAt = (value: number, bit: number): number => Math.floor(value / 2 ** bit) % 2

/** Bits that are set, ascending. */
export function bitsOf(value: number): number[] {
  const bits: number[] = []
  for (let bit = 0; bit < COLUMNS; bit++) if (bitAt(value, bit) === 1) bits.push(bit)
  return bits
}

/** Highest bit that is set in a number that is not 0. */
export const highestBit = (low: number, high: number): number =>
  high === 0 ? 31 - Math.clz32(low) : HALF_BITS + 31 - Math.clz32(high)

/** Bits of the highest of the numbers; 0 where all are 0. */
export function bitWidth(values: Float64Array): number {
  const highest = values.reduce((most, value) => Math.max(most, value), 0)
  return highest === 0 ? 0 : Math.floor(Math.log2(highest)) + 1
}

/** Bits that are set in any of the numbers, ascending. */
export const supportOf = (masks: readonly number[]): number[] =>
  [...new Set(masks.flatMap(bitsOf))].toSorted((a, b) => a - b)
