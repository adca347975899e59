import { expect, test } from 'vitest'
import { firstDependentRow, nullSpace, parity, rank } from '../../src/base/index.ts'

test('two published bases of one controller span the same six dimensions', () => {
  // Source: DRAMA (Pessl et al., USENIX Security 2016) and TRRespass masks for one desktop controller, DDR4.
  const drama = [0x4080n, 0x88000n, 0x220000n, 0x440000n, 0x110000n, 0xc3300n]
  const trrespass = [0x4080n, 0x88000n, 0x110000n, 0x220000n, 0x440000n, 0x4b300n]
  expect([rank(drama), rank(trrespass), rank([...drama, ...trrespass])]).toEqual([6, 6, 6])
})

test('the null space is orthogonal to every row and fills the rest of the dimensions', () => {
  const rows = [0b1011n, 0b0110n, 0b1101n]
  const free = nullSpace(rows, 4)
  expect(free.length).toBe(4 - rank(rows))
  for (const vector of free) for (const row of rows) expect(parity(vector & row)).toBe(0)
})

test('a row that is the sum of earlier ones is named', () => {
  expect(firstDependentRow([0b011n, 0b110n, 0b101n])).toBe(2)
  expect(firstDependentRow([0b001n, 0b010n, 0b100n])).toBeUndefined()
})
