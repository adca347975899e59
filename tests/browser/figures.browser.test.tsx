/** A number of the screen by keyboard: Enter says how it was worked out, Escape shuts it and the number has the focus again. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { percent } from '../../src/view/stores/words.ts'
import { type RunningApp, startApp, waitForLiftList, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
  await waitForLiftList()
  app.desk.screen.setState({ station: 'suspects' })
})
afterAll(() => app.close())

/** Of the card as it came, by its report. */
function failingLanes(): number {
  const { history, board } = app.desk.cases.getState()
  if (history === undefined || board === undefined) return -1
  const tally = app.desk.tallyOfCase(board.model, history.present.reports, app.desk.readings.getState().byId)
  const lanes = tally?.parts.flatMap(({ channels }) => channels.flatMap((channel) => channel.lanes)) ?? []
  return lanes.filter(({ state }) => state === 'fail').length
}

const figure = (kind: string) => document.querySelector<HTMLButtonElement>(`#why-panel [data-figure="${kind}"]`)

test('a part’s chance opens with its inputs, formula, source and limit, and shuts with Escape', async () => {
  await waitUntil(() => figure('part-chance') !== null)
  const number = figure('part-chance')
  number?.focus()
  await userEvent.keyboard('{Enter}')
  const dialog = page.getByRole('dialog', { name: /Chance that the part must come off/ })
  await expect.element(dialog).toBeVisible()
  const part = app.desk.results.getState().assessment?.suspects.parts.find(({ lift }) => lift)
  const told = dialog.element().textContent
  expect(told).toContain(percent(part?.wrong.beneath ?? -1))
  expect(told).toContain(percent(part?.probability ?? -1))
  expect(told).toContain(`${failingLanes()} fail`)
  expect(told).toMatch(/noisy OR/)
  const { violations } = await axe.run(dialog.element())
  expect(violations).toEqual([])
  await userEvent.keyboard('{Escape}')
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
  expect(document.activeElement).toBe(number)
  expect(app.desk.screen.getState().selection).toBeUndefined()
})

test('a number within a line that opens says its own, and the line stays as it is', async () => {
  app.desk.screen.setState({ station: 'plan' })
  await waitUntil(() => figure('step-minutes') !== null)
  const line = figure('step-minutes')?.closest('details')
  const before = line?.open
  figure('step-minutes')?.click()
  await expect.element(page.getByRole('dialog', { name: /step 1: Minutes of a step/i })).toBeVisible()
  expect(line?.open).toBe(before)
  await userEvent.keyboard('{Escape}')
})
