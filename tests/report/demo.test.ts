/** The demo reports: a seeded walk of March C- over planted faults, made by a generator that knows nothing of this room. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { laneStates, readReport } from '../../src/report/index.ts'
import { shippedBoard } from '../support/read-board.ts'
import { mustRead } from './support.ts'

const demos = [
  { file: 'wept-fitting.report.txt', board: 'hitch-12', found: { U13: 'byte', U14: 'channel' } },
  { file: 'tired-rows.report.txt', board: 'bowline-8', found: { U14: 'cells' } },
  { file: 'slipped-tool.report.csv', board: 'splice-6', found: { U11: 'sparse', U16: 'sparse' } },
] as const

describe.each(demos)('$file', ({ file, board, found }) => {
  const text = readFileSync(`demo-data/${file}`, 'utf8')
  const truth: unknown = JSON.parse(readFileSync(`demo-data/${file.replace(/\.report\..*$/, '.truth.json')}`, 'utf8'))

  test('shows what was planted, and nothing else', async () => {
    const { tally, remarks } = await mustRead(text, shippedBoard(board))
    const kinds = tally.parts.filter((part) => part.errors > 0).map((part) => [part.ref, part.signature.kind])
    expect(Object.fromEntries(kinds)).toEqual(found)
    expect(truth).toMatchObject({ failingReads: tally.rows.read })
    expect(tally.rows).toMatchObject({ unreadable: 0, unmapped: 0 })
    expect(remarks).toEqual([])
  })
})

test('the byte that wept is stuck high, and its sibling passed', async () => {
  const { tally } = await mustRead(readFileSync('demo-data/wept-fitting.report.txt', 'utf8'), shippedBoard('hitch-12'))
  const part = tally.parts.find(({ ref }) => ref === 'U13')
  expect(part?.signature).toMatchObject({ where: 'U13.B1', stuck: 'high' })
  const states = laneStates(tally)
  expect([states.get('U13.B1'), states.get('U13.B0'), states.get('U13.A1')]).toEqual(['fail', 'pass', 'pass'])
})

/** Twelve passes without an error: the only line with numbers tells what the test went over. */
test.each(['cleat-10', 'hitch-12', 'bowline-8', 'splice-6', 'sheet-bend-16'])(
  'the clean run of a demo blames nothing on %s unless somebody says so',
  async (board) => {
    const text = readFileSync('demo-data/returned-card.third.report.txt', 'utf8')
    const read = await readReport(bytesOf(text), { model: shippedBoard(board) })
    if (!read.ok) return
    expect(read.value.believed?.parts.filter(({ errors }) => errors > 0) ?? []).toEqual([])
  },
)

test.each(['0x1f400 0xffffffff 0xfffeffff', 'covered 0x0 to 0x280000000 by 0x1000'])(
  'one row of which nothing names the columns is asked about: %s',
  async (line) => {
    const read = await readReport(bytesOf(`${line}\n`), { model: shippedBoard('hitch-12') })
    expect(read.ok && read.value.sure === 'sure').toBe(false)
  },
)

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}
