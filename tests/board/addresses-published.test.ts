/** Published linear maps, decoded. Spot values were worked out by hand from the published functions. */
import { describe, expect, test } from 'vitest'
import { rank, seededRandom } from '../../src/base/index.ts'
import {
  type AddressMap,
  type AddressMapDescription,
  compileAddressMap,
  proveFairSplit,
  proveOneToOne,
} from '../../src/board/index.ts'
import { A10, A14, A15, A4, A6_FUNCTIONS, A7_FUNCTIONS, A9, linearMap, STACKED } from '../support/published-maps.ts'
import { slowDecode } from '../support/slow-address-map.ts'

function compiled(description: AddressMapDescription): AddressMap {
  const result = compileAddressMap(description)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

/** The functions as rows over GF(2). */
const rows = (functions: readonly (readonly number[])[]): bigint[] =>
  functions.map((bits) => bits.reduce((row, bit) => row | (1n << BigInt(bit)), 0n))

const binary = (value: number | undefined, digits: number): string => (value ?? -1).toString(2).padStart(digits, '0')

const addressesIn = (map: AddressMap, count: number, seed: number): Float64Array => {
  const random = seededRandom(seed)
  const size = map.endAddress - map.firstAddress
  return Float64Array.from({ length: count }, () => map.firstAddress + Math.floor(random.next() * size))
}

const everyMap = { A4, A6: linearMap(34, A6_FUNCTIONS), A7: linearMap(34, A7_FUNCTIONS), A9, A10, A14, A15, STACKED }

describe.each(Object.entries(everyMap))('%s', (_, description) => {
  const map = compiled(description)

  test('decodes as the slow reference does, one by one and in bulk', () => {
    const addresses = addressesIn(map, 500, 7)
    const channels = new Int32Array(addresses.length)
    map.decodeChannels(addresses, channels)
    for (const [i, address] of addresses.entries()) {
      const slow = slowDecode(description, BigInt(address))
      const fast = map.decode(address)
      expect(channels[i]).toBe(slow?.channelIndex)
      expect({ ...fast }).toEqual({
        channelIndex: slow?.channelIndex,
        channel: slow?.channel,
        ...(slow?.row === undefined ? {} : { row: Number(slow.row) }),
        ...(slow?.bank === undefined ? {} : { bank: Number(slow.bank) }),
        ...(slow?.column === undefined ? {} : { column: Number(slow.column) }),
      })
    }
  })

  test('is a fair split, by rank', () => {
    expect(proveFairSplit(description)).toMatchObject({ fair: true, proved: 'by rank', faults: [] })
  })
})

test.each([
  [0x80, '10000'],
  [0x4000, '00001'],
  [0x40000, '10001'],
  [0x12345680, '01100'],
  [0x3fffffff, '10000'],
  [0x2aaaaaaa, '00000'],
  [0x155555555, '10000'],
])('A4: %i has functions %s', (address, functions) => {
  expect(binary(compiled(A4).decode(address)?.channelIndex, 5)).toBe(functions)
})

test('A6 and A7 are two bases of one partition: they agree on which addresses share a place', () => {
  const a6 = compiled(linearMap(34, A6_FUNCTIONS))
  const a7 = compiled(linearMap(34, A7_FUNCTIONS))
  const pairs = new Map<number, number>()
  for (const address of addressesIn(a6, 2000, 11)) {
    const one = a6.decode(address)?.channelIndex ?? -1
    const other = a7.decode(address)?.channelIndex ?? -1
    expect(pairs.get(one) ?? other).toBe(other)
    pairs.set(one, other)
  }
  expect(new Set(pairs.values()).size).toBe(64)
  expect(rank([...rows(A6_FUNCTIONS), ...rows(A7_FUNCTIONS)])).toBe(6)
})

test.each([
  [0x12345680, '0110', 0x91a],
  [0x2aaaaaaa, '1111', 0x1555],
  [0x3fffffff, '0000', 0x1fff],
])('A9: %i has banks %s', (address, banks, row) => {
  const decoded = compiled(A9).decode(address)
  expect(binary(decoded?.channelIndex, 1) + binary(decoded?.bank, 3)).toBe(banks)
  expect(decoded?.row).toBe(row)
})

test.each([
  [0x12345680, '00011', 0x48d],
  [0x2aaaaaaa, '10000', 0xaaa],
])('A10: %i has banks %s', (address, banks, row) => {
  const decoded = compiled(A10).decode(address)
  expect(binary(decoded?.channelIndex, 1) + binary(decoded?.bank, 4)).toBe(banks)
  expect(decoded?.row).toBe(row)
})

const bit = (value: number, i: number): number => (value >> i) & 1

/** A9 backwards, as ZenHammer's DRAMConfig.cpp publishes it: bank3 is {6,13}, bank0 is {16,19}. */
function publishedInverse(bank: number, row: number, column: number): number {
  let address = row * 2 ** 17
  address += (bit(bank, 0) ^ bit(row, 2)) * 2 ** 16
  address += (bit(bank, 1) ^ bit(row, 1)) * 2 ** 15
  address += (bit(bank, 2) ^ bit(row, 0)) * 2 ** 14
  for (let c = 6; c <= 12; c++) address += bit(column, c) * 2 ** (c + 1)
  address += (bit(bank, 3) ^ bit(column, 12)) * 2 ** 6
  return address + (column & 0x3f)
}

test('A9: the published inverse undoes it, on the 30 unit vectors and on 20,000 addresses', () => {
  const map = compiled(A9)
  const units = Array.from({ length: 30 }, (_, i) => 2 ** i)
  const astray = [...units, ...addressesIn(map, 20_000, 3)].filter((address) => {
    const { channelIndex = 0, bank = 0, row = 0, column = 0 } = map.decode(address) ?? {}
    return publishedInverse(channelIndex * 8 + bank, row, column) !== address
  })
  expect(astray).toEqual([])
})

test.each([
  [0x20004000, '00100', 0, 0],
  [0x2abcdef0, '10111', 0x2af, 0x1ef0],
  [0x31234567, '00011', 0x448, 0x567],
])('A14: %i less 512 MiB has rank and banks %s', (address, banks, row, column) => {
  const decoded = compiled(A14).decode(address)
  expect(binary(decoded?.channelIndex, 1) + binary(decoded?.bank, 4)).toBe(banks)
  expect([decoded?.row, decoded?.column]).toEqual([row, column])
})

test.each([
  [0x20004000, '0010', 0],
  [0x2abcdef0, '1101', 0x55e],
  [0x31234567, '1011', 0x891],
])('A15: %i less 512 MiB has banks %s', (address, banks, row) => {
  const decoded = compiled(A15).decode(address)
  expect(binary(decoded?.channelIndex, 2) + binary(decoded?.bank, 2)).toBe(banks)
  expect(decoded?.row).toBe(row)
})

test.each([
  [0x100, '1000000'],
  [0x1000, '1000010'],
  [0x8000, '1000000'],
  [0x12345680, '1100100'],
])('stacked memory: %i has selects and dies %s', (address, selects) => {
  expect(binary(compiled(STACKED).decode(address)?.channelIndex, 7)).toBe(selects)
})

test.each([
  ['A9', A9],
  ['A10', A10],
  ['A14', A14],
  ['A15', A15],
])('%s tells every address apart, by rank', (_, description) => {
  expect(proveOneToOne(description)).toEqual({ oneToOne: true, proved: 'by rank', cellBytes: 1, faults: [] })
})
