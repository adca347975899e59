/** Published maps for channel counts that are no power of two, and polynomial interleaving. */
import { describe, expect, test } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import {
  type AddressMap,
  type AddressMapDescription,
  compileAddressMap,
  proveFairSplit,
  proveOneToOne,
} from '../../src/board/index.ts'
import { fieldOf, linearMap, numbered, oneKibMap, TWELVE, xorOf } from '../support/published-maps.ts'
import { slowDecode } from '../support/slow-address-map.ts'

function compiled(description: AddressMapDescription): AddressMap {
  const result = compileAddressMap(description)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.value
}

const KIB = 1024
const localAddress = (map: AddressMap, address: number): number => {
  const { row = 0, bank = 0, column = 0 } = map.decode(address) ?? {}
  return row * 2 ** 16 + bank * 2 ** 12 + column
}

describe('3 and 5 channels at 1 KiB, after denormalize.c of Linux', () => {
  const three = compiled(oneKibMap(3, 3 * 2 ** 31))
  const five = compiled(oneKibMap(5, 5 * 2 ** 30))

  test.each([
    [0x0, 0, 0x0],
    [0x100, 1, 0x0],
    [0x200, 2, 0x0],
    [0x300, 0, 0x400],
    [0x400, 0, 0x100],
    [0x1000, 1, 0x400],
    [0x2000, 2, 0x800],
    [0x12345678, 2, 0x6117178],
    [0xffffffff, 0, 0x555557ff],
  ])('mod 3: %i is channel %i, local address %i', (address, channel, local) => {
    expect([three.decode(address)?.channelIndex, localAddress(three, address)]).toEqual([channel, local])
  })

  test.each([
    [0x300, 3, 0x0],
    [0x1000, 4, 0x0],
    [0x2000, 3, 0x400],
    [0x12345678, 2, 0x3a41178],
    [0xffffffff, 3, 0x333333ff],
  ])('mod 5: %i is channel %i, local address %i', (address, channel, local) => {
    expect([five.decode(address)?.channelIndex, localAddress(five, address)]).toEqual([channel, local])
  })

  test.each([3, 5] as const)('mod %i: the first m · 16 KiB fill every channel’s first 16 KiB, each byte once', (m) => {
    const map = m === 3 ? three : five
    const places = new Set<number>()
    for (let address = 0; address < m * 16 * KIB; address++) {
      const place = (map.decode(address)?.channelIndex ?? -1) * 2 ** 33 + localAddress(map, address)
      places.add(place)
    }
    expect([...places].every((place) => place % 2 ** 33 < 16 * KIB)).toBe(true)
    expect(places.size).toBe(m * 16 * KIB)
  })

  test.each([
    [3, oneKibMap(3, 3 * 2 ** 31)],
    [5, oneKibMap(5, 5 * 2 ** 30)],
  ])('mod %i: fair in blocks, and one to one, by rank', (m, description) => {
    expect(proveFairSplit(description)).toEqual({ fair: true, proved: 'by rank', blockBytes: m * 4 * KIB, faults: [] })
    expect(proveOneToOne(description)).toEqual({ oneToOne: true, proved: 'by rank', cellBytes: 1, faults: [] })
  })
})

