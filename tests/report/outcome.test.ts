/** A later reading of the same text says what it reads otherwise than the one before. */
import { expect, test } from 'vitest'
import { outcomeOf, readOutcomeSchema, whatChanged } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { mustRead } from './support.ts'

const model = shippedBoard('bowline-8')
const read = async (text: string) => outcomeOf(await mustRead(text, model))

test('the same reading changes nothing, also after a way through a file', async () => {
  const one = await read('U13 A0 1200\nU11 A0 0\n')
  const kept = readOutcomeSchema.parse(JSON.parse(JSON.stringify(one)))
  expect(kept).toEqual(one)
  expect(whatChanged(kept, await read('U13 A0 1200\nU11 A0 0\n'))).toEqual([])
})

test('lanes that fail, pass or are told of no more are named, and counts with both numbers', async () => {
  const before = await read('U13 A0 1200\nU11 A0 0\nU12 A0 0\nU12 A1 5\nU14 B0 7\n')
  const after = await read('U13 A0 1250\nU11 A0 3\nU12 A1 0\nU15 A0 9\nU15 A1 0\n')
  expect(whatChanged(before, after)).toEqual([
    'U11.A0: passed before, fails now.',
    'U15.A0: untested before, fails now.',
    'U12.A1: failed before, passes now.',
    'U14.B0: failed before, untested now.',
    'U12.A0: passed before, untested now.',
    'U15.A1: untested before, passes now.',
    'U12 had 5 errors, now 0.',
    'U13 had 1,200 errors, now 1,250.',
    'U14 had 7 errors, now 0.',
    'U11 had 0 errors, now 3.',
    'U15 had 0 errors, now 9.',
  ])
})

test('a reading that is no longer sure says so first', async () => {
  const one = await read('U13 A0 1200\n')
  expect(whatChanged(one, { ...one, sure: 'unsure' })).toEqual([
    'It was surely read right; now it is read, but not surely right.',
  ])
})
