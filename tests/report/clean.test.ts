/** Reports of tests that found nothing: a text without a row is taken where it may be clean, and only said coverage passes lanes. */
import { expect, test } from 'vitest'
import { readFileSync } from 'node:fs'
import { readBoard } from '../../src/board/index.ts'
import { beginAlike, coverWhole, laneStates, readReport, tallyTable } from '../../src/report/index.ts'

const read = readBoard(readFileSync(new URL('../../boards/bowline-8.json', import.meta.url), 'utf8'))
if (!read.ok) throw new Error('the board of this test did not load')
const model = read.value

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

const clean = 'Memory walk finished\nPass 1 of 2: no errors\nPass 2 of 2: no errors\n'
const statesOf = (tally: Parameters<typeof laneStates>[0]) => new Set(laneStates(tally).values())

test('a text without a row is refused, unless it may be of a test that found nothing; then its lines are counted', async () => {
  expect(await readReport(bytesOf(clean), { model })).toMatchObject({ ok: false })
  const taken = await readReport(bytesOf(clean), { model, mayBeClean: true })
  if (!taken.ok) throw new Error(JSON.stringify(taken.faults))
  const { tally, remarks, lines } = taken.value
  expect(tally.rows).toEqual({ read: 0, unreadable: 0, unmapped: 0, skipped: 3 })
  expect(lines).toBe(3)
  expect(statesOf(tally)).toEqual(new Set(['untested']))
  expect(remarks[0]?.found).toBe('no line that reads as a row of errors')
})

test('an empty file says nothing, not even that all is well', async () => {
  for (const text of ['', ' \n\n']) {
    expect(await readReport(bytesOf(text), { model, mayBeClean: true })).toMatchObject({ ok: false })
  }
})

test('a text with rows is read the same whether it may be clean or not', async () => {
  const text = `lane,errors\n${model.lanes.map(({ id }, i) => `${id},${i % 3}`).join('\n')}\n`
  expect(await readReport(bytesOf(text), { model, mayBeClean: true })).toEqual(
    await readReport(bytesOf(text), { model }),
  )
})

test('with the recipe of another run, a text of headings alone is read as no row, with a remark', async () => {
  const rows = `element\taddress\texpected\tactual\n${Array.from({ length: 9 }, (_, i) => `2\t0x8000${i}000\t0x0\t0x1`).join('\n')}\n`
  const first = await readReport(bytesOf(rows), { model })
  if (!first.ok) throw new Error(JSON.stringify(first.faults))
  const { recipe } = first.value
  const headings =
    'walked from 0x080000000 to 0x081000000\n\nelement\taddress\texpected\tactual\nno read came back wrong\n'
  const second = await readReport(bytesOf(headings), { model, recipe })
  if (!second.ok) throw new Error(JSON.stringify(second.faults))
  expect(second.value.tally.rows).toMatchObject({ read: 0, unmapped: 0, unreadable: 0 })
  expect(second.value.remarks).toHaveLength(1)
})

test('a report of the whole memory passes what it does not list, keeps what fails, and says so in its signatures', () => {
  const lane = model.lanes[0]?.id ?? ''
  const tally = coverWhole(tallyTable(model, [{ lane, errors: 3 }]))
  expect([...laneStates(tally)].filter(([, state]) => state !== 'pass')).toEqual([[lane, 'fail']])
  const quiet = tally.parts.find(({ ref }) => ref !== model.lanes[0]?.part)
  expect(quiet?.signature.sentence).toBe(`No errors in ${quiet?.ref}.`)
  expect(coverWhole(tally)).toEqual(tally)
})

test('two reports begin alike where a line of words is the same but for its numbers', () => {
  const one = 'Invented walk, seed 3\n8192 words from 0x0 up to 0xff\n\naddress,expected\n0x1,0x2\n'
  expect(beginAlike(one, 'Invented walk, seed 77\r\n\r\nnothing\r\n')).toBe(true)
  expect(beginAlike(one, 'another test of 8192 words\n0x1,0x2\n')).toBe(false)
  expect(beginAlike('', '')).toBe(false)
})
