/** Numbers of up to 64 bits, in the ways in which reports write them, against BigInt. */
import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { recipeSchema } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { countsOf, mustRead, slowTally } from './support.ts'

const model = shippedBoard('hitch-12')
const FIXED = { seed: 11, numRuns: 60 }
const recipe = (base: string) =>
  recipeSchema.parse({
    name: 'difference',
    layout: { kind: 'delimited', delimiter: ',' },
    columns: [
      { role: 'address', at: 0, base: 'hex' },
      { role: 'difference', at: 1, base },
    ],
  })

/** The bits that a cell stands for, by what they come to in the tally; undefined where it is refused. */
async function bitsOf(cell: string, base: string): Promise<number | undefined> {
  const { tally } = await mustRead(`0x1000,1\n0x1000,${cell}\n`, model, { recipe: recipe(base) })
  if (tally.rows.unreadable > 0) return undefined
  const lanes = tally.parts.flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
  return lanes.flatMap((lane) => lane.bits).reduce((sum, count) => sum + count, 0) - 1
}
const ones = (value: bigint): number => value.toString(2).replaceAll('0', '').length

describe('a word', () => {
  const word = fc.bigInt({ min: 0n, max: (1n << 64n) - 1n })
  const writings: [string, string, (value: bigint) => string][] = [
    ['0x and lower case', 'decimal', (v) => `0x${v.toString(16)}`],
    ['0X and upper case', 'auto', (v) => `0X${v.toString(16).toUpperCase()}`],
    ['bare hexadecimal', 'hex', (v) => v.toString(16)],
    ['leading zeros', 'hex', (v) => v.toString(16).padStart(20, '0')],
    ['trailing h', 'auto', (v) => `${v.toString(16)}h`],
    ['decimal', 'decimal', (v) => v.toString()],
    ['brackets', 'hex', (v) => `[${v.toString(16)}]`],
    [
      'groups',
      'hex',
      (v) =>
        v
          .toString(16)
          .padStart(16, '0')
          .replace(/(.{4})(?=.)/g, '$1_'),
    ],
  ]
  for (const [name, base, write] of writings) {
    test.prop([word], FIXED)(name, async (value) => {
      expect(await bitsOf(write(value), base)).toBe(ones(value))
    })
  }
  test.each([
    ['1'.padEnd(17, '0'), 'hex'],
    ['18446744073709551616', 'decimal'],
    ['ff', 'decimal'],
    ['0x', 'hex'],
    ['-1', 'decimal'],
    ['1.5', 'auto'],
    ['h', 'auto'],
  ])('%s read as %s is refused', async (cell, base) => {
    expect(await bitsOf(cell, base)).toBeUndefined()
  })
})

test('digits alone are decimal, with a letter hexadecimal, where the base is left open', async () => {
  expect([await bitsOf('10', 'auto'), await bitsOf('1a', 'auto')]).toEqual([ones(10n), ones(0x1an)])
})

test('a word longer than the channel goes round its bits again, from where its address lies', async () => {
  const rows = [0x1000n, 0x1001n, 0x1003n].map((address) => ({ address, expected: 0n, actual: 0x8000_0000_0000_0101n }))
  const text = rows.map((row) => `0x${row.address.toString(16)},0x0,0x${row.actual.toString(16)}`).join('\n')
  const { tally } = await mustRead(`address,expected,actual\n${text}\n`, model)
  expect(countsOf(tally)).toEqual(slowTally(model, rows))
})
