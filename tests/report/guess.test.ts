/** What the guess says of a report: the recipe, why, how sure, and what a person can correct. */
import { describe, expect, test } from 'vitest'
import { guessRecipe, previewReport, previewRows, recipeSchema } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { addressesIn, countsOf, csv, hex, mustRead, pieces, slowTally, utf8, type WordRow } from './support.ts'

const model = shippedBoard('hitch-12')
const addresses = addressesIn(model, ['CH4'], 40, 0x4000000n)
const roles = (text: string): Record<string, string | number> =>
  Object.fromEntries(guessRecipe(text, model).recipe.columns.map((column) => [column.role, column.at]))

/** Actual words are the expected ones with a bit or two turned over. */
const rows: WordRow[] = addresses.map((address, i) => {
  const expected = i % 2 === 0 ? 0x55555555n : 0xaaaaaaaan
  return { address, expected, actual: expected ^ (1n << BigInt(i % 31)) ^ 0x80000000n }
})

describe('without headings', () => {
  test('the expected word is told by its test patterns, wherever it stands', () => {
    const before = rows.map((r) => `${hex(r.address)} ${hex(r.expected)} ${hex(r.actual)}`).join('\n')
    const after = rows.map((r) => `${hex(r.address)} ${hex(r.actual)} ${hex(r.expected)}`).join('\n')
    expect(roles(before)).toMatchObject({ address: 0, expected: 1, actual: 2 })
    expect(roles(after)).toMatchObject({ address: 0, actual: 1, expected: 2 })
  })
  test('a guess by place alone says that it is not sure, and offers the other order', () => {
    const text = rows.map((r, i) => `${hex(r.address)} ${hex(7919 * (i + 1))} ${hex(7907 * (i + 2))}`).join('\n')
    const guess = guessRecipe(text, model)
    expect(guess.confidence).toBeLessThan(0.6)
    expect(guess.why.join(' ')).toMatch(/not sure/)
    const swapped = guess.alternatives[0]?.recipe.columns.find((column) => column.role === 'expected')
    expect(swapped?.at).toBe(2)
  })
  test('a column that is the XOR of two others is found', () => {
    const text = rows
      .map((r) => `${hex(r.address)} ${hex(r.expected)} ${hex(r.actual)} ${hex(r.expected ^ r.actual)}`)
      .join('\n')
    expect(roles(text)).toMatchObject({ address: 0, expected: 1, actual: 2, difference: 3 })
  })
})

describe('with headings', () => {
  test.each([
    ['addr,exp,act', { address: 0, expected: 1, actual: 2 }],
    ['Offset,Wrote,Read', { address: 0, expected: 1, actual: 2 }],
    ['LOCATION,got,pattern', { address: 0, actual: 1, expected: 2 }],
    ['Fail Address (hex),Expected Value,ReadBack', { address: 0, expected: 1, actual: 2 }],
    ['address,xor mask,errors', { address: 0, difference: 1, count: 2 }],
  ])('%s', (heading, wanted) => {
    const body = rows.map(
      (r) => `0x${hex(r.address)},0x${hex(r.expected)},${heading.includes('errors') ? 5 : `0x${hex(r.actual)}`}`,
    )
    const guess = guessRecipe(`${heading}\n${body.join('\n')}`, model)
    expect(roles(`${heading}\n${body.join('\n')}`)).toEqual(wanted)
    expect(guess.confidence).toBeGreaterThan(0.9)
  })
})

test('the first rows are shown as they are read, with their line numbers', () => {
  const guess = guessRecipe(`a banner\nanother line\n${csv(rows)}`, model)
  expect(guess.bannerLines).toBe(3)
  expect(guess.preview[0]).toEqual({
    line: 4,
    text: csv(rows).split('\n')[1],
    cells: [
      { role: 'address', text: `0x${hex(addresses[0] ?? 0n)}` },
      { role: 'expected', text: '0x55555555' },
      { role: 'actual', text: `0x${hex(rows[0]?.actual ?? 0n)}` },
    ],
    problem: undefined,
  })
})

test('a corrected recipe is used as it is, and shows what it reads', async () => {
  const { recipe } = guessRecipe(csv(rows), model)
  const columns = recipe.columns.map((column) =>
    column.role === 'expected' ? { ...column, at: 2 } : column.role === 'actual' ? { ...column, at: 1 } : column,
  )
  const corrected = recipeSchema.parse({ ...recipe, columns })
  const { tally } = await mustRead(csv(rows), model, { recipe: corrected })
  expect(countsOf(tally)).toEqual(
    slowTally(
      model,
      rows.map((r) => ({ ...r, expected: r.actual, actual: r.expected })),
    ),
  )
  const shown = await previewReport(pieces(utf8(csv(rows))), { model, recipe: corrected })
  expect(shown.ok && shown.value.preview[0]?.cells[1]).toEqual({
    role: 'expected',
    text: `0x${hex(rows[0]?.actual ?? 0n)}`,
  })
})

test('nothing that reads as rows gives confidence 0 and a blank recipe to start from', () => {
  for (const text of ['', '\n\n', 'hello\nworld', '{"a": [1, 2]}', '[[[[[[[['.repeat(1000)]) {
    const guess = guessRecipe(text, model)
    expect(guess.confidence).toBe(0)
    expect(recipeSchema.safeParse(guess.recipe).success).toBe(true)
  }
})

test('rows of another board lower the confidence', () => {
  const far = rows.map((r) => ({ ...r, address: r.address + 0x7_0000_0000n }))
  const guess = guessRecipe(csv(far), model)
  expect(guess.confidence).toBeLessThan(0.5)
  expect(guess.why.join(' ')).toMatch(/beyond the board/)
})

test('a line that the preview cannot read says why', () => {
  const [bad] = previewRows('0x10,0x1,zz\n', guessRecipe(csv(rows), model).recipe)
  expect(bad?.problem).toMatch(/actual "zz"/)
})

test.each(['-', '0.0 %'])(
  'a column of counts in which every third cell is %j, for none, counts errors',
  async (none) => {
    const { lanes } = model
    const counts = lanes.map((_, i) => (i % 3 === 0 ? none : String(7 * i)))
    const text = `lane,seen wrong\n${lanes.map(({ id }, i) => `${id},${counts[i] ?? ''}`).join('\n')}\n`
    const guess = await previewReport(pieces(utf8(text)), { model })
    expect(guess.ok && guess.value.recipe.columns).toMatchObject([
      { role: 'lane', at: 0 },
      { role: 'count', at: 1 },
    ])
  },
)
