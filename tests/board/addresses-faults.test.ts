/** What a wrong address map is told: each fault with its place, what stood there and what was expected. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import {
  type AddressMapDescription,
  checkAddressing,
  compileAddressMap,
  type Digit,
  proveFairSplit,
  proveOneToOne,
} from '../../src/board/index.ts'
import { A9, fieldOf, linearMap, numbered, oneKibMap, TWELVE, xorOf } from '../support/published-maps.ts'

const mod = (modulus: number, ...bits: { low: number; high?: number }[]): Digit => ({
  kind: 'mod',
  modulus,
  bits,
  from: 'address',
})

const sentences = (description: AddressMapDescription): string[] => {
  const result = compileAddressMap(description)
  return result.ok ? [] : result.faults.map(sayFault)
}

describe('a description that cannot be computed', () => {
  test('tells all faults at once, each with its own path', () => {
    const faults = sentences({
      addressBits: 20,
      limit: '0x200000',
      channel: { digits: [xorOf(25), { kind: 'xor', mask: '0x0', from: 'address' }], order: numbered(4) },
      row: [fieldOf(9, 4)],
      column: [mod(3, { low: 4, high: 8 }, { low: 8, high: 10 }), fieldOf(3, 30)],
    })
    expect(faults).toHaveLength(6)
    expect(faults.map((sentence) => sentence.split(':')[0])).toEqual([
      '$.addressMap.limit',
      '$.addressMap.channel.digits[0].mask',
      '$.addressMap.channel.digits[1].mask',
      '$.addressMap.row[0].high',
      '$.addressMap.column[0].bits[1]',
      '$.addressMap.column[1].high',
    ])
  })

  test('an order that is not as long as the digits count', () => {
    const [fault] = sentences({ ...TWELVE, channel: { ...TWELVE.channel, order: numbered(11) } })
    expect(fault).toContain('$.addressMap.channel.order: found 11 channels, expected 12')
    expect(fault).toContain('3 × 2 × 2')
  })

  test('nothing between subtract and limit', () => {
    const [fault] = sentences({ ...linearMap(20, [[8]]), subtract: '0x2000', limit: '0x2000' })
    expect(fault).toContain('$.addressMap.subtract: found 0x2000, expected less than 0x2000')
  })

  test('a row number too wide for its arrays', () => {
    const [fault] = sentences({ ...linearMap(40, [[8]]), row: [fieldOf(2, 39)] })
    expect(fault).toContain('$.addressMap.row: found 274877906944 values')
  })
})

const said = (description: AddressMapDescription): string[] => proveFairSplit(description).faults.map(sayFault)

describe('a split that is not fair names the digit and why', () => {
  test('a digit that is the sum of two others', () => {
    const [fault, ...more] = said(
      linearMap(20, [
        [8, 12],
        [12, 13],
        [8, 13],
      ]),
    )
    expect(fault).toContain('$.addressMap.channel.digits[2]: found digit 2 is the sum of digit 0 and digit 1')
    expect(more).toEqual([])
  })

  test('a digit that repeats one bit of a field', () => {
    const description: AddressMapDescription = {
      addressBits: 16,
      channel: { digits: [fieldOf(8, 9), xorOf(9)], order: numbered(8) },
    }
    expect(said(description)[0]).toContain('digits[1]: found digit 1 is the same as digit 0 bit 1')
  })

  test('a digit that reads only beyond the end of the memory', () => {
    expect(said({ ...linearMap(20, [[8], [19]]), limit: '0x80000' })[0]).toContain(
      'digits[1]: found digit 1 is always 0 below the end of the memory',
    )
  })

  test('a mod digit that gathers too few bits', () => {
    const description: AddressMapDescription = {
      addressBits: 20,
      channel: { digits: [mod(3, { low: 8, high: 11 })], order: numbered(3) },
    }
    expect(said(description)[0]).toContain(
      '$.addressMap.channel.digits[0]: found bits that take 16 values, expected a number of values that 3 divides',
    )
  })

  test('a memory that ends inside of a block of a mod digit', () => {
    expect(said({ ...oneKibMap(3, 3 * 2 ** 31), limit: '0x100000000' })[0]).toContain(
      '$.addressMap.limit: found 0x100000000, expected 0x3000 times a whole number',
    )
  })

  test('a memory that ends inside of a block of xor digits', () => {
    expect(said({ ...linearMap(20, [[8], [19]]), limit: '0xc0000' })[0]).toContain(
      '$.addressMap.limit: found 0xc0000, expected an end where digit 1 is as often 1 as 0',
    )
  })

  test('channels that the order names unequally often', () => {
    const map = linearMap(20, [[8], [9]])
    const order = ['a', 'a', 'b', 'c']
    expect(said({ ...map, channel: { ...map.channel, order } })).toHaveLength(2)
  })

  test('what neither algebra nor counting settles is called not proved, and is no fault', () => {
    const description: AddressMapDescription = {
      addressBits: 40,
      limit: `0x${(3 * 2 ** 38).toString(16)}`,
      channel: { digits: [mod(3, { low: 8 }), xorOf(10, 14, 30)], order: numbered(6) },
    }
    expect(proveFairSplit(description)).toEqual({ fair: false, proved: 'not proved', faults: [] })
  })
})

describe('addresses that fall together', () => {
  test('are shown by example', () => {
    const description: AddressMapDescription = { ...A9, column: [fieldOf(8, 13), fieldOf(0, 5)] }
    const proof = proveOneToOne(description)
    expect(proof).toMatchObject({ oneToOne: false, proved: 'by rank' })
    expect(proof?.faults[0]?.found).toBe('536870912 places for 1073741824 addresses of 1 bytes')
    const doubled: AddressMapDescription = { ...A9, column: [fieldOf(8, 14), fieldOf(0, 5)] }
    const [fault] = proveOneToOne(doubled)?.faults ?? []
    expect(fault?.found).toBe('addresses 0x0 and 0x80 in one place')
  })

  test('are not asked for where the map gives no rows', () => {
    expect(proveOneToOne(linearMap(20, [[8]]))).toBeUndefined()
  })

  test('differ below a cell only where no digit reads those bits', () => {
    const words: AddressMapDescription = { ...A9, column: [fieldOf(7, 13), fieldOf(2, 5)] }
    expect(proveOneToOne(words)).toMatchObject({ oneToOne: true, cellBytes: 4 })
  })
})

test('the board’s check brings both proofs’ faults under the board’s path', () => {
  const repeated: AddressMapDescription = {
    ...A9,
    channel: { digits: [xorOf(6, 13), xorOf(6, 13)], order: numbered(4) },
  }
  expect(checkAddressing(repeated).map(({ path }) => path)).toEqual(['$.addressMap.channel.digits[1]'])
  expect(checkAddressing(A9)).toEqual([])
  expect(checkAddressing(TWELVE)).toEqual([])
})
