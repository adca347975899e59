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
  expect(left).toEqual([])
})

test('what names nothing on the board, or says two numbers, is left and told', () => {
  const { rows, left } = pastedRows('U99 12\nU11 3 4\n', model)
  expect(rows).toEqual([])
  expect(left).toHaveLength(2)
})

test('headings tell the columns of a spreadsheet, in any order, with bits and with counts in quotes', () => {
  expect(pastedRows('part\tlane\tbit\terrors\nU13\tA0\t3\t1200\nU12\tB1\t\t0\n', model)).toEqual({
    rows: [
      { lane: 'U13.A0', bit: 3, errors: 1200 },
      { lane: 'U12.B1', errors: 0 },
    ],
    left: [],
  })
  expect(pastedRows('Errors,Part\n"1,200",U13\n0,U12\n', model)).toEqual({
    rows: [
      { part: 'U13', errors: 1200 },
      { part: 'U12', errors: 0 },
    ],
    left: [],
  })
  expect(pastedRows('Kanal;Ergebnis\nCH4;ok\nCH5;defekt\n', model)).toEqual({
    rows: [{ channel: 'CH4', errors: 0 }],
    left: ['CH5;defekt'],
  })
})

test('a bit that is none, a place that is not on the board and a count that is none are left, whatever the headings say', () => {
  const { rows, left } = pastedRows('lane\tbit\terrors\nU13.A0\tnone\t4\nU99.A0\t1\t4\nU13.A1\t1\tsome\n', model)
  expect(rows).toEqual([])
  expect(left).toHaveLength(3)
})

test('names that the board was told to know are taken, half a package as its channel', () => {
  const names = { 'C3 low': 'CH6', 'chip 2': 'U12' }
  expect(pastedRows('part\terrors\nC3 low\t7\nchip 2\t0\n', model, names).rows).toEqual([
    { channel: 'CH6', errors: 7 },
    { part: 'U12', errors: 0 },
  ])
})
