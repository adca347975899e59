/** The card of a report: whether it is surely read right, receipts, Right and Wrong; nothing is reckoned from what is not sure. */
import axe from 'axe-core'
import { page } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { step } from '../../src/case/index.ts'
import { readReport, writeWordsFile } from '../../src/report/index.ts'
import { readReportsOfCase } from '../../src/view/actions/reports.ts'
import { themes } from '../../src/view/look/tokens.ts'
import { wordsOf } from '../../src/view/stores/boardWords.ts'
import {
  dropFile,
  liftedRefs,
  pageAt,
  readingNamed,
  type RunningApp,
  startApp,
  waitUntil,
} from '../support/appExample.tsx'
import { countNear, drawn, handOn } from '../support/sheetHand.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  app.desk.screen.setState({
    station: 'memory-run',
    selection: undefined,
    chosenTheme: 'paper',
    message: undefined,
    naming: { closed: [] },
  })
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const card = (name: string) => why().getByRole('article', { name: `Report ${name}` })
const camera = () => {
  const { board } = app.desk.cases.getState()
  if (board === undefined) throw new Error('no board')
  return board.camera
}
const reading = (name: string) => readingNamed(app.desk, name)
const entry = (name: string) =>
  app.desk.cases.getState().history?.present.reports.find((report) => report.name === name)

async function drop(name: string, text: string): Promise<void> {
  dropFile(new File([text], name, { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await waitUntil(() => reading(name)?.state === 'read')
}

const PARTS = ['U11', 'U12', 'U13', 'U14', 'U15', 'U16', 'U17', 'U18']
const sureText = PARTS.map((part) => `${part}: ${part === 'U14' ? 1432 : 0} errors`).join('\n')
const unsureText = PARTS.map((part, i) => `${part} ${part === 'U14' ? 1432 : 0} ${40 + (i % 3)}`).join('\n')

test('a report that names parts is told as surely read, with its own lines beside what they were taken for', async () => {
  await drop('sure.txt', sureText)
  await expect.element(card('sure.txt').getByText('Surely read right.')).toBeVisible()
  const receipts = card('sure.txt').getByRole('region', { name: /^Lines of sure.txt/ })
  await expect.element(receipts.getByText('U14: 1432 errors')).toBeVisible()
  await expect.element(receipts.getByText('U14, 1,432 errors')).toBeVisible()
})

test('what is not sure shows no tick and counts for nothing until one click says that it is right', async () => {
  await drop('unsure.txt', unsureText)
  await expect.element(card('unsure.txt').getByText('is it read right?')).toBeVisible()
  expect(entry('unsure.txt')?.recipe).toBeUndefined()
  await card('unsure.txt').getByRole('button', { name: 'Right' }).click()
  await waitUntil(() => entry('unsure.txt')?.recipe !== undefined)
  await waitUntil(() => reading('unsure.txt')?.state === 'read' && reading('unsure.txt')?.sure === 'sure')
  await expect.element(card('unsure.txt').getByText('Read as you said.')).toBeVisible()
})

test('wrong leads to another reading, and asks again', async () => {
  await drop('unsure.txt', unsureText)
  const before = JSON.stringify(reading('unsure.txt')?.readWith)
  await card('unsure.txt').getByRole('button', { name: 'Wrong' }).click()
  await waitUntil(
    () => JSON.stringify(reading('unsure.txt')?.readWith) !== before || reading('unsure.txt')?.sure === 'unknown',
  )
  await waitUntil(() => reading('unsure.txt')?.state === 'read')
  expect(entry('unsure.txt')?.recipe).toBeUndefined()
})

test('a report of which no row was read shows no tick at any station, and says so where parts would be listed', async () => {
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, { ...history.present, reports: [] }) },
  )
  const text = 'Memory walk\nstarted\nfinished\n'
  dropFile(new File([text], 'empty.txt', { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await expect.element(card('empty.txt').getByText(/^\s*(not read|no row read)$/)).toBeVisible()
  for (const station of ['Memory run', 'Suspects', 'Proof']) {
    const button = page
      .getByRole('navigation', { name: 'Stations' })
      .getByRole('button', { name: new RegExp(`^${station}`) })
    await expect.element(button).not.toHaveTextContent(', filled in')
  }
  expect(document.querySelector('article[aria-label="Report empty.txt"] .lucide-circle-check')).toBeNull()
  expect(document.querySelector('ol[aria-label="Parts to lift"]')).toBeNull()
})

test('what the report does not name is untested in the table, in the list of parts and on the sheet’s key', async () => {
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, { ...history.present, reports: [] }) },
  )
  await drop('some.txt', sureText.split('\n').slice(1, 6).join('\n'))
  const row = why().getByRole('table', { name: 'Errors of each memory part' }).getByRole('row', { name: /^U11 / })
  await expect.element(row).toHaveTextContent(/^U11untested$/)
  await expect.element(page.getByText('not tested', { exact: true })).toBeVisible()
  await why()
    .getByText(/^All \d+ parts on the board/)
    .click()
  await why().getByRole('textbox', { name: 'Only those with' }).fill('U11')
  await expect.element(why().getByRole('button', { name: /^U11/ }).last()).toHaveTextContent('untested')
})

