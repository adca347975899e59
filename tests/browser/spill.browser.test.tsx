/** The form of a spill: another substance brings its own amount, and an alloy first asks whether a cooler was pressed on it. */
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { addMark } from '../../src/view/actions/edit.ts'
import { type RunningApp, startApp, startOwn, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(() => app.reset())
afterAll(() => app.close())

const spillOf = () => app.desk.cases.getState().history?.present.marks.find((mark) => mark.kind === 'spill')
const why = () => page.getByRole('complementary', { name: 'Why' })
const fields = () => why().getByRole('list', { name: 'Spills and dams' })

const tile = (name: RegExp) => why().getByRole('group', { name: 'What was it?' }).getByRole('radio', { name })

async function alloyOnTheSheet(): Promise<void> {
  await startOwn(app.desk)
  addMark(app.desk, { kind: 'spill', side: 'top', at: { x: 148, y: 82 } })
  await tile(/gallium-indium eutectic/).click({ force: true })
}

test('an alloy chosen after coolant takes its own usual amount, and is not said to spread', async () => {
  await alloyOnTheSheet()
  expect(spillOf()).toMatchObject({ amount: { smearCm2: 2 }, pressed: 'unknown', pushMm: 0 })
  await expect.element(why().getByText(/It stays where it was smeared: .* cm²/)).toBeVisible()
  await expect.element(why().getByText(/It spreads/)).not.toBeInTheDocument()
  await tile(/ethylene glycol/).click({ force: true })
  expect(spillOf()).toMatchObject({ amount: { volumeMl: 0.4 } })
  await expect.element(why().getByText('Was a cooler pressed on it?')).not.toBeInTheDocument()
})

test('whether a cooler was pressed on it is the first question; a yes asks how far, and a no forgets it', async () => {
  await alloyOnTheSheet()
  const first = fields().element().querySelector('legend, label')
  expect(first).toHaveTextContent('Was a cooler pressed on it?')
  await expect.element(fields().getByRole('radio', { name: 'Not known' })).toBeChecked()
  await fields().getByRole('radio', { name: 'Yes' }).click()
  await fields().getByRole('textbox', { name: 'It was pushed as far as' }).fill('5')
  await waitUntil(() => app.desk.results.getState().state === 'done')
  expect(spillOf()).toMatchObject({ pressed: 'yes', pushMm: 5 })
  await expect.element(why().getByText(/was pressed about 5 mm further/)).toBeVisible()
  await fields().getByRole('radio', { name: 'No', exact: true }).click()
  expect(spillOf()).toMatchObject({ pressed: 'no', pushMm: 0 })
  await expect.element(fields().getByRole('textbox', { name: 'It was pushed as far as' })).not.toBeInTheDocument()
})

test('the tiles are a group of radio buttons: arrows choose, the plain word stands first, and the rest are a press away', async () => {
  await alloyOnTheSheet()
  const chosen = tile(/gallium-indium eutectic/)
  await expect.element(chosen).toBeChecked()
  expect(chosen.element().closest('label')?.querySelector('b')).toHaveTextContent(/^Liquid metal$/)
  const element = chosen.element()
  if (!(element instanceof HTMLElement)) throw new Error('no tile')
  element.focus()
  await userEvent.keyboard('{ArrowUp}')
  await waitUntil(() => spillOf()?.kind === 'spill' && spillOf()?.id !== undefined)
  expect(spillOf()).not.toMatchObject({ substance: 'gallium-indium' })
  const all = () => document.querySelectorAll('input[type="radio"][aria-label]').length
  const before = all()
  await why()
    .getByRole('button', { name: /more substances$/ })
    .click()
  await waitUntil(() => all() > before)
})

test('a substance chosen before the first spill is what the next click means, with its usual amount', async () => {
  await startOwn(app.desk)
  app.desk.screen.setState({ station: 'spill' })
  await tile(/gallium-indium eutectic/).click({ force: true })
  expect(spillOf()).toBeUndefined()
  addMark(app.desk, { kind: 'spill', side: 'top', at: { x: 148, y: 82 } })
  expect(spillOf()).toMatchObject({ substance: 'gallium-indium', amount: { smearCm2: 2 } })
})
