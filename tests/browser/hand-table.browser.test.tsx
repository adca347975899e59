/** The table entered by hand: a spreadsheet pasted, names completed, row after row by Enter, and what a row says of its place. */
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { step } from '../../src/case/index.ts'
import { isHandTable } from '../../src/view/actions/reports.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, { ...history.present, reports: [] }) },
  )
  app.desk.screen.setState({ station: 'memory-run', selection: undefined, message: undefined })
  const summary = why().getByText('Enter it by hand')
  const opened = (await summary.findElement()).closest('details')
  if (opened?.open === false) await summary.click()
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const where = () => why().getByRole('combobox', { name: 'Part, channel or lane' })
const rows = () => app.desk.cases.getState().history?.present.reports.find(isHandTable)?.table ?? []
const entered = () => why().getByRole('list', { name: 'Rows entered by hand' })

async function pasted(text: string): Promise<void> {
  const clipboardData = new DataTransfer()
  clipboardData.setData('text/plain', text)
  clipboardData.setData('text', text)
  const field = await where().findElement()
  field.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
}

test('row after row by Enter: a name is completed where it can mean one thing only, and asked about where it can mean more', async () => {
  await focusOn(where())
  await userEvent.keyboard('u13a0{Tab}')
  await expect.element(where()).toHaveValue('U13.A0')
  await userEvent.keyboard('3{Tab}12{Enter}')
  await waitUntil(() => rows().length === 1)
  expect(rows()).toEqual([{ lane: 'U13.A0', bit: 3, errors: 12 }])
  await expect.element(where()).toHaveFocus()
  await expect.element(where()).toHaveValue('')
  await userEvent.keyboard('u1{Enter}')
  await expect.element(why().getByText(/^“u1” can be U11, U12, U13, U14 and \d+ more\.$/)).toBeVisible()
  expect(rows()).toHaveLength(1)
  await userEvent.keyboard('{Control>}a{/Control}ch15{Enter}')
  await waitUntil(() => rows().length === 2)
  expect(rows()[1]).toMatchObject({ channel: 'CH15' })
})

test('a channel that is half a package says so, while it is typed and in its row; a lane with 0 errors passes', async () => {
  await focusOn(where())
  await userEvent.keyboard('ch4')
  await expect
    .element(why().getByText('CH4: half of U13 (A0, A1), not the whole package. Enter adds the row.'))
    .toBeVisible()
  await userEvent.keyboard('{Tab}{Tab}{Control>}a{/Control}0{Enter}')
  await waitUntil(() => rows().length === 1)
  await expect.element(entered().getByText(/half of U13/)).toBeVisible()
  await expect.element(entered().getByText(/tested and clean/)).toBeVisible()
  const u13 = why().getByRole('table', { name: 'Errors of each memory part' }).getByRole('row', { name: /^U13 / })
  await expect.element(u13).toHaveTextContent('0 of 2')
  const u14 = why().getByRole('table', { name: 'Errors of each memory part' }).getByRole('row', { name: /^U14 / })
  await expect.element(u14).toHaveTextContent('untested')
})

test('a table copied from a spreadsheet becomes rows by its headings, and lines that can’t be are told', async () => {
  await pasted('part\tlane\tbit\terrors\nU13\tA0\t3\t1200\nU12\tB1\t\t0\nU99\tA0\t\t5\n')
  await waitUntil(() => rows().length === 2)
  expect(rows()).toEqual([
    { lane: 'U13.A0', bit: 3, errors: 1200 },
    { lane: 'U12.B1', errors: 0 },
  ])
  await expect.element(why().getByText(/^1 line not taken, such as “U99/)).toBeVisible()
})

test('lanes that nobody named are asked about above the list; told that they passed, they count, and later rows keep that', async () => {
  await pasted('part\terrors\nU13\t900\n')
  await waitUntil(() => rows().length === 1)
  await expect.element(why().getByText(/^\d+ lanes untested\./)).toBeVisible()
  await why().getByRole('button', { name: 'say so' }).click()
  const u14 = why().getByRole('table', { name: 'Errors of each memory part' }).getByRole('row', { name: /^U14 / })
  await expect.element(u14).not.toHaveTextContent('untested')
  await expect.element(why().getByText(/lanes untested\./)).not.toBeInTheDocument()
  await pasted('part\terrors\nU15\t7\n')
  await waitUntil(() => rows().length === 2)
  expect(app.desk.cases.getState().history?.present.reports.find(isHandTable)?.coversAll).toBe(true)
})
