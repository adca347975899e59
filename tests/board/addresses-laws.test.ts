/** Laws of address maps, on random maps: tables agree with the slow reference, proofs agree with counting. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type AddressMap,
  type AddressMapDescription,
  compileAddressMap,
  type Digit,
  proveFairSplit,
  proveOneToOne,
} from '../../src/board/index.ts'
import { slowDecode } from '../support/slow-address-map.ts'

const hex = (value: bigint | number): string => `0x${value.toString(16)}`

const source = fc.constantFrom<'address' | 'rest'>('address', 'rest')

function digitOf(addressBits: number): fc.Arbitrary<Digit> {
  const bit = fc.integer({ min: 0, max: addressBits - 1 })
  const xor = fc.record({
    kind: fc.constant('xor' as const),
    mask: fc.bigInt({ min: 1n, max: (1n << BigInt(addressBits)) - 1n }).map(hex),
    from: source,
  })
  const field = fc
    .record({ at: bit, width: fc.integer({ min: 1, max: 2 }), from: source })
    .map(({ at, width, from }) => {
      const low = Math.max(0, Math.min(at, addressBits - width))
      return { kind: 'field' as const, low, high: Math.min(low + width, addressBits) - 1, from }
    })
  const mod = fc
    .record({
      modulus: fc.integer({ min: 2, max: 7 }),
      low: bit,
      extra: fc.option(bit),
      toTop: fc.boolean(),
      from: source,
    })
    .map(({ modulus, low, extra, toTop, from }) => {
      const top = { low, ...(toTop ? {} : { high: Math.min(addressBits - 1, low + 2) }) }
      const bits = extra === null || extra >= low ? [top] : [{ low: extra, high: extra }, top]
      return { kind: 'mod' as const, modulus, bits, from }
    })
  return fc.oneof({ weight: 3, arbitrary: xor }, { weight: 1, arbitrary: field }, { weight: 2, arbitrary: mod })
}

const radixOf = (digit: Digit): number => {
  if (digit.kind === 'xor') return 2
  return digit.kind === 'mod' ? digit.modulus : 2 ** (digit.high - digit.low + 1)
}

/** Maps whose memory ends at a random place, often one that a factor 3 divides. */
function mapOf(bits: { min: number; max: number }): fc.Arbitrary<AddressMapDescription> {
  return fc.integer(bits).chain((addressBits) =>
    fc
      .record({
        digits: fc.array(digitOf(addressBits), { minLength: 1, maxLength: 3 }),
        row: fc.option(fc.array(digitOf(addressBits), { minLength: 1, maxLength: 4 }), { nil: undefined }),
        bank: fc.option(fc.array(digitOf(addressBits), { minLength: 1, maxLength: 2 }), { nil: undefined }),
        column: fc.option(fc.array(digitOf(addressBits), { minLength: 1, maxLength: 4 }), { nil: undefined }),
        end: fc.oneof(fc.constant(1), fc.constant(0.75), fc.double({ min: 0.3, max: 1, noNaN: true })),
        start: fc.constantFrom(0, 0, 0.25),
      })
      .map(({ digits, row, bank, column, end, start }) => {
        const count = digits.reduce((product, digit) => product * radixOf(digit), 1)
        return {
          addressBits,
          ...(start === 0 ? {} : { subtract: hex(2 ** addressBits * start) }),
          ...(end === 1 ? {} : { limit: hex(Math.floor(2 ** addressBits * end)) }),
          channel: { digits, order: Array.from({ length: count }, (_, i) => `${i}`) },
          ...(row === undefined ? {} : { row }),
          ...(bank === undefined ? {} : { bank }),
          ...(column === undefined ? {} : { column }),
        }
      })
      .filter((map) => compileAddressMap(map).ok),
  )
}

function compiled(description: AddressMapDescription): AddressMap {
  const result = compileAddressMap(description)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const numeric = (value: bigint | undefined): number => (value === undefined ? -1 : Number(value))

test('tables decode as the slow reference does, whatever the map, inside of the memory and out', () => {
  fc.assert(
    fc.property(
      mapOf({ min: 2, max: 52 }),
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 20 }),
      (description, shares) => {
        const map = compiled(description)
        const top = Math.min(2 ** description.addressBits * 1.1, 2 ** 52)
        const addresses = Float64Array.from(shares, (share) => Math.floor(share * top))
        const channels = new Int32Array(addresses.length)
        const row = new Int32Array(addresses.length)
        const bank = new Int32Array(addresses.length)
        const column = new Int32Array(addresses.length)
        map.decodeChannels(addresses, channels)
        map.decodeCells(addresses, { row, bank, column })
        for (const [i, address] of addresses.entries()) {
          const slow = slowDecode(description, BigInt(address))
          expect(channels[i]).toBe(slow?.channelIndex ?? -1)
          expect([row[i], bank[i], column[i]]).toEqual([slow?.row, slow?.bank, slow?.column].map(numeric))
          expect(map.decode(address)?.channel).toBe(slow?.channel)
          expect(map.decode(BigInt(address))).toEqual(map.decode(address))
        }
      },
    ),
    { seed: 20, numRuns: 150 },
  )
})

