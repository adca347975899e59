/** The same rows, written in the ways in which tests write them, come to the same tally. */
import { describe, expect, test } from 'vitest'
import { shippedBoard } from '../support/read-board.ts'
import {
  addressesIn,
  countsOf,
  csv,
  hex,
  linesAddUp,
  mustRead,
  slowTally,
  utf16,
  utf8,
  type WordRow,
} from './support.ts'

const model = shippedBoard('hitch-12')
const PATTERNS = [0n, 0xffffffffn, 0x55555555n, 0xaaaaaaaan]
const rows: WordRow[] = addressesIn(model, ['CH4', 'CH9'], 60, 0x12345000n).map((address, i) => {
  const expected = PATTERNS[i % 4] ?? 0n
  return { address, expected, actual: expected ^ (1n << BigInt((i * 7) % 32)) ^ (i % 3 === 0 ? 0x80n : 0n) || 1n }
})
const truth = slowTally(model, rows)

const lines = (write: (row: WordRow, i: number) => string): string => `${rows.map(write).join('\n')}\n`
const [A, E, R] = [(r: WordRow) => hex(r.address), (r: WordRow) => hex(r.expected), (r: WordRow) => hex(r.actual)]
const X = (r: WordRow): string => hex(r.expected ^ r.actual)
const up = (text: string): string => text.toUpperCase()
const ESC = String.fromCharCode(27)

const texts: Record<string, string> = {
  'commas with headings': csv(rows),
  tabs: `Offset\tWrote\tRead\n${lines((r) => `${A(r)}\t${E(r)}\t${R(r)}`)}`,
  semicolons: `addr;pattern;got\n${lines((r) => `0x${A(r)};0x${E(r)};0x${R(r)}`)}`,
  'pipes with blanks': `| Address | Good | Bad |\n${lines((r) => `| 0x${A(r)} | 0x${E(r)} | 0x${R(r)} |`)}`,
  'blanks without headings': lines((r) => `${A(r)} ${E(r)} ${R(r)}`),
  'blanks with headings': `  Address     Expected   Actual\n${lines((r) => `  0x${A(r)}  0x${E(r)} 0x${R(r)}`)}`,
  'upper case, bare': `ADDRESS,EXPECTED,ACTUAL\n${lines((r) => up(`${A(r)},${E(r)},${R(r)}`))}`,
  'upper case, 0X': `address,expected,actual\n${lines((r) => `0X${up(A(r))},0X${up(E(r))},0X${up(R(r))}`)}`,
  decimal: `address,expected,actual\n${lines((r) => `${r.address},${r.expected},${r.actual}`)}`,
  'trailing h': `address,expected,actual\n${lines((r) => `${A(r)}h,${E(r)}h,${R(r)}h`)}`,
  'name=value': lines((r, i) => `#${i} addr=0x${A(r)} exp=0x${E(r)} got=0x${R(r)}`),
  'name: value with commas': lines((r) => `address: 0x${A(r)}, expected: 0x${E(r)}, actual: 0x${R(r)}`),
  'a sentence': lines((r) => `Error at 0x${A(r)}: wrote 0x${E(r)} read 0x${R(r)}`),
  'a sentence with a time': lines(
    (r, i) => `[12:00:${10 + (i % 50)}] ERROR at address 0x${A(r)}, expected ${E(r)}, read ${R(r)}.`,
  ),
  'columns in another order': `thread,actual,expected,time,address\n${lines((r, i) => `${i % 8},0x${R(r)},0x${E(r)},${i},0x${A(r)}`)}`,
  'with the XOR too': `address,expected,actual,xor\n${lines((r) => `0x${A(r)},0x${E(r)},0x${R(r)},0x${X(r)}`)}`,
  'expected and XOR': `address,expected,xor\n${lines((r) => `0x${A(r)},0x${E(r)},0x${X(r)}`)}`,
  'quoted cells': `"address","expected","actual"\n${lines((r) => `"0x${A(r)}","0x${E(r)}","0x${R(r)}"`)}`,
  'CR LF': csv(rows).replaceAll('\n', '\r\n'),
  'lone CR': csv(rows).replaceAll('\n', '\r'),
  'no line break at the end': csv(rows).trimEnd(),
  'colour codes': `address;expected;actual\n${lines((r) => `${ESC}[1;31m0x${A(r)}${ESC}[0m;0x${E(r)};${ESC}[32m0x${R(r)}${ESC}[m`)}`,
  'progress lines between the rows': lines(
    (r, i) => `${i % 10 === 0 ? `Pass ${i} of many, all is well\n` : ''}0x${A(r)},0x${E(r)},0x${R(r)}`,
  ),
  'headings repeated': lines(
    (r, i) => `${i % 20 === 0 ? 'address,expected,actual\n' : ''}0x${A(r)},0x${E(r)},0x${R(r)}`,
  ),
  '12,000 lines of banner': `${Array.from({ length: 12_000 }, (_, i) => `step ${i % 977} of the warm-up, ${i % 91} units at ${i % 13} points`).join('\n')}\n${csv(rows)}`,
}

describe.each(Object.entries(texts))('%s', (_, text) => {
  test('is read without being told how, to the bit', async () => {
    const report = await mustRead(text, model)
    expect(report.tally.rows).toMatchObject({ read: rows.length, unreadable: 0, unmapped: 0 })
    expect(countsOf(report.tally)).toEqual(truth)
    expect(linesAddUp(report)).toBe(true)
  })
  test('is read the same by the plain reader, in pieces of 7 bytes', async () => {
    const fast = await mustRead(text, model)
    const plain = await mustRead(text, model, { fast: false, pieceBytes: 7 })
    expect(plain.tally).toEqual(fast.tally)
    expect(plain.lines).toBe(fast.lines)
  })
})

describe('encodings', () => {
  const mark = '\uFEFF'
  test.each([
    ['UTF-8 with a mark', utf8(mark + csv(rows)), 'utf-8'],
    ['UTF-16 little end first with a mark', utf16(mark + csv(rows), 'little'), 'utf-16le'],
    ['UTF-16 big end first with a mark', utf16(mark + csv(rows), 'big'), 'utf-16be'],
    ['UTF-16 little end first without a mark', utf16(csv(rows), 'little'), 'utf-16le'],
    ['UTF-16 big end first without a mark', utf16(csv(rows), 'big'), 'utf-16be'],
  ])('%s is found out and read', async (_, bytes, encoding) => {
    for (const pieceBytes of [3, 64, 100_000]) {
      const report = await mustRead(bytes, model, { pieceBytes })
      expect(report.encoding).toBe(encoding)
      expect(countsOf(report.tally)).toEqual(truth)
    }
  })
})

describe('a difference without words', () => {
  test('counts bits without saying high or low', async () => {
    const text = `address,xor\n${lines((r) => `0x${A(r)},0x${X(r)}`)}`
    const { tally } = await mustRead(text, model)
    const lanes = tally.parts.flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
    const expectedBits = lanes.map((lane) =>
      lane.bits.map((_, bit) => (truth.high.get(`${lane.id}/${bit}`) ?? 0) + (truth.low.get(`${lane.id}/${bit}`) ?? 0)),
    )
    expect(lanes.map((lane) => lane.bits)).toEqual(expectedBits)
    expect(lanes.every((lane) => lane.high.every((count) => count === 0))).toBe(true)
    expect(tally.parts.every((part) => part.signature.stuck === undefined)).toBe(true)
  })
})
