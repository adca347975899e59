/** Bad input: a clear word, right counts, no hang. */
import { describe, expect, test } from 'vitest'
import { type ReadReport, readReport } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { addressesIn, csv, faultsOf, linesAddUp, mustRead, pieces, read, utf8, type WordRow } from './support.ts'

const model = shippedBoard('hitch-12')
const rows: WordRow[] = addressesIn(model, ['CH4'], 50, 0x100000n).map((address) => ({
  address,
  expected: 0n,
  actual: 0x80n,
}))
const recipe = {
  name: 'words',
  layout: { kind: 'delimited' as const, delimiter: ',' },
  columns: (['address', 'expected', 'actual'] as const).map((role, at) => ({ role, at, base: 'hex' as const })),
  skipLinesWith: [],
  addressUnitBytes: 1,
}
const MEGABYTE = 1 << 20

describe('rows that are not right', () => {
  test('a broken row is counted and shown with its line and why', async () => {
    const text = csv(rows).split('\n')
    text[10] = '0x00100000,0xZZ,0x0'
    text[20] = '0x00100000,0x1'
    const report = await mustRead(text.join('\n'), model)
    expect(report.tally.rows).toEqual({ read: 48, unreadable: 2, unmapped: 0, skipped: 1 })
    expect(report.tally.troubles).toEqual([
      { line: 11, text: '0x00100000,0xZZ,0x0', why: 'expected "0xZZ" is no number of 64 bits' },
      { line: 21, text: '0x00100000,0x1', why: 'no actual where the recipe looks for it' },
    ])
  })
  test('a broken first row is no banner', async () => {
    const report = await mustRead(`0x00100000,0xZZ,0x0\n${csv(rows).split('\n').slice(1).join('\n')}`, model, {
      recipe,
    })
    expect(report.tally.rows).toMatchObject({ read: 50, unreadable: 1, skipped: 0 })
  })
  test('a last line cut within a number is not read as a smaller number', async () => {
    const cut = csv(rows).slice(0, -4)
    const report = await mustRead(cut, model)
    expect(report.tally.rows).toMatchObject({ read: 49, unreadable: 1 })
    expect(report.tally.troubles[0]).toMatchObject({ line: 51, why: expect.stringContaining('ends in the middle') })
  })
  test('a last line cut before a cell is unreadable', async () => {
    const report = await mustRead(csv(rows).slice(0, -13), model)
    expect(report.tally.rows).toMatchObject({ read: 49, unreadable: 1 })
  })
  test('a complete last line without a line break is read', async () => {
    expect((await mustRead(csv(rows).trimEnd(), model)).tally.rows).toMatchObject({ read: 50, unreadable: 0 })
  })
  test('a last count of none without a line break is whole, a shorter one may be cut', async () => {
    const counts = model.memories.map(({ ref }, i) => `${ref}: ${i % 3 === 0 ? 1432 : 118}`).slice(0, -1)
    const last = model.memories.at(-1)?.ref ?? ''
    const whole = await mustRead([...counts, `${last}: 0`].join('\n'), model)
    expect(whole.isWhole).toBe(true)
    expect(whole.tally.rows.unreadable).toBe(0)
    const cut = await mustRead([...counts, `${last}: 1`].join('\n'), model)
    expect(cut.isWhole).toBe(false)
  })
  test('addresses beyond the memory are unmapped, with their lines; the first 50 are shown', async () => {
    const far = Array.from({ length: 80 }, (_, i) => ({
      address: 0x6_0000_0000n + BigInt(i * 4),
      expected: 0n,
      actual: 1n,
    }))
    const report = await mustRead(csv([...rows, ...far, ...rows, ...rows]), model, { pieceBytes: 300 })
    expect(report.tally.rows).toMatchObject({ read: 150, unmapped: 80 })
    expect(report.tally.troubles).toHaveLength(50)
    expect(report.tally.troubles[7]).toEqual({
      line: 59,
      text: '0x60000001c,0x00000000,0x00000001',
      why: 'address 0x60000001c is beyond the board’s memory',
    })
    expect(report.remarks).toEqual([])
  })
  test('a report of another board says so', async () => {
    const far = rows.map((row) => ({ ...row, address: row.address + 0x7_0000_0000n }))
    const report = await mustRead(csv(far), model)
    expect(report.tally.rows).toMatchObject({ read: 0, unmapped: 50 })
    expect(report.remarks[0]?.expected).toContain('another board')
    expect(
      report.tally.parts.every((part) =>
        part.channels.every((channel) => channel.lanes.every((lane) => lane.state === 'untested')),
      ),
    ).toBe(true)
  })
})

describe('files that are no report', () => {
  test.each([
    ['nothing', ''],
    ['blank lines', '\n\n \n'],
    ['prose', 'The quick brown fox\njumps over the lazy dog.\n'],
    ['zeros', '\0'.repeat(10_000)],
  ])('%s: a fault that says what to do', async (_, text) => {
    const result = await read(text, model)
    expect(faultsOf(result)[0]?.todo).toMatch(/recipe|table/)
  })
  test('a recipe that does not hold together is refused with all that is wrong', async () => {
    const columns = [
      { role: 'expected' as const, at: 0, base: 'hex' as const },
      { role: 'expected' as const, at: 'x', base: 'hex' as const },
    ]
    const result = await read('1,2\n', model, { recipe: { ...recipe, columns } })
    expect(result.ok ? [] : result.faults.map((fault) => fault.expected)).toHaveLength(4)
  })
  test('addresses on a board without an address map', async () => {
    const { addressMap: _, ...rest } = model
    const result = await readReport(pieces(utf8(csv(rows))), { model: { ...rest, addressMap: undefined }, recipe })
    expect(result).toMatchObject({
      ok: false,
      faults: [{ path: 'report', found: `addresses, and ${model.name} has no address map` }],
    })
  })
  test('a source that breaks off before a row', async () => {
    async function* goneAtOnce(): AsyncGenerator<Uint8Array> {
      yield utf8('address,expected,actual\n')
      throw new Error('the disk is gone')
    }
    const result = await readReport(goneAtOnce(), { model })
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'the disk is gone' }] })
  })
})