test('below subtract, at the limit and beyond, between whole numbers and at none: unmapped', () => {
  const map = compiled({
    addressBits: 20,
    subtract: '0x1000',
    limit: '0x9000',
    channel: { digits: [{ kind: 'field', low: 8, high: 8, from: 'address' }], order: ['even', 'odd'] },
  })
  const outside = [0, 0xfff, 0x9000, 0xfffff, 2 ** 20, 2 ** 52, -1, Number.NaN, Infinity]
  const out = new Int32Array(outside.length)
  map.decodeChannels(Float64Array.from(outside), out)
  expect([...out]).toEqual(outside.map(() => -1))
  for (const address of [...outside, (0x1000).toString().length / 3]) expect(map.decode(address)).toBeUndefined()
  expect(map.decode(0x1100n)?.channel).toBe('odd')
  expect(map.decode(0x8fff)?.channel).toBe('odd')
})

function countBySlow(description: AddressMapDescription): number[] {
  const counts = Array.from({ length: description.channel.order.length }, () => 0)
  for (let address = 0; address < 2 ** description.addressBits; address++) {
    const index = slowDecode(description, BigInt(address))?.channelIndex
    if (index !== undefined) counts[index] = (counts[index] ?? 0) + 1
  }
  return counts
}

describe('proofs agree with counting on small random maps', () => {
  test('fair if and only if every channel comes up equally often', () => {
    const ways = { 'by rank': 0, 'by enumeration': 0, 'not proved': 0 }
    let fairByRank = 0
    fc.assert(
      fc.property(mapOf({ min: 3, max: 6 }), (description) => {
        const proof = proveFairSplit(description)
        ways[proof.proved]++
        if (proof.fair && proof.proved === 'by rank') fairByRank++
        const fair = new Set(countBySlow(description)).size === 1
        expect(proof.fair).toBe(fair)
        expect(proof.faults.length === 0).toBe(fair)
      }),
      { seed: 21, numRuns: 700 },
    )
    expect(ways['not proved']).toBe(0)
    expect(Math.min(ways['by rank'], ways['by enumeration'], fairByRank)).toBeGreaterThan(50)
  })

  test('a block that is called even is even wherever it is aligned', () => {
    let tried = 0
    fc.assert(
      fc.property(mapOf({ min: 4, max: 8 }), (description) => {
        const { blockBytes, fair } = proveFairSplit(description)
        if (!fair || blockBytes === undefined) return
        tried++
        const first = Number(description.subtract ?? 0)
        const end = Number(description.limit ?? 2 ** description.addressBits)
        for (let block = first; block < end; block += blockBytes) {
          const counts = Array.from({ length: description.channel.order.length }, () => 0)
          for (let address = block; address < block + blockBytes; address++) {
            const index = slowDecode(description, BigInt(address))?.channelIndex ?? -1
            counts[index] = (counts[index] ?? 0) + 1
          }
          expect(new Set(counts).size).toBe(1)
        }
      }),
      { seed: 22, numRuns: 400 },
    )
    expect(tried).toBeGreaterThan(40)
  })

  test('one to one if and only if no two addresses share a place', () => {
    const ways = { 'by rank': 0, 'by enumeration': 0, 'not proved': 0 }
    let yes = 0
    const full = mapOf({ min: 3, max: 6 }).filter(({ row, bank, column }) => (row && bank && column) !== undefined)
    fc.assert(
      fc.property(full, (description) => {
        const proof = proveOneToOne(description)
        if (proof === undefined) throw new Error('all four numbers are given')
        ways[proof.proved]++
        if (proof.oneToOne) yes++
        const places = new Set<string>()
        const cells = new Set<number>()
        for (let address = 0; address < 2 ** description.addressBits; address++) {
          const slow = slowDecode(description, BigInt(address))
          if (slow === undefined) continue
          places.add(`${slow.channelIndex}/${slow.row}/${slow.bank}/${slow.column}`)
          cells.add(Math.floor((address - Number(description.subtract ?? 0)) / proof.cellBytes))
        }
        expect(proof.oneToOne).toBe(places.size === cells.size)
      }),
      { seed: 23, numRuns: 400 },
    )
    expect(ways['not proved']).toBe(0)
    expect(Math.min(yes, ways['by rank'], ways['by enumeration'])).toBeGreaterThan(20)
  })
})
