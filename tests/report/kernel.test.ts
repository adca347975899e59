/** The byte kernel and the plain reader give the same for any text, recipe and cut into pieces; and nothing is lost. */
import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { type Recipe, recipeSchema } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { linesAddUp, mustRead, utf8 } from './support.ts'

const model = shippedBoard('hitch-12')
const FIXED = { seed: 20, numRuns: 120 }

const number = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 0, max: 0x7fffffff }).map((n) => `0x${n.toString(16).padStart(8, '0')}`) },
  fc.bigInt({ min: 0n, max: (1n << 64n) - 1n }).map((n) => `0x${n.toString(16)}`),
  fc.bigInt({ min: 0n, max: (1n << 68n) - 1n }).map((n) => n.toString(16).toUpperCase()),
  fc.bigInt({ min: 0n, max: (1n << 66n) - 1n }).map(String),
  { weight: 2, arbitrary: fc.nat().map(String) },
  fc.constantFrom(
    '',
    ' ',
    '0x',
    '0',
    'zz',
    '12h',
    '1_000',
    '(0x10)',
    '[ff]',
    '0x1:',
    '"7"',
    "'8'",
    '-1',
    '1.5',
    '\u001b[31m0x1\u001b[0m',
    'é',
    '\u0000',
    '1e5',
  ),
)
const separator = fc.constantFrom(',', ',', ',', ' ', '  ', '\t', ';', ' , ', '|')
const row = fc.array(fc.tuple(number, separator), { minLength: 1, maxLength: 5 }).map((cells) => cells.flat().join(''))
const line = fc.oneof(
  { weight: 5, arbitrary: row },
  fc.string({ maxLength: 20 }),
  fc.constantFrom('# a note', 'skip me 1,2,3'),
)
const lineBreak = fc.oneof({ weight: 5, arbitrary: fc.constant('\n') }, fc.constantFrom('\r\n', '\r', '\n\n'))
const runOfAlike = fc
  .tuple(fc.integer({ min: 0, max: 0xffff }), fc.integer({ min: 1, max: 40 }), fc.constantFrom('\n', '\r\n', '\r'))
  .map(([from, rows, end]) =>
    Array.from(
      { length: rows },
      (_, i) =>
        `0x${(from * 16 + 4 * i).toString(16).padStart(9, '0')},0x00ff00ff,0x${(i * 77).toString(16).padStart(8, '0')}${end}`,
    ).join(''),
  )
const text = fc
  .array(
    fc.oneof(
      fc.tuple(line, lineBreak).map((pair) => pair.join('')),
      runOfAlike,
    ),
    { maxLength: 30 },
  )
  .map((parts) => parts.join(''))

const base = fc.constantFrom('auto', 'hex', 'decimal')
const layout = fc.constantFrom(
  { kind: 'delimited', delimiter: ',' },
  { kind: 'delimited', delimiter: ',', quote: '"' },
  { kind: 'delimited', delimiter: '\t' },
  { kind: 'delimited', delimiter: ';', quote: "'" },
  { kind: 'delimited', delimiter: ' ' },
  { kind: 'delimited', delimiter: ':' },
  { kind: 'spaced' },
)
const roleSets = fc.constantFrom(
  ['address', 'expected', 'actual'],
  ['address', 'difference'],
  ['address', 'ignore', 'expected', 'difference'],
  ['actual', 'difference', 'address'],
  ['ignore', 'address', 'difference', 'count'],
  ['address'],
)
const recipe: fc.Arbitrary<Recipe> = fc
  .record({ layout, roles: roleSets, base, unit: fc.constantFrom(1, 1, 4), skip: fc.constantFrom([], ['skip']) })
  .map(({ layout: kind, roles, base: numberBase, unit, skip }) =>
    recipeSchema.parse({
      name: 'any',
      layout: kind,
      columns: roles.map((role, at) => ({ role, at, base: numberBase })),
      skipLinesWith: skip,
      addressUnitBytes: unit,
    }),
  )

describe('for any text and recipe', () => {
  test.prop([text, recipe, fc.integer({ min: 1, max: 200 })], FIXED)(
    'kernel and plain reader agree',
    async (content, how, pieceBytes) => {
      const fast = await mustRead(content, model, { recipe: how, pieceBytes: 1 << 20 })
      const plain = await mustRead(content, model, { recipe: how, pieceBytes, fast: false })
      expect(fast.tally).toEqual(plain.tally)
      expect(fast.lines).toBe(plain.lines)
    },
  )
  test.prop([text, recipe, fc.integer({ min: 1, max: 200 })], FIXED)(
    'how the bytes are cut does not matter',
    async (content, how, pieceBytes) => {
      const whole = await mustRead(content, model, { recipe: how, pieceBytes: 1 << 20 })
      const cut = await mustRead(content, model, { recipe: how, pieceBytes })
      expect(cut.tally).toEqual(whole.tally)
    },
  )
  test.prop([text, recipe], FIXED)('every line is read, unreadable, unmapped or skipped', async (content, how) => {
    const report = await mustRead(content, model, { recipe: how })
    expect(linesAddUp(report)).toBe(true)
    expect(report.lines).toBe(countLines(content))
  })
  test.prop([fc.uint8Array({ maxLength: 3000 }), recipe], FIXED)('arbitrary bytes do no harm', async (bytes, how) => {
    const report = await mustRead(bytes, model, { recipe: how, pieceBytes: 100 })
    expect(linesAddUp(report)).toBe(true)
  })
})

/** Lines of a text, the last without a break included. */
function countLines(content: string): number {
  const bytes = utf8(content)
  if (bytes.length === 0) return 0
  const parts = content.split(/\r\n|\n|\r/)
  return parts.at(-1) === '' ? parts.length - 1 : parts.length
}
