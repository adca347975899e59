/** Address maps of the invented cards: invented as well, but of the forms that published controllers use. */
import type { AddressMapFile } from './plan.ts'

const GRAIN_BIT = 8

/** A mask from bit numbers. */
const mask = (...bits: readonly number[]): string => `0x${bits.reduce((sum, bit) => sum + 2 ** bit, 0).toString(16)}`

interface Split {
  readonly addressBits: number
  readonly limit?: string
  /** Odd factor of the channel count; 1 for none. */
  readonly modulus: number
  /** Lowest bit of each XOR digit, most significant digit first; each is folded with bits above. */
  readonly xorBits: readonly number[]
  /** Bits of what is left after the modulus. */
  readonly restBits: number
}

/**
 * Digits: (address >> 8) mod the odd factor, then parities of the rest. Row, bank and column take the other bits of the
 * rest, so that channel, row, bank and column together are the address again.
 */
export function mapOf(split: Split, channelIds: readonly string[]): AddressMapFile {
  const { modulus, xorBits, restBits } = split
  const source = modulus === 1 ? 'address' : 'rest'
  const digits: AddressMapFile['channel']['digits'] = xorBits.map((bit, i) => ({
    kind: 'xor',
    mask: mask(...foldedBits(bit, i, restBits)),
    from: source,
  }))
  if (modulus > 1) digits.unshift({ kind: 'mod', modulus, bits: [{ low: GRAIN_BIT }], from: 'address' })
  const columnLow = Math.max(...xorBits) + 1
  const bankLow = columnLow + 3
  const rowLow = bankLow + 4
  return {
    addressBits: split.addressBits,
    ...(split.limit === undefined ? {} : { limit: split.limit }),
    channel: { digits, order: spread(channelIds) },
    row: [{ kind: 'field', low: rowLow, high: restBits - 1, from: 'rest' }],
    bank: [3, 2, 1, 0].map((i) => ({ kind: 'xor', mask: mask(bankLow + i, rowLow + i, rowLow + i + 5), from: 'rest' })),
    column: [
      { kind: 'field', low: columnLow, high: columnLow + 2, from: 'rest' },
      { kind: 'field', low: 0, high: Math.min(...xorBits) - 1, from: 'rest' },
    ],
  }
}

/** The digit's own bit and some above all the digits' own, so that the digits stay independent. */
function foldedBits(bit: number, digit: number, restBits: number): number[] {
  const above = [13, 17, 20, 23, 27].map((step) => step + digit).filter((candidate) => candidate < restBits)
  return [bit, ...above]
}

/** Neighbouring numbers on packages that lie far apart: every fifth or seventh channel, whichever visits them all. */
function spread(ids: readonly string[]): string[] {
  const step = [7, 5, 11, 13].find((candidate) => greatestCommon(candidate, ids.length) === 1) ?? 1
  return ids.map((_, i) => ids[(i * step) % ids.length] ?? '')
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b))