describe('a report that breaks off', () => {
  const untested = (report: ReadReport): boolean =>
    report.tally.parts.every((part) =>
      part.channels.every((channel) => channel.lanes.every((lane) => lane.state !== 'pass')),
    )
  test('is kept as incomplete where the source goes after some rows, and what it does not list stays untested', async () => {
    const report = await readReport(broken(), { model, recipe })
    if (!report.ok) throw new Error(JSON.stringify(report.faults))
    expect(report.value.isWhole).toBe(false)
    expect(report.value.tally.rows.read).toBe(50)
    expect(untested(report.value)).toBe(true)
    expect(report.value.remarks.map(({ found }) => found)).toEqual(['a report that breaks off (the disk is gone)'])
  })
  test('is told with both sizes where the file got shorter while it was read', async () => {
    const text = csv(rows)
    const report = await mustRead(text, model, { sizeBytes: 2 * text.length })
    expect(report.isWhole).toBe(false)
    expect(untested(report)).toBe(true)
    expect(report.remarks[0]?.found).toMatch(/: [\d,]+ of its [\d,]+ bytes could be read/)
  })
  test('is whole where all bytes were read and the last line is', async () => {
    const text = csv(rows)
    const report = await mustRead(text, model, { sizeBytes: text.length })
    expect([report.isWhole, untested(report), report.remarks]).toEqual([true, false, []])
  })
  test('a byte order mark counts as read', async () => {
    const bytes = utf8(`\u{feff}${csv(rows)}`)
    const report = await mustRead(bytes, model, { recipe, sizeBytes: bytes.length })
    expect(report.isWhole).toBe(true)
  })
})

describe('large and strange files', () => {
  test.each([
    ['50 MB of brackets in one line', '['.repeat(MEGABYTE), 50],
    ['50 MB of digits in one line', '1'.repeat(MEGABYTE), 50],
    ['10 MB of brackets, one a line', '[\n'.repeat(MEGABYTE / 2), 10],
    ['50 MB of commas', ','.repeat(MEGABYTE), 50],
    ['50 MB of zeros', '\0'.repeat(MEGABYTE), 50],
  ] as const)('%s: no hang, nothing lost', async (_, text, megabytes) => {
    const guessed = await readReport(repeated(utf8(text), megabytes), { model })
    expect(guessed.ok).toBe(false)
    const forced = await readReport(repeated(utf8(text), megabytes), { model, recipe })
    expect(forced.ok && linesAddUp(forced.value)).toBe(true)
    expect(forced.ok && forced.value.lines).toBe(text.includes('\n') ? (megabytes * MEGABYTE) / 2 : 1)
  })
  test('an array of JSON of 2 MB in one line is read', async () => {
    const object = JSON.stringify({ address: '0x00100000', expected: '0x0', actual: '0x1' })
    const report = await mustRead(`[${Array.from({ length: 40_000 }, () => object).join(',')}]`, model, {
      pieceBytes: 65_536,
    })
    expect(report.tally.rows).toMatchObject({ read: 40_000, unreadable: 0 })
  })
  test('rows after a line of 3 MB are read', async () => {
    const report = await mustRead(`${'x'.repeat(3 * MEGABYTE)}\n${csv(rows)}`, model, { recipe, pieceBytes: 70_000 })
    expect(report.tally.rows).toMatchObject({ read: 50, unreadable: 1, skipped: 1 })
    expect(report.tally.troubles[0]?.why).toContain('longer than')
  })
})

describe('cancelling', () => {
  test('ends with a clear word, even if the source hangs', async () => {
    const controller = new AbortController()
    setTimeout(() => controller.abort(), 20)
    const result = await readReport(hanging(), { model, recipe, signal: controller.signal })
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'cancelled' }] })
  })
  test('before the start', async () => {
    const result = await readReport(pieces(utf8(csv(rows))), { model, signal: AbortSignal.abort() })
    expect(result).toMatchObject({ ok: false, faults: [{ found: 'cancelled' }] })
  })
  test('progress counts all bytes', async () => {
    const seen: number[] = []
    const bytes = utf8(csv(rows))
    await mustRead(bytes, model, { onProgress: (done) => seen.push(done), pieceBytes: 500 })
    expect(seen.at(-1)).toBe(bytes.length)
    expect(seen).toEqual([...seen].toSorted((a, b) => a - b))
  })
})

async function* broken(): AsyncGenerator<Uint8Array> {
  yield utf8(csv(rows))
  throw new Error('the disk is gone')
}

async function* repeated(piece: Uint8Array, times: number): AsyncGenerator<Uint8Array> {
  for (let i = 0; i < times; i++) yield piece
}

async function* hanging(): AsyncGenerator<Uint8Array> {
  yield utf8(csv(rows))
  await new Promise(() => undefined)
}
