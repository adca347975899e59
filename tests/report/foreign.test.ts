/** Reports with names of their own for packages and halves: asked about, and read once it is said what they mean. */
import { describe, expect, test } from 'vitest'
import {
  fillNames,
  lanesOfMeaning,
  laneStates,
  meaningOfLanes,
  nameConflicts,
  namePatterns,
  recipeWithNames,
  sayMeaning,
  sharesOf,
} from '../../src/report/index.ts'
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
      { name: 'C3 low', proposal: 'CH6', errors: 1432, line: 7 },
      { name: 'C3 high', proposal: 'CH7', errors: 0, line: 8 },
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
  expect(guess.ok && guess.value.foreign[3]).toMatchObject({ name: 'chip 4', proposal: 'U14' })
})

test('a name that ends in a number keeps it where a word says how the test went', async () => {
  const lines = ['bank 1 low FAIL', 'bank 1 high PASS', 'bank 5 low PASS', 'bank 5 high PASS', 'bank 7 PASS']
  const guess = await previewReport(pieces(utf8(lines.join('\n'))), { model })
  if (!guess.ok) throw new Error('it could not be looked at')
  expect(guess.value.sure).not.toBe('sure')
  expect(guess.value.foreign.map(({ name, errors }) => [name, errors])).toEqual([
    ['bank 1 low', undefined],
    ['bank 1 high', 0],
    ['bank 5 low', 0],
    ['bank 5 high', 0],
    ['bank 7', 0],
  ])
  const counted = await previewReport(pieces(utf8('bank 1 12 FAIL\nbank 2 0 PASS\nbank 5 3 FAIL\n')), { model })
  expect(counted.ok && counted.value.foreign.map(({ name, errors }) => [name, errors])).toEqual([
    ['bank 1', 12],
    ['bank 2', 0],
    ['bank 5', 3],
  ])
})

test('lines that say passed and lines of progress are no foreign names', async () => {
  const guess = await previewReport(pieces(utf8('Pass 1 of 4: no errors\nPass 2 of 4: no errors\n')), { model })
  expect(guess.ok && guess.value.foreign).toEqual([])
})

test('a single line with a name that is not the board’s is never surely read', async () => {
  for (const name of ['bowline-8', 'cleat-10', 'hitch-12', 'sheet-bend-16', 'splice-6']) {
    const guess = await previewReport(pieces(utf8('C3 low: 1432 errors\n')), { model: shippedBoard(name) })
    expect(guess.ok && guess.value.sure).not.toBe('sure')
    expect(guess.ok && guess.value.foreign.map((one) => one.name)).toEqual(['C3 low'])
  }
})

describe('patterns behind names', () => {
  const chips = Array.from({ length: 8 }, (_, i) => `chip ${i}`)
  const titles = (placed: Record<string, string>): string[] =>
    namePatterns(chips, model, placed).map(({ title }) => title)
  test('go by refs, by channels and round the core both ways, each package once', () => {
    const all = namePatterns(chips, model)
    for (const { names } of all) expect(new Set(Object.values(names)).size).toBe(8)
    expect(titles({})).toContain('clockwise from U13, counted from 0')
    expect(titles({})).toContain('counter-clockwise from U11, counted from 0')
  })
  test('follow from two that the user placed: U13 stands clockwise behind U12, U11 does not', () => {
    expect(titles({ 'chip 0': 'U12', 'chip 1': 'U13' })).toEqual(['clockwise from U12, counted from 0'])
    expect(fillNames(chips, model, { 'chip 0': 'U12', 'chip 1': 'U11' })?.names).toMatchObject({
      'chip 2': 'U18',
      'chip 7': 'U13',
    })
  })
  test('are none where what was placed fits no order', () => {
    expect(fillNames(chips, model, { 'chip 0': 'U12', 'chip 1': 'U16' })).toBeUndefined()
  })
  test('give halves of a package with one channel by their lanes', () => {
    const halved = shippedBoard('splice-6')
    const names = Array.from({ length: 6 }, (_, i) => [`bank ${i} low`, `bank ${i} high`]).flat()
    expect(fillNames(names, halved, { 'bank 2 low': ['U13.B0', 'U13.B1'] })?.names['bank 2 high']).toEqual([
      'U13.B2',
      'U13.B3',
    ])
  })
  test('may count two names a package, and turn halves round', () => {
    const names = Array.from({ length: 16 }, (_, i) => `M${i}`)
    expect(fillNames(names, model, { M2: 'CH2', M3: 'CH3' })?.title).toContain('two per package')
    expect(fillNames(['P1 S0', 'P1 S1'], model, { 'P1 S0': 'CH3' })?.names).toMatchObject({ 'P1 S1': 'CH2' })
  })
  test('take L and H beside each other for low and high', () => {
    const names = Array.from({ length: 8 }, (_, i) => [`M${i},L`, `M${i},H`]).flat()
    expect(namePatterns(names, model)[0]?.names).toMatchObject({ 'M0,L': 'CH0', 'M0,H': 'CH1', 'M7,H': 'CH15' })
  })
})

