/**
 * Address maps that were published by others, as descriptions. The ids are those of the project's fact sheet: A4 from
 * the tool of Pessl et al. (DRAMA, USENIX Security 2016); A6, A7 from DRAMA table 2 and TRRespass (Frigo et al., S&P
 * 2020); A9, A10 from Blacksmith (Jattke et al., S&P 2022) and ZenHammer (Jattke et al., USENIX Security 2024), A14 and
 * A15 from ZenHammer; the stacked-memory hash and the mod maps from Linux, drivers/ras, atl/{dehash,denormalize}.c.
 */
import type { AddressMapDescription, Digit } from '../../src/board/index.ts'

/** The parity of some address bits. */
export const xorOf = (...bits: number[]): Digit => ({ kind: 'xor', mask: maskOf(bits), from: 'address' })

export const fieldOf = (low: number, high: number, from: 'address' | 'rest' = 'address'): Digit => ({
  kind: 'field',
  low,
  high,
  from,
})

export const maskOf = (bits: readonly number[]): string =>
  `0x${bits.reduce((mask, bit) => mask | (1n << BigInt(bit)), 0n).toString(16)}`

export const numbered = (count: number): string[] => Array.from({ length: count }, (_, i) => `channel ${i}`)

/** The functions as channel digits, first most significant. */
export function linearMap(addressBits: number, functions: readonly (readonly number[])[]): AddressMapDescription {
  return {
    addressBits,
    channel: { digits: functions.map((bits) => xorOf(...bits)), order: numbered(2 ** functions.length) },
  }
}

export const A4 = linearMap(34, [
  [7, 8, 9, 12, 13, 18, 19],
  [17, 21],
  [16, 20],
  [15, 19],
  [14, 18],
])

export const A6_FUNCTIONS = [
  [7, 14],
  [15, 19],
  [17, 21],
  [18, 22],
  [16, 20],
  [8, 9, 12, 13, 18, 19],
]
export const A7_FUNCTIONS = [
  [7, 14],
  [15, 19],
  [16, 20],
  [17, 21],
  [18, 22],
  [8, 9, 12, 13, 15, 18],
]

/** Column bits 0 to 5 and 7 to 13, as A9 and A10 have them. */
const splitColumn = [fieldOf(7, 13), fieldOf(0, 5)]

/** Channel {6,13}, bank the three others, so that all four numbers are there. */
export const A9: AddressMapDescription = {
  addressBits: 30,
  channel: { digits: [xorOf(6, 13)], order: numbered(2) },
  bank: [xorOf(14, 17), xorOf(15, 18), xorOf(16, 19)],
  row: [fieldOf(17, 29)],
  column: splitColumn,
}

export const A10: AddressMapDescription = {
  addressBits: 30,
  channel: { digits: [xorOf(6, 13)], order: numbered(2) },
  bank: [xorOf(14, 18), xorOf(15, 19), xorOf(16, 20), xorOf(17, 21)],
  row: [fieldOf(18, 29)],
  column: splitColumn,
}

const bitsFrom = (low: number, high: number): number[] => Array.from({ length: high - low + 1 }, (_, i) => low + i)

/** Channel is the rank; bank is bg1, bg0, ba1, ba0. */
export const A14: AddressMapDescription = {
  addressBits: 30,
  subtract: '0x20000000',
  channel: { digits: [xorOf(...bitsFrom(17, 28))], order: numbered(2) },
  bank: [xorOf(15, 18, 22, 26), xorOf(14, 21, 25), xorOf(...bitsFrom(6, 13), 20, 24, 28), xorOf(16, 19, 23, 27)],
  row: [fieldOf(18, 28)],
  column: [fieldOf(0, 12)],
}

/** Channel is bg1, bg0; bank is ba1, ba0. */
export const A15: AddressMapDescription = {
  addressBits: 30,
  subtract: '0x20000000',
  channel: { digits: [xorOf(16, 18, 22, 26), xorOf(15, 17, 21, 25)], order: numbered(4) },
  bank: [xorOf(14, 20, 24, 28), xorOf(...bitsFrom(6, 13), 19, 23, 27)],
  row: [fieldOf(17, 28)],
  column: [fieldOf(0, 12)],
}

/** select0 to select4, die0, die1. */
export const STACKED = linearMap(48, [
  [8, 12, 15, 22, 29, 36, 43],
  [9, 13, 16, 23, 30, 37, 44],
  [10, 14, 17, 24, 31, 38, 45],
  [11, 18, 25, 32, 39, 46],
  [14, 19, 26, 33, 40, 47],
  [12, 20, 27, 34, 41],
  [13, 21, 28, 35, 42],
])

/** 3 or 5 channels at 1 KiB: ((a[63:12] << 2) | a[9:8]) mod m; the local address is the rest. */
export function oneKibMap(modulus: 3 | 5, end: number): AddressMapDescription {
  return {
    addressBits: 33,
    limit: `0x${end.toString(16)}`,
    channel: {
      digits: [{ kind: 'mod', modulus, bits: [{ low: 8, high: 9 }, { low: 12 }], from: 'address' }],
      order: numbered(modulus),
    },
    row: [fieldOf(16, 32, 'rest')],
    bank: [fieldOf(12, 15, 'rest')],
    column: [fieldOf(0, 11, 'rest')],
  }
}

/** 12 channels at 1 KiB: ((a[63:12] << 2) mod 3) << 2 | h9 << 1 | h8; 4 is 1 mod 3, so the shift drops out. */
export const TWELVE: AddressMapDescription = {
  addressBits: 42,
  limit: `0x${(3 * 2 ** 40).toString(16)}`,
  channel: {
    digits: [
      { kind: 'mod', modulus: 3, bits: [{ low: 12 }], from: 'address' },
      xorOf(9, 17, 22, 31, 41),
      xorOf(8, 14, 16, 21, 30, 40),
    ],
    order: numbered(12),
  },
  row: [fieldOf(20, 40, 'rest')],
  bank: [fieldOf(16, 19, 'rest')],
  column: [fieldOf(10, 15, 'rest'), fieldOf(0, 7, 'rest')],
}
