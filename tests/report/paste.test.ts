/** A table pasted into the one that is filled in by hand. */
import { expect, test } from 'vitest'
import { pastedRows } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const model = shippedBoard('bowline-8')

test('lines that name a lane, a channel or a part become rows, and what passed has no errors', () => {
  const { rows, left } = pastedRows('part\tlane\terrors\nU13\tA0\t1,200\nU13\tA1\tok\nCH5\t\t7\nU16 3 errors\n', model)
  expect(rows).toEqual([
    { lane: 'U13.A0', errors: 1200 },
    { lane: 'U13.A1', errors: 0 },
    { channel: 'CH5', errors: 7 },
    { part: 'U16', errors: 3 },
  ])
  expect(left).toEqual(['part\tlane\terrors'])
})

test('what names nothing on the board, or says two numbers, is left and told', () => {
  const { rows, left } = pastedRows('U99 12\nU11 3 4\n', model)
  expect(rows).toEqual([])
  expect(left).toHaveLength(2)
})