describe('meanings', () => {
  test('are the coarsest thing that the lanes are, and are told in words', () => {
    expect(meaningOfLanes(model, lanesOfMeaning(model, 'CH6'))).toBe('CH6')
    expect(meaningOfLanes(model, ['U14.A0', 'U14.B0'])).toEqual(['U14.A0', 'U14.B0'])
    expect(sayMeaning(model, 'CH6')).toBe('CH6: half of U14 (A0, A1)')
    expect(sharesOf(model, 'U14').map(({ meaning }) => meaning)).toEqual([
      'U14',
      'CH6',
      'CH7',
      'U14.A0',
      'U14.A1',
      'U14.B0',
      'U14.B1',
    ])
  })
  test('conflict where two names share lanes, or a name is the board’s own for something else', () => {
    const sentences = nameConflicts({ C1: 'U11', C2: 'U11', U12: 'U13', X: 'U99' }, model).map(
      ({ sentence }) => sentence,
    )
    expect(sentences).toEqual([
      'U12 is to mean U13, but bowline-8 has a U12 of its own.',
      'X is to mean U99, which bowline-8 does not have.',
      'C1 and C2 both mean U11.',
    ])
    expect(nameConflicts({ C1: 'U11', 'C1 low': 'CH0' }, model)).toEqual([])
  })
})

describe('half a package with one channel', () => {
  const halved = shippedBoard('splice-6')
  const names = { 'bank 2 low': ['U13.B0', 'U13.B1'], 'bank 2 high': ['U13.B2', 'U13.B3'] }
  test('puts its lanes in doubt, clears those of the other half, and leaves the rest untested', async () => {
    const text = 'bank 2 low: 77 errors\nbank 2 high: 0 errors\n'
    const { tally, sure } = await mustRead(text, halved, { names })
    expect(sure).toBe('sure')
    const states = laneStates(tally)
    expect(['U13.B0', 'U13.B1', 'U13.B2', 'U13.B3', 'U11.B0'].map((id) => states.get(id))).toEqual([
      'fail',
      'fail',
      'pass',
      'pass',
      'untested',
    ])
    expect(tally.parts.map(({ errors }) => errors)).toEqual([0, 0, 77, 0, 0, 0])
  })
})

test('a name whose words stand in two columns is read once it is told', async () => {
  const lines = Array.from({ length: 8 }, (_, i) => [`M${i},L,${i === 2 ? 5 : 0}`, `M${i},H,0`]).flat()
  const text = `device,half,count\n${lines.join('\n')}\n`
  const names = Object.fromEntries(
    Array.from({ length: 8 }, (_, i) => [
      [`M${i},L`, `CH${2 * i}`],
      [`M${i},H`, `CH${2 * i + 1}`],
    ]).flat(),
  )
  const read = await mustRead(text, model, { names })
  expect(read.sure).toBe('sure')
  expect(read.tally.parts.filter(({ errors }) => errors > 0).map(({ ref }) => ref)).toEqual(['U13'])
})

test('a name that was told beats what its number would be on the board', async () => {
  const board = shippedBoard('cleat-10')
  const text = Array.from({ length: 10 }, (_, i) => `chip ${i + 1}: ${i === 3 ? 12 : 0} errors`).join('\n')
  const told = namePatterns(
    Array.from({ length: 10 }, (_, i) => `chip ${i + 1}`),
    board,
    { 'chip 1': 'U12', 'chip 2': 'U13' },
  )
  const { tally, sure } = await mustRead(text, board, { names: told[0]?.names })
  expect(sure).toBe('sure')
  expect(tally.parts.filter((part) => part.errors > 0).map(({ ref }) => ref)).toEqual(['U15'])
})

describe('a bit mask over packages', () => {
  const text = 'Sweep 1 of 3\nFail mask: 0x14\nSweep 2 of 3\nFail mask: 0x10\nSweep 3 of 3\nFail mask: 0x00\n'
  test('is asked about, a name for each bit', async () => {
    const guess = await previewReport(pieces(utf8(text)), { model })
    if (!guess.ok) throw new Error('it could not be looked at')
    expect(guess.value.sure).not.toBe('sure')
    expect(guess.value.foreign.map(({ name, errors }) => `${name}: ${errors}`)).toEqual([
      'bit 0: 0',
      'bit 1: 0',
      'bit 2: 1',
      'bit 3: 0',
      'bit 4: 2',
      'bit 5: 0',
      'bit 6: 0',
      'bit 7: 0',
    ])
  })
  test('is read once it is told which package each bit is of: others passed', async () => {
    const names = fillNames(
      Array.from({ length: 8 }, (_, i) => `bit ${i}`),
      model,
      { 'bit 0': 'U12', 'bit 1': 'U13' },
    )?.names
    const { tally, sure } = await mustRead(text, model, { names })
    expect(sure).toBe('sure')
    expect(tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.errors])).toEqual([
      ['U14', 1],
      ['U16', 2],
    ])
    expect(laneStates(tally).get('U11.A0')).toBe('pass')
  })
  test('with a bit that nobody gave a package is not read', async () => {
    const { tally } = await mustRead(text, model, { names: { 'bit 0': 'U11', 'bit 2': 'U13' } })
    expect(tally.rows).toMatchObject({ unreadable: 2 })
  })
})
