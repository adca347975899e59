/** Reports with names of their own for packages and halves: asked about, and read once it is said what they mean. */
import { describe, expect, test } from 'vitest'
import { laneStates, recipeWithNames } from '../../src/report/index.ts'
import { previewReport } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { mustRead, pieces, utf8 } from './support.ts'

const model = shippedBoard('bowline-8')
const halves = Array.from(
  { length: 8 },
  (_, i) => `C${i} low: ${i === 3 ? 1432 : 0} errors\nC${i} high: 0 errors`,
).join('\n')

describe('a report that says C3 low', () => {
  test('is not taken as sure, and its names are told with what they could mean', async () => {
    const guess = await previewReport(pieces(utf8(halves)), { model })
    if (!guess.ok) throw new Error('it could not be looked at')
    expect(guess.value.sure).not.toBe('sure')
    expect(guess.value.foreign).toHaveLength(16)
    expect(guess.value.foreign.slice(6, 8)).toEqual([
      { name: 'C3 low', proposal: 'CH6' },
      { name: 'C3 high', proposal: 'CH7' },
    ])
  })
  test('is read once somebody said what each name means', async () => {
    const names = Object.fromEntries(
      Array.from({ length: 8 }, (_, i) => [
        [`C${i} low`, `CH${2 * i}`],
        [`C${i} high`, `CH${2 * i + 1}`],
      ]).flat(),
    )
    const { tally, sure } = await mustRead(halves, model, { recipe: recipeWithNames(names) })
    expect(sure).toBe('sure')
    expect(tally.rows).toMatchObject({ read: 16, unmapped: 0, unreadable: 0 })
    expect(tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.errors])).toEqual([
      ['U14', 1432],
    ])
    const states = laneStates(tally)
    expect(['U14.A0', 'U14.B0', 'U11.A0'].map((id) => states.get(id))).toEqual(['fail', 'pass', 'pass'])
  })
})

test('chips by number are proposed in the order of the board, and never taken by themselves', async () => {
  const text = Array.from({ length: 8 }, (_, i) => `chip ${i + 1}: ${i === 3 ? 12 : 0} errors`).join('\n')
  const guess = await previewReport(pieces(utf8(text)), { model })
  expect(guess.ok && guess.value.sure).not.toBe('sure')
  expect(guess.ok && guess.value.foreign[3]).toEqual({ name: 'chip 4', proposal: 'U14' })
})

test('lines that say passed and lines of progress are no foreign names', async () => {
  const guess = await previewReport(pieces(utf8('Pass 1 of 4: no errors\nPass 2 of 4: no errors\n')), { model })
  expect(guess.ok && guess.value.foreign).toEqual([])
})
