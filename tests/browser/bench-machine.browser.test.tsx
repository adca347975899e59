/** The bench machine as the hand meets it: link, outputs and temperatures by keyboard, what differs said at once, soak tests. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { focusOn, type RunningApp, startApp } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  app.desk.screen.setState({ station: 'powered-measuring', selection: undefined, message: undefined })
})
afterAll(() => app.close())

const machine = () => app.desk.cases.getState().history?.present.benchMachine
const region = () => page.getByRole('region', { name: 'On the bench machine' })
const open = () => region().getByText('Bench machine: nothing noted').click()

test('fewer lanes than offered and a dead output are told as not modelled, typed and chosen by keyboard', async () => {
  await open()
  await region()
    .getByText(/^Link:/)
    .click()
  await region().getByLabelText('Link width').selectOptions('×8')
  await region().getByLabelText('Slot and card offer').selectOptions('×16')
  await expect.element(region().getByText('Link ×8 of ×16.')).toBeVisible()
  await region()
    .getByText(/^Display outputs:/)
    .click()
  await focusOn(region().getByLabelText('Add output').first())
  await userEvent.keyboard('DP 1{Enter}DP 2{Enter}')
  await region().getByLabelText('Picture at DP 1').selectOptions('picture')
  await region().getByLabelText('Picture at DP 2').selectOptions('none')
  await expect.element(region().getByText('No steady picture at DP 2; DP 1 well.')).toBeVisible()
  expect(machine()?.before?.outputs).toEqual([
    { name: 'DP 1', picture: 'yes' },
    { name: 'DP 2', picture: 'no' },
  ])
})

test('a hot spot far over the core warns, and a package that the board does not have is refused', async () => {
  await open()
  await region()
    .getByText(/^Temperatures:/)
    .click()
  await focusOn(region().getByLabelText('Core', { exact: true }))
  await userEvent.keyboard('61{Tab}{Tab}93')
  await expect.element(region().getByText('Hot spot 32 K over the core; up to 20 K is usual.')).toBeVisible()
  await focusOn(region().getByLabelText('Package and its temperature in °C'))
  await userEvent.keyboard('Z9 80{Enter}')
  await expect.element(region().getByRole('alert')).toHaveTextContent(/A memory of this board/)
  await userEvent.clear(region().getByLabelText('Package and its temperature in °C'))
  await userEvent.keyboard('u13 80{Enter}')
  expect(machine()?.before?.temperatures?.packages).toEqual([{ ref: 'U13', celsius: 80 }])
})

test('the caution to save firmware stands where it is written, and writing without a copy is said', async () => {
  await open()
  await region()
    .getByText(/^Firmware:/)
    .click()
  await expect.element(region().getByText('Save the firmware before you write any.')).toBeVisible()
  await region().getByRole('group', { name: 'Written' }).getByText('Yes').click()
  await expect.element(region().getByText('Firmware written, and no copy of the old one is noted.')).toBeVisible()
})

test('a soak test is noted at the proof with hours and temperatures, and a short one is said to be short', async () => {
  app.desk.screen.setState({ station: 'proof' })
  const soak = page.getByRole('region', { name: 'Load and soak tests' })
  await soak.getByText('Load and soak tests: none noted').click()
  await focusOn(soak.getByLabelText('What loaded it'))
  await userEvent.keyboard('full load{Tab}1,5{Tab}23{Tab}88{Enter}')
  await expect.element(soak.getByRole('row', { name: /^full load 1\.5 23 88 held/ })).toBeVisible()
  await expect.element(soak.getByText('Longest soak 1.5 h; 2 h at a stretch are usual.')).toBeVisible()
  expect(machine()?.soaks).toEqual([{ load: 'full load', hours: 1.5, airC: 23, hottestC: 88, outcome: 'held' }])
  const { violations } = await axe.run(document.body, { runOnly: ['wcag2a', 'wcag2aa'] })
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([])
})