describe('12 channels with hashes', () => {
  const map = compiled(TWELVE)

  test.each([
    [0x0, 0],
    [0x100, 1],
    [0x200, 2],
    [0x1000, 4],
    [0x4000, 5],
    [0x12345678, 2],
  ])('%i is channel %i', (address, channel) => {
    expect(map.decode(address)?.channelIndex).toBe(channel)
  })

  test('48 KiB in steps of 256 bytes come to each channel 16 times', () => {
    const counts = Array.from({ length: 12 }, () => 0)
    for (let address = 0; address < 48 * KIB; address += 256) {
      const channel = map.decode(address)?.channelIndex ?? -1
      counts[channel] = (counts[channel] ?? 0) + 1
    }
    expect(counts).toEqual(Array.from({ length: 12 }, () => 16))
  })

  test('the split is proved fair in blocks of 12 KiB, and no two addresses share a place', () => {
    expect(proveFairSplit(TWELVE)).toEqual({ fair: true, proved: 'by rank', blockBytes: 12 * KIB, faults: [] })
    expect(proveOneToOne(TWELVE)).toEqual({ oneToOne: true, proved: 'by rank', cellBytes: 1, faults: [] })
  })

  test('agrees with the slow reference in bulk', () => {
    const random = seededRandom(5)
    const addresses = Float64Array.from({ length: 3000 }, () => Math.floor(random.next() * 3 * 2 ** 40))
    const channels = new Int32Array(addresses.length)
    const cells = {
      row: new Int32Array(addresses.length),
      bank: new Int32Array(addresses.length),
      column: new Int32Array(addresses.length),
    }
    map.decodeChannels(addresses, channels)
    map.decodeCells(addresses, cells)
    for (const [i, address] of addresses.entries()) {
      const slow = slowDecode(TWELVE, BigInt(address))
      expect([channels[i], cells.row[i], cells.bank[i], cells.column[i]].map(Number)).toEqual(
        [slow?.channelIndex, slow?.row, slow?.bank, slow?.column].map(Number),
      )
    }
  })
})

describe('prime memory by the Chinese remainder theorem (after Gao 1993): module d mod 3, place d mod 8', () => {
  const description: AddressMapDescription = {
    addressBits: 5,
    limit: '0x18',
    channel: {
      digits: [{ kind: 'mod', modulus: 3, bits: [{ low: 0 }], from: 'address' }],
      order: numbered(3),
    },
    row: [fieldOf(2, 2)],
    bank: [fieldOf(1, 1)],
    column: [fieldOf(0, 0)],
  }
  const map = compiled(description)
  const pair = (d: number): [number, number] => {
    const { channelIndex = -1, row = 0, bank = 0, column = 0 } = map.decode(d) ?? {}
    return [channelIndex, row * 4 + bank * 2 + column]
  }

  test('worked examples', () => {
    for (let d = 0; d < 8; d++) expect(pair(d)).toEqual([d % 3, d])
    expect([pair(8), pair(9), pair(16), pair(23)]).toEqual([
      [2, 0],
      [0, 1],
      [1, 0],
      [2, 7],
    ])
  })

  test('24 distinct pairs, and the proof says so by trying them', () => {
    expect(proveOneToOne(description)).toMatchObject({ oneToOne: true, proved: 'by enumeration' })
    expect(proveFairSplit(description)).toMatchObject({ fair: true, proved: 'by rank' })
  })
})

/**
 * Output bit ← bits above the bank field, from hashing.cc of an academic GPU simulator (gpgpu-sim), after Rau 1991,
 * "Pseudo-randomly interleaved memory"; each bank field bit is XORed in as well.
 */
const IPOLY = [
  {
    banks: 16,
    polynomial: 0b10011,
    columns: 13,
    rows: ['0 3 4 6 8 9 10 11', '0 1 3 5 6 7 8 12', '1 2 4 6 7 8 9', '2 3 5 7 8 9 10'],
  },
  {
    banks: 32,
    polynomial: 0b100101,
    columns: 15,
    rows: [
      '0 3 5 6 9 10 11 12 13',
      '1 4 6 7 10 11 12 13 14',
      '0 2 3 6 7 8 9 10 14',
      '1 3 4 7 8 9 10 11',
      '2 4 5 8 9 10 11 12',
    ],
  },
  {
    banks: 64,
    polynomial: 0b1000011,
    columns: 19,
    rows: [
      '0 5 6 10 12 15 16 17 18',
      '0 1 5 7 10 11 12 13 15',
      '1 2 6 8 11 12 13 14 16',
      '2 3 7 9 12 13 14 15 17',
      '3 4 8 10 13 14 15 16 18',
      '4 5 9 11 14 15 16 17',
    ],
  },
]

