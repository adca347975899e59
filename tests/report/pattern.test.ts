/** Recipes with a pattern written by a person. */
import { describe, expect, test } from 'vitest'
import { previewRows, recipeSchema } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { faultsOf, mustRead, read } from './support.ts'

const model = shippedBoard('hitch-12')
const recipe = (pattern: string, roles = ['address', 'expected', 'actual']) =>
  recipeSchema.parse({
    name: 'by hand',
    layout: { kind: 'pattern', pattern },
    columns: roles.map((role) => ({ role, at: role, base: 'hex' })),
  })

test('fields stand between fixed text, and a run of blanks is like one', async () => {
  const text =
    '12:01 cpu3>>MISCOMPARE   @<00001000>(want=ff got=fe)\nidle\n12:02 cpu1>>MISCOMPARE @<00002000>(want=00 got=80)\n'
  const report = await mustRead(text, model, {
    recipe: recipe('MISCOMPARE @<{address}>(want={expected} got={actual})'),
  })
  expect(report.tally.rows).toEqual({ read: 2, unreadable: 1, unmapped: 0, skipped: 0 })
  expect(report.tally.troubles[0]).toMatchObject({ line: 2, text: 'idle' })
})

test('a field named _ stands for text that is not used', () => {
  const [row] = previewRows('x at 0x10 by cpu 7: 0x1 0x2\n', recipe('at {address} by {_}: {expected} {actual}'))
  expect(row?.cells.map((cell) => cell.text)).toEqual(['0x10', '0x1', '0x2'])
})

describe('a pattern that does not hold together is refused with what to do', () => {
  test.each([
    ['{address}{expected} {actual}', 'two fields with nothing between'],
    ['at {address', 'a brace that is not closed'],
    ['at {addr ess}', 'the field {addr ess}'],
    ['{address} {address}', 'the field {address} twice'],
    ['no fields', 'no field in braces'],
    ['{address} {expected}', '"actual"'],
  ])('%s', async (pattern, found) => {
    const result = await read('0x10 1 2\n', model, { recipe: recipe(pattern) })
    expect(faultsOf(result)[0]?.found).toContain(found)
  })
})

test('no pattern and no line make it hang', async () => {
  const line = 'a'.repeat(200_000)
  const pattern = `${'a{_}'.repeat(50)}a {address} {expected} {actual}`
  // tried in every way that a plain search would try, these lines outlast everybody
  const { tally } = await mustRead(`${line}\n${line} 1 2\n`, model, { recipe: recipe(pattern) })
  expect(tally.rows.read).toBe(0)
})
