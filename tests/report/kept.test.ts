/** What was said about one kind of report is kept with the board, goes as a small file, and serves the next that looks so. */
import { describe, expect, test } from 'vitest'
import { loadBoard } from '../../src/board/index.ts'
import {
  keepReading,
  keptReadings,
  previewReport,
  readingOf,
  readReport,
  readWordsFile,
  type Recipe,
  recipeSchema,
  withReadings,
  writeWordsFile,
} from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { mustRead, pieces, utf8 } from './support.ts'

const model = shippedBoard('bowline-8')
const banner = 'Night walk 3.1 of 2026-03-04\n'
const line = (i: number, errors: number): string => `C${i} low: ${errors} errors\nC${i} high: 0 errors\n`
const report = (bad: number): string =>
  `${banner}${Array.from({ length: 8 }, (_, i) => line(i, i === bad ? 1432 : 0)).join('')}`
const names = Object.fromEntries(
  Array.from({ length: 8 }, (_, i) => [
    [`C${i} low`, `CH${(2 * i + 4) % 16}`],
    [`C${i} high`, `CH${(2 * i + 5) % 16}`],
  ]).flat(),
)

function boardThatKeeps(readings: Parameters<typeof withReadings>[1]): typeof model {
  const board = loadBoard(JSON.parse(JSON.stringify(withReadings(model.description, readings))))
  if (!board.ok) throw new Error(JSON.stringify(board.faults))
  return board.value
}

describe('names kept with the board', () => {
  const knowing = boardThatKeeps([readingOf('night walk', report(3), { names })])
  test('are used for the next report that looks so, which is then surely read', async () => {
    const { sure, tally, guess } = await mustRead(report(5), knowing)
    expect(sure).toBe('sure')
    expect(tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.errors])).toEqual([
      ['U18', 1432],
    ])
    expect(guess?.kept.map(({ title }) => title)).toEqual(['night walk'])
    expect(guess?.names).toEqual(names)
  })
  test('are not used for a report of another look, whose C3 may be another package', async () => {
    const other = Array.from({ length: 8 }, (_, i) => `Unit C${i} low half -> ${i === 3 ? 12 : 0} bad words`).join('\n')
    const guess = await previewReport(pieces(utf8(other)), { model: knowing })
    expect(guess.ok && guess.value.sure).not.toBe('sure')
    expect(guess.ok && guess.value.names).toEqual({})
  })
  test('are faults of the board where they mean nothing on it', () => {
    const [reading] = keptReadings(knowing.description)
    if (reading === undefined) throw new Error('nothing kept')
    const board = loadBoard(withReadings(model.description, [{ ...reading, names: { 'C3 low': 'CH99' } }]))
    expect(board.ok ? [] : board.faults.map(({ path }) => path)).toEqual(['$.reportWords[0].names["C3 low"]'])
  })
  test('leave the board as it was when they are taken out', () => {
    expect(withReadings(knowing.description, [])).toEqual(model.description)
  })
})

const byHand: Recipe = recipeSchema.parse({
  name: 'the second number counts',
  layout: { kind: 'spaced' },
  columns: [
    { role: 'part', at: 0 },
    { role: 'count', at: 2 },
  ],
})

describe('a recipe that was put right by hand', () => {
  const rows = (bad: string): string =>
    `tally of the evening run\n${model.memories.map(({ ref }, i) => `${ref} 812 ${ref === bad ? 9 : 0} ${[5, 2, 9, 1, 7, 3, 8, 4][i]}`).join('\n')}\n`
  const kept = readingOf('evening', rows('U12'), { recipe: byHand })
  test('is proposed for the next report that looks so, and not taken by itself', async () => {
    const { guess, sure } = await mustRead(rows('U14'), boardThatKeeps([kept]))
    expect(sure).not.toBe('sure')
    expect(guess?.kept[0]?.recipe).toEqual(byHand)
  })
  test('is taken where somebody hands it over', async () => {
    const { sure, tally } = await mustRead(rows('U14'), model, { kept: [kept] })
    expect(sure).toBe('sure')
    expect(tally.parts.filter((part) => part.errors > 0).map(({ ref, errors }) => [ref, errors])).toEqual([['U14', 9]])
  })
  test('takes the place of the one before for the same kind of report, and keeps its names', () => {
    const before = readingOf('first', rows('U11'), { names: { X1: 'U11' } })
    const both = keepReading(keepReading([], before), kept)
    expect(both).toHaveLength(1)
    expect(both[0]).toMatchObject({ title: 'evening', names: { X1: 'U11' }, recipe: byHand })
    expect(keepReading(both, readingOf('night', report(3), { names }))).toHaveLength(2)
  })
})

describe('the small file', () => {
  const kept = [readingOf('night walk', report(3), { names })]
  test('carries readings to another desk', () => {
    const file = readWordsFile(writeWordsFile(kept, model.name), model)
    expect(file.ok && file.value.readings).toEqual(kept)
  })
  test('may be bare names, which then serve any report', async () => {
    const file = readWordsFile(JSON.stringify(names), model)
    if (!file.ok) throw new Error(JSON.stringify(file.faults))
    const read = await readReport(pieces(utf8(report(3))), { model, kept: file.value.readings })
    expect(read.ok && read.value.sure).toBe('sure')
  })
  test('of another board is refused, name by name', () => {
    const file = readWordsFile(writeWordsFile(kept, model.name), shippedBoard('splice-6'))
    expect(file.ok ? 0 : file.faults.length).toBe(10)
  })
})
