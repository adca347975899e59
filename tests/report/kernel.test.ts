/** The byte kernel and the plain reader give the same for any text, recipe and cut into pieces; and nothing is lost. */
import { fc, test } from '@fast-check/vitest'
import { afterEach, describe, expect, vi } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
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

const ROWS = 7000

/** Thousands of rows alike, some of them spoilt, so that a loop of their own is compiled and has to stop. */
function longRun(shape: LongRun): string {
  const random = seededRandom(shape.seed)
  const word = (digits: number): string => {
    const plain = Array.from({ length: digits }, () => random.whole(16).toString(16)).join('')
    return `${shape.prefix}${shape.upper ? plain.toUpperCase() : plain}`
  }
  const address = (i: number): string =>
    `${shape.prefix}${(0x1000 + 4 * i).toString(16).padStart(shape.addressDigits, '0')}`
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const cells = [address(i), word(shape.digits), word(shape.digits), word(shape.digits)].slice(0, shape.cells)
    return `${shape.lead}${cells.join(shape.separator)}${shape.tail}`
  })
  rows[5000] = rows[5000]?.replace(/[0-9a-f](?=\D*$)/i, 'g') ?? ''
  rows[5500] = `${rows[5500]} and more`
  rows[6000] = 'a remark'
  rows[6500] = rows[6500]?.replace(shape.separator, '|') ?? ''
  return rows.join(shape.lineBreak) + shape.lineBreak
}

interface LongRun {
  readonly seed: number
  readonly prefix: string
  readonly upper: boolean
  readonly addressDigits: number
  readonly digits: number
  readonly cells: number
  readonly separator: string
  readonly lead: string
  readonly tail: string
  readonly lineBreak: string
}

const plainRun: LongRun = {
  seed: 1,
  prefix: '0x',
  upper: false,
  addressDigits: 10,
  digits: 8,
  cells: 3,
  separator: ',',
  lead: '',
  tail: '',
  lineBreak: '\n',
}
const PAIR = ['address', 'expected', 'actual']

describe('for long runs of rows alike', () => {
  test.each<[string, Partial<LongRun>, readonly string[]]>([
    ['a pair of 8 digits', {}, PAIR],
    ['a pair of 16 digits, in capitals, with CR LF', { digits: 16, upper: true, lineBreak: '\r\n' }, PAIR],
    ['words of 3 digits without 0x', { digits: 3, prefix: '', addressDigits: 9, separator: ', ' }, PAIR],
    ['an address of 16 digits and a difference', { addressDigits: 16, cells: 2 }, ['address', 'difference']],
    ['expected and difference', { digits: 7, tail: ', end' }, ['address', 'expected', 'difference']],
    [
      'actual and difference behind a lead',
      { lead: '  [', tail: ']', digits: 11 },
      ['address', 'actual', 'difference'],
    ],
    ['a cell that is not used', { cells: 4 }, ['address', 'ignore', 'expected', 'actual']],
    ['an address alone', { cells: 1, addressDigits: 7 }, ['address']],
  ])('%s: kernel and plain reader agree, however the bytes are cut', async (_, changes, roles) => {
    const content = longRun({ ...plainRun, ...changes })
    const how = recipeSchema.parse({
      name: 'alike',
      layout: { kind: 'delimited', delimiter: ',' },
      columns: roles.map((role, at) => ({ role, at, base: 'hex' })),
    })
    const plain = await mustRead(content, model, { recipe: how, fast: false })
    expect(plain.tally.rows.read).toBeGreaterThan(ROWS - 10)
    for (const [pieceBytes, mayCompile] of [
      [1 << 22, true],
      [70_001, true],
      [1 << 22, false],
    ] as const) {
      const fast = await mustRead(content, model, { recipe: how, pieceBytes, mayCompile })
      expect(fast.tally).toEqual(plain.tally)
      expect(fast.lines).toBe(plain.lines)
    }
  })
})

describe('where a loop is compiled', () => {
  const content = longRun(plainRun)
  const how = recipeSchema.parse({
    name: 'alike',
    layout: { kind: 'delimited', delimiter: ',' },
    columns: PAIR.map((role, at) => ({ role, at, base: 'hex' })),
  })
  const rowBytes = content.indexOf('\n') + 1
  const offsets = Array.from({ length: rowBytes }, (_, i) => i)
  afterEach(() => vi.restoreAllMocks())

  test('rows are cut out of one another at any byte of them', async () => {
    const plain = await mustRead(content, model, { recipe: how, fast: false })
    for (const offset of offsets) {
      const pieceBytes = 4200 * rowBytes + offset
      const compiled = await mustRead(content, model, { recipe: how, pieceBytes, mayCompile: true })
      expect(compiled.tally).toEqual(plain.tally)
    }
  })
  test('rows beyond the memory are told, and rows without a difference tell of none', async () => {
    const lines = content.split('\n').map((own, i) => {
      const [address = '', expected = '', actual = ''] = own.split(',')
      if (i % 9 === 4) return `0x7${address.slice(3)},${expected},${actual}`
      return i % 9 === 7 ? `${address},${expected},${expected}` : own
    })
    const plain = await mustRead(lines.join('\n'), model, { recipe: how, fast: false })
    expect(plain.tally.rows.unmapped).toBeGreaterThan(700)
    const compiled = await mustRead(lines.join('\n'), model, { recipe: how, pieceBytes: 1 << 18, mayCompile: true })
    expect(compiled.tally).toEqual(plain.tally)
  })
  test('the report may break off at any byte of its last row', async () => {
    for (const offset of offsets) {
      const cut = content.slice(0, content.length - offset)
      const plain = await mustRead(cut, model, { recipe: how, fast: false })
      const compiled = await mustRead(cut, model, { recipe: how, pieceBytes: 1 << 18, mayCompile: true })
      expect(compiled.tally).toEqual(plain.tally)
      expect(compiled.isWhole).toBe(plain.isWhole)
    }
  })
  test('rows alike and the counting have a loop each, and none is compiled where nobody said so', async () => {
    const { Instance } = WebAssembly
    const running = vi.spyOn(WebAssembly, 'Instance').mockImplementation(function made(...given) {
      return new Instance(...given)
    })
    await mustRead(content, model, { recipe: how, pieceBytes: 1 << 18 })
    expect(running).not.toHaveBeenCalled()
    await mustRead(content, model, { recipe: how, pieceBytes: 1 << 18, mayCompile: true })
    expect(running).toHaveBeenCalledTimes(2)
  })
  test('where it can’t be run, the report reads the same', async () => {
    const plain = await mustRead(content, model, { recipe: how, fast: false })
    const running = vi.spyOn(WebAssembly, 'Instance').mockImplementation(function forbidden() {
      throw new WebAssembly.CompileError('forbidden by a policy')
    })
    const refused = await mustRead(content, model, { recipe: how, pieceBytes: 1 << 18, mayCompile: true })
    expect(running).toHaveBeenCalled()
    expect(refused.tally).toEqual(plain.tally)
  })
})

/** Lines of a text, the last without a break included. */
function countLines(content: string): number {
  const bytes = utf8(content)
  if (bytes.length === 0) return 0
  const parts = content.split(/\r\n|\n|\r/)
  return parts.at(-1) === '' ? parts.length - 1 : parts.length
}
