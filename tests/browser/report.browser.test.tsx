/** The card of a report: whether it is surely read right, receipts, Right and Wrong; nothing is reckoned from what is not sure. */
import { page } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { dropFile, pageAt, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  app.desk.screen.setState({ station: 'memory-run', selection: undefined, chosenTheme: 'paper', message: undefined })
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const card = (name: string) => why().getByRole('article', { name: `Report ${name}` })
const reading = (name: string) => app.desk.readings.getState().byName.get(name)
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
  const receipts = card('sure.txt').getByRole('region', { name: /^Lines of the report/ })
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
  await expect.element(card('unsure.txt').getByText('Surely read right.')).toBeVisible()
})

test('wrong leads to another reading, and asks again', async () => {
  await drop('unsure.txt', unsureText)
  const before = JSON.stringify(reading('unsure.txt')?.recipe)
  await card('unsure.txt').getByRole('button', { name: 'Wrong' }).click()
  await waitUntil(
    () => JSON.stringify(reading('unsure.txt')?.recipe) !== before || reading('unsure.txt')?.sure === 'unknown',
  )
  await waitUntil(() => reading('unsure.txt')?.state === 'read')
  expect(entry('unsure.txt')?.recipe).toBeUndefined()
})

test('names of its own are asked for with a proposal, and read once they are said', async () => {
  const text = Array.from({ length: 8 }, (_, i) => `chip ${i}: ${i === 3 ? 1432 : 0} errors`).join('\n')
  dropFile(new File([text], 'chips.txt', { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  const third = card('chips.txt').getByRole('combobox', { name: 'chip 3 means' })
  await expect.element(third).toHaveValue('U14')
  await card('chips.txt').getByRole('button', { name: 'Read it with these names' }).click()
  await waitUntil(() => reading('chips.txt')?.state === 'read' && reading('chips.txt')?.sure === 'sure')
  expect(
    reading('chips.txt')
      ?.tally?.parts.filter((part) => part.errors > 0)
      .map((part) => part.ref),
  ).toEqual(['U14'])
  expect(entry('chips.txt')?.recipe?.names).toMatchObject({ 'chip 3': 'U14' })
})