describe.each(IPOLY)('polynomial interleaving over $banks banks', ({ banks, polynomial, columns, rows }) => {
  const width = rows.length
  const functions = rows.map((text, i) => [i, ...text.split(' ').map((bit) => Number(bit) + width)])
  const description = linearMap(width + columns, functions.toReversed())
  const map = compiled(description)

  /** a(x) mod P(x) over GF(2), by long division. */
  const remainder = (dividend: number): number => {
    let rest = dividend
    for (let bit = 31; bit >= width; bit--) if ((rest >>> bit) & 1) rest ^= polynomial << (bit - width)
    return rest
  }

  test('each column of the table is a power of x, modulo the polynomial', () => {
    for (let bit = 0; bit < width + columns; bit++) expect(map.decode(2 ** bit)?.channelIndex).toBe(remainder(2 ** bit))
  })

  test('the bank is the address modulo the polynomial', () => {
    const random = seededRandom(banks)
    for (let i = 0; i < 500; i++) {
      const address = random.whole(2 ** (width + columns))
      expect(map.decode(address)?.channelIndex).toBe(remainder(address))
    }
  })

  test('is fair in every aligned block of as many lines as there are banks', () => {
    expect(proveFairSplit(description)).toEqual({ fair: true, proved: 'by rank', blockBytes: banks, faults: [] })
  })
})

test.each([
  [0x20, 6, 5, 32],
  [0x25, 3, 0, 37],
  [0x1234, 4, 5, 41],
  [0x3ff, 2, 19, 46],
])('worked remainders of %i modulo 19, 37 and 67', (address, ...remainders) => {
  const found = IPOLY.map(({ columns, rows }) => {
    const functions = rows.map((text, i) => [i, ...text.split(' ').map((bit) => Number(bit) + rows.length)])
    return compiled(linearMap(rows.length + columns, functions.toReversed())).decode(address)?.channelIndex
  })
  expect(found).toEqual(remainders)
})

/** b0 to b4 are bits 0 to 4, a0 to a14 bits 5 to 19; doubled terms cancelled. */
const a = (...bits: number[]): number[] => bits.map((bit) => bit + 5)

describe('a published hash that is no bijection of its bank field (page-address entropy, as coded in the same file)', () => {
  const functions = [
    [...a(4, 5, 8, 9, 12), 0, 1, 4],
    [...a(3, 8, 10, 11), 2],
    [...a(2, 7, 8, 9, 14), 1, 2],
    [...a(1, 6, 11, 12), 2, 3],
    [...a(0, 5, 9, 10, 13), 3],
  ]

  test('on one block of 32 lines the split is refused, and the digits that depend are named', () => {
    const onBlock = linearMap(
      5,
      functions.map((bits) => bits.filter((bit) => bit < 5)),
    )
    const proof = proveFairSplit(onBlock)
    expect(proof).toMatchObject({ fair: false, proved: 'by rank' })
    expect(proof.faults).toHaveLength(1)
    expect(proof.faults[0]?.found).toMatch(/^digit 4 is the sum of digit 1 and digit 3$/)
  })

  test('with the bits above as the row, addresses fall together', () => {
    const whole: AddressMapDescription = {
      ...linearMap(20, functions),
      row: [fieldOf(7, 19)],
      bank: [fieldOf(6, 6)],
      column: [fieldOf(5, 5)],
    }
    expect(proveOneToOne(whole)).toMatchObject({ oneToOne: false, proved: 'by rank' })
    expect(proveFairSplit(whole).blockBytes).toBeGreaterThan(32)
  })
})

test('an xor digit beside a residue that it cannot be told apart from by algebra is settled by counting', () => {
  const description: AddressMapDescription = {
    addressBits: 12,
    limit: '0xc00',
    channel: {
      digits: [{ kind: 'mod', modulus: 3, bits: [{ low: 8 }], from: 'address' }, xorOf(8, 10)],
      order: numbered(6),
    },
  }
  const counts = Array.from({ length: 6 }, () => 0)
  for (let address = 0; address < 0xc00; address++) {
    const channel = Number(slowDecode(description, BigInt(address))?.channelIndex)
    counts[channel] = (counts[channel] ?? 0) + 1
  }
  const fair = new Set(counts).size === 1
  expect(proveFairSplit(description)).toMatchObject({ fair, proved: 'by enumeration' })
})