test('a report that breaks off shows no tick but says that it is incomplete', async () => {
  await drop('cut.json', '[{"part":"U11","errors":3},{"part":"U12","errors":0},{"part":"U13","err')
  await expect.element(card('cut.json').getByText('read, but incomplete')).toBeVisible()
  await expect.element(card('cut.json').getByText(/a report that breaks off/)).toBeVisible()
})

const twoWays = PARTS.map((part) => `${part} ${part === 'U14' ? 1432 : 0} ${part === 'U17' ? 300 : 0}`).join('\n')
const failing = (name: string) =>
  reading(name)
    ?.tally?.parts.filter((part) => part.errors > 0)
    .map((part) => part.ref)

test('two readings that blame different parts lie on the sheet beside each other, nothing is lifted, and one click decides', async () => {
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, { ...history.present, reports: [] }) },
  )
  await drop('two.txt', twoWays)
  const bar = page.getByRole('region', { name: 'Two readings of two.txt' })
  await expect.element(bar.getByText('A blames U14')).toBeVisible()
  await expect.element(bar.getByText('B blames U17')).toBeVisible()
  await drawn()
  const hand = handOn(document.body, camera())
  const corner = (ref: string, at: 'minX' | 'maxX') => {
    const box = app.desk.cases.getState().board?.model.partByRef.get(ref)?.box
    return { x: box?.[at] ?? 0, y: box?.maxY ?? 0 }
  }
  const { reachText, residueText } = themes.paper
  expect(countNear(hand.look(corner('U14', 'minX'), 8), reachText)).toBeGreaterThan(60)
  expect(countNear(hand.look(corner('U14', 'maxX'), 8), residueText)).toBe(0)
  expect(countNear(hand.look(corner('U17', 'maxX'), 12), residueText)).toBeGreaterThan(20)
  expect(countNear(hand.look(corner('U17', 'minX'), 8), reachText)).toBe(0)
  app.desk.screen.setState({ station: 'suspects' })
  await expect.element(why().getByText(/^two.txt counts for nothing until you say how it is read/)).toBeVisible()
  expect(document.querySelector('ol[aria-label="Parts to lift"]')).toBeNull()
  await bar.getByRole('button', { name: 'B is right' }).click()
  await waitUntil(() => reading('two.txt')?.state === 'read' && reading('two.txt')?.sure === 'sure')
  expect(failing('two.txt')).toEqual(['U17'])
  await expect.element(bar).not.toBeInTheDocument()
  await waitUntil(() => liftedRefs().includes('U17'))
})

test('how a report was put right is proposed for the next that looks so, and goes alone as a small file', async () => {
  await drop('two.txt', twoWays)
  await page.getByRole('button', { name: 'B is right' }).click()
  await waitUntil(() => reading('two.txt')?.sure === 'sure')
  await drop('next.txt', twoWays.replace('U12 0 0', 'U12 0 9').replace('U14 1432', 'U14 7'))
  const like = card('next.txt').getByRole('button', { name: /^Read it like two.txt of \d{4}-\d\d-\d\d$/ })
  await like.click()
  await waitUntil(() => reading('next.txt')?.state === 'read' && reading('next.txt')?.sure === 'sure')
  expect(failing('next.txt')).toEqual(['U12', 'U17'])
  await expect.element(like).not.toBeInTheDocument()
  const { history } = app.desk.cases.getState()
  const present = history?.present
  // Kept in every step, and the steps share one board as before: the shelf writes it once.
  expect(new Set([...(history?.past ?? []), history?.present].map((state) => state?.board)).size).toBe(1)
  const model = app.desk.cases.getState().board?.model
  if (present === undefined || model === undefined) throw new Error('no case')
  const file = writeWordsFile(wordsOf(present, model), model.name)
  await why()
    .getByText(/^How reports speak of this board/)
    .click()
  await why()
    .getByRole('button', { name: /^Forget/ })
    .first()
    .click()
  expect(wordsOf(app.desk.cases.getState().history?.present ?? present, model)).toEqual([])
  dropFile(new File([file], 'words.json', { type: 'application/json' }), pageAt(app.desk, { x: 100, y: 40 }))
  await expect.element(page.getByText('words.json came in')).toBeVisible()
  expect(wordsOf(app.desk.cases.getState().history?.present ?? present, model)).toHaveLength(1)
})

