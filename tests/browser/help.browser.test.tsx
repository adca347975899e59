/** Help and tour: every station says what it is for, every figure how it is worked out, and the tour leads to a case of one's own. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { stations } from '../../src/case/index.ts'
import { stationHelp } from '../../src/view/help/stationHelp.ts'
import { tourStops } from '../../src/view/help/tour.ts'
import { figureRules } from '../../src/view/figures/catalogue.ts'
import { entries } from '../../src/view/stations/entries.ts'
import { type RunningApp, startApp, waitForLiftList, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
  await waitForLiftList()
})
beforeEach(() => app.desk.screen.setState({ page: undefined, startOpen: false, tourStop: undefined }))
afterAll(() => app.close())

const help = () => page.getByRole('dialog', { name: 'Help' })

test('a question mark opens it at the station, all ten are told, and Escape leads back', async () => {
  app.desk.screen.setState({ station: 'spill' })
  document.body.focus()
  await userEvent.keyboard('?')
  await expect.element(help().getByText(stationHelp.spill.purpose)).toBeVisible()
  for (const station of stations) {
    await help()
      .getByRole('button', { name: new RegExp(`^${entries[station].name} `) })
      .click()
    await expect.element(help().getByText(stationHelp[station].purpose)).toBeVisible()
  }
  await userEvent.keyboard('{Escape}')
  await waitUntil(() => app.desk.screen.getState().page === undefined)
})

test('every figure says how, from what, by which source, and what it does not know; axe finds nothing', async () => {
  app.desk.screen.setState({ station: 'suspects', page: 'help' })
  await help().getByText('Chance that the part must come off').click()
  await expect
    .element(
      help()
        .getByText(/noisy OR/)
        .first(),
    )
    .toBeVisible()
  await help()
    .getByText(/^Figures of other stations/)
    .click()
  expect(document.querySelectorAll('[aria-label="How it is worked out"] dl')).toHaveLength(figureRules.length)
  for (const { at, from, source, limit } of figureRules)
    expect([at.length, from.length, source.length, limit.length].every((length) => length > 0)).toBe(true)
  const { violations } = await axe.run(help().element())
  expect(violations).toEqual([])
})

test('the tour goes through its stops, there and back, and ends at a case of one’s own', async () => {
  await page.getByRole('button', { name: 'Show me round' }).click()
  const card = page.getByRole('complementary', { name: 'Tour' })
  await card.getByRole('button', { name: 'Next' }).click()
  await card.getByRole('button', { name: 'Back' }).click()
  for (const [i, { title, station }] of tourStops.entries()) {
    await expect.element(card.getByRole('heading', { name: title })).toBeVisible()
    expect(app.desk.screen.getState().station).toBe(station)
    await card.getByRole('button', { name: i === tourStops.length - 1 ? 'Start my own case' : 'Next' }).click()
  }
  await expect.element(page.getByRole('dialog', { name: /A new case/ })).toBeVisible()
  expect(app.desk.screen.getState().tourStop).toBeUndefined()
})

test('Escape puts down the tool first and then ends the tour; what is selected stays', async () => {
  await page.getByRole('button', { name: 'Show me round' }).click()
  const [part] = app.desk.cases.getState().board?.model.parts ?? []
  app.desk.screen.setState({ tool: 'dam', selection: { kind: 'part', id: part?.ref ?? '' } })
  await userEvent.keyboard('{Escape}')
  expect(app.desk.screen.getState()).toMatchObject({ tool: 'select', tourStop: 0 })
  await userEvent.keyboard('{Escape}')
  expect(app.desk.screen.getState()).toMatchObject({ tourStop: undefined, selection: { id: part?.ref } })
})

test('the tour can be ended at any stop', async () => {
  await page.getByRole('button', { name: 'Show me round' }).click()
  await page.getByRole('button', { name: 'End the tour' }).click()
  await waitUntil(() => document.querySelector('[aria-label="Tour"]') === null)
  expect(app.desk.screen.getState().tourStop).toBeUndefined()
})