test('words of another board are refused with the names that are not on this one', async () => {
  const strange = { title: 'a run', look: ['@ : # errors'], names: { 'C3 low': 'U99' } }
  const file = JSON.stringify({ format: 'liftmap-report-words', version: 1, readings: [strange] })
  dropFile(new File([file], 'words.json', { type: 'application/json' }), pageAt(app.desk, { x: 100, y: 40 }))
  await expect.element(page.getByText('words.json was not taken in')).toBeVisible()
  await expect.element(page.getByText(/C3 low is to mean U99, which bowline-8 does not have/)).toBeVisible()
})

test('what a later reading says otherwise is told on the card until it is noted', async () => {
  const { history } = app.desk.cases.getState()
  if (history === undefined) throw new Error('no case')
  const read = { sure: 'sure' as const, rows: 9, parts: { U12: 5 }, failing: ['U12.A0'], passing: [] }
  const report = { id: 'k', name: 'kept.txt', text: sureText, run: 'first' as const, coversAll: false, read }
  app.desk.cases.setState({ history: step(history, { ...history.present, reports: [report] }) })
  await readReportsOfCase(app.desk)
  const changed = card('kept.txt').getByRole('region', { name: 'What changed in kept.txt' })
  await expect.element(changed.getByText('U12 had 5 errors, now 0.')).toBeVisible()
  await expect.element(changed.getByText('U12.A0: failed before, passes now.')).toBeVisible()
  await changed.getByRole('button', { name: 'Noted' }).click()
  await expect.element(changed).not.toBeInTheDocument()
  await readReportsOfCase(app.desk)
  await waitUntil(() => reading('kept.txt')?.state === 'read')
  expect(reading('kept.txt')?.changed).toEqual([])
})

test('a report dropped again while it is being read is read as it was dropped last', async () => {
  const slow = PARTS.map((part) => `${part}: 5 errors\n`.repeat(4000)).join('')
  dropFile(new File([slow], 'again.txt', { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await waitUntil(() => reading('again.txt') !== undefined)
  dropFile(new File([sureText], 'again.txt', { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await waitUntil(() => reading('again.txt')?.state === 'read')
  expect(failing('again.txt')).toEqual(['U14'])
  expect(entry('again.txt')?.text).toBe(sureText)
})

test.each(['paper', 'chalk'] as const)('axe finds nothing on %s where two readings wait', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  await drop('two.txt', twoWays)
  await expect.element(page.getByRole('region', { name: 'Two readings of two.txt' })).toBeVisible()
  const { violations } = await axe.run(document.body, { resultTypes: ['violations'] })
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([])
})

test('when every way to read it is called wrong, the recipe by hand stands open, starting from the last guess', async () => {
  await drop('unsure.txt', unsureText)
  const wrong = card('unsure.txt').getByRole('button', { name: 'Wrong' })
  for (let times = 0; times < 12 && reading('unsure.txt')?.sure !== 'unknown'; times++) {
    const before = reading('unsure.txt')?.readWith
    await wrong.click()
    await waitUntil(() => {
      const now = reading('unsure.txt')
      return now?.sure === 'unknown' || (now?.state === 'read' && now.readWith !== before)
    })
    expect(
      app.desk.cases.getState().history?.present.reports.find(({ name }) => name === 'unsure.txt')?.recipe,
    ).toBeUndefined()
  }
  expect(reading('unsure.txt')?.sure).toBe('unknown')
  await expect.element(card('unsure.txt').getByRole('combobox', { name: 'Cells are told apart' })).toBeVisible()
  expect(document.querySelector('article[aria-label="Report unsure.txt"] .lucide-circle-check')).toBeNull()
})

test('a report of another board is told on the screen in the words of the core, which the command line prints', async () => {
  const model = app.desk.cases.getState().board?.model
  if (model === undefined) throw new Error('no board')
  const beyond = Array.from(
    { length: 40 },
    (_, i) => `0xfff${(0x10000000 + 64 * i).toString(16)} 0xffffffff 0xfffffffe`,
  )
  const text = `address expected actual\n${beyond.join('\n')}\n`
  async function* bytes(): AsyncIterable<Uint8Array> {
    yield new TextEncoder().encode(text)
  }
  const read = await readReport(bytes(), { model })
  const [remark] = read.ok ? read.value.remarks : read.faults
  if (remark === undefined) throw new Error('the core says nothing')
  dropFile(new File([text], 'other.txt', { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await waitUntil(() => !['reading', undefined].includes(reading('other.txt')?.state))
  await expect.element(card('other.txt').getByText(remark.found, { exact: false }).first()).toBeVisible()
  await expect
    .element(
      card('other.txt')
        .getByText(remark.todo ?? '', { exact: false })
        .first(),
    )
    .toBeVisible()
})
