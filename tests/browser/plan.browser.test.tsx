/** The plan's station as the hand meets it: steps, heat on the sheet, what-ifs, a noted pass, bad equipment, axe, the tablet. */
import { stepTitle } from '../../src/plan/index.ts'
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { closeHeat } from '../../src/view/stations/plan/askHeat.ts'
import { focusOn, type RunningApp, startApp, startOwn, waitUntil } from '../support/appExample.tsx'
import { drawn } from '../support/sheetHand.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
  app.desk.screen.setState({ station: 'plan' })
  await waitUntil(planned)
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  closeHeat(app.desk)
  await app.reset()
  app.desk.screen.setState({ station: 'plan', selection: undefined, chosenTheme: 'paper' })
  await waitUntil(planned)
})
afterAll(() => app.close())

/** The plan stands for the case as it is now. */
const settled = (state: 'done' | 'failed'): boolean => {
  const plan = app.desk.plan.getState()
  return app.desk.results.getState().state === 'done' && plan.state === state && !plan.behind
}
const planned = (): boolean => settled('done') && stepTitles().length > 0
const stepTitles = (): string[] =>
  [...document.querySelectorAll('ol[aria-label="Steps in order"] h3')].map((title) => title.textContent)
const why = () => page.getByRole('complementary', { name: 'Why' })
const answer = () => app.desk.plan.getState().answer

/** Opens the line of a step unless it stands open already. */
async function openStep(n: number): Promise<void> {
  const line = why().getByText(`Step ${n}: `)
  const details = line.element().closest('details')
  if (details?.open === false) line.element().closest('summary')?.click()
  await waitUntil(() => details?.open === true)
}

async function openHeat(): Promise<void> {
  const hot = answer()?.best.steps.find((step) => step.setting !== undefined)
  await openStep(hot?.n ?? 0)
  await why()
    .getByRole('button', { name: /^Heat of step/ })
    .first()
    .click()
  await waitUntil(() => app.desk.plan.getState().look?.run !== undefined)
  await drawn()
}

test('every step says what, why, how long and at what cost, and no hot step is without its cautions', () => {
  const steps = answer()?.best.steps ?? []
  expect(stepTitles()).toHaveLength(steps.length)
  const rows = [...document.querySelectorAll('ol[aria-label="Steps in order"] > li')]
  for (const [i, step] of steps.entries()) {
    const words = rows[i]?.textContent ?? ''
    for (const line of step.why.split('\n')) expect(words).toContain(line.replace(/^Check: ./, ''))
    expect(words).toContain(stepTitle(step))
    const shown = rows[i]?.querySelector('[aria-label^="Cautions"]')?.textContent ?? ''
    for (const caution of step.cautions) expect(shown).toContain(caution.split(/[:;.]/)[0])
    if (step.setting !== undefined) expect(words).toMatch(/nozzle \d+.mm/)
  }
  expect(steps.some((step) => step.setting !== undefined && step.cautions.length > 0)).toBe(true)
})

test('worth, another way, materials and heats left are told, and the list of stations sums the plan up', async () => {
  await expect.element(why().getByRole('region', { name: 'Steps of the plan' })).toBeInTheDocument()
  for (const [tab, name] of [
    ['Another way', 'Another way'],
    ['Heats left', 'Heats left'],
    ['Materials', 'Materials'],
  ] as const) {
    await why().getByRole('tab', { name: tab }).click()
    await expect.element(why().getByRole('region', { name })).toBeVisible()
  }
  await expect.element(why().getByRole('heading', { name: /orth repairing: about [+−]\d/ })).toBeVisible()
  await expect.element(page.getByRole('button', { name: /^Plan.*filled in/ })).toHaveTextContent(/lift/)
})

test('the heat of a step shows isotherms that move with time, curves with the same numbers in a table, and its neighbours', async () => {
  await openHeat()
  const slider = why().getByRole('slider', { name: /Time since/ })
  const hot = sheetPicture()
  await slider.fill('0')
  await waitUntil(() => app.desk.plan.getState().timeS === 0)
  await drawn()
  expect(sheetPicture() === hot).toBe(false)
  await why().getByText('The curves as a table').click()
  const table = why().getByRole('table', { name: /Hottest joint/ })
  await expect.element(table).toBeVisible()
  expect(table.element().querySelectorAll('tbody tr').length).toBeGreaterThan(5)
  await waitUntil(() => document.querySelector('[role="img"][aria-label^="Joint temperature"] canvas') !== null)
  await expect.element(why().getByRole('list', { name: 'Neighbours that get too hot' }).first()).toBeVisible()
  await why().getByRole('button', { name: 'Play the pass' }).click()
  await waitUntil(() => app.desk.plan.getState().timeS > 0)
  await why().getByRole('button', { name: 'Pause' }).click()
  const paused = app.desk.plan.getState().timeS
  await drawn()
  expect(app.desk.plan.getState().timeS).toBe(paused)
})

/** The middle canvas: fields and isotherms. */
const sheetPicture = (): string =>
  document.querySelectorAll<HTMLCanvasElement>('[data-pane] canvas')[1]?.toDataURL() ?? ''

test('a shield is tried with one click, told in words, and kept in the plan by another', async () => {
  await openHeat()
  await why().getByRole('button', { name: 'Heat sink on it' }).click()
  await waitUntil(() => app.desk.plan.getState().look?.tried?.state === 'done')
  const what = why().getByRole('region', { name: 'What if' })
  await expect.element(what.getByText(/under a heat sink/)).toBeVisible()
  await expect.element(what.getByText(/peak from \d+.°C to \d+.°C/).first()).toBeVisible()
  await what.getByRole('button', { name: 'Keep it in the plan' }).click()
  expect(app.desk.cases.getState().history?.present.shields).toHaveLength(1)
})

test('a pass noted by keyboard, with what lay under the part, plans the rest and marks the sheet; undo takes it back', async () => {
  const first = answer()?.best.steps.find((step) => step.action === 'lift')
  if (first === undefined) throw new Error('no lift in the plan')
  const before = answer()
  await openStep(first.n)
  const done = why().getByRole('button', { name: new RegExp(`^Done: step ${first.n},`) })
  await focusOn(done)
  await userEvent.keyboard('{Enter}')
  const box = why().getByRole('checkbox', { name: 'corroded' })
  await focusOn(box)
  await userEvent.keyboard(' ')
  await focusOn(why().getByRole('button', { name: 'Record it and plan the rest' }))
  await userEvent.keyboard('{Enter}')
  expect(app.desk.cases.getState().history?.present.marks.some((mark) => mark.id.startsWith('under-'))).toBe(true)
  await waitUntil(() => planned() && answer() !== before)
  const past = why().getByRole('region', { name: 'Done so far' })
  await expect.element(past.getByText(/^done \d\d:\d\d, under .* corroded$/)).toBeVisible()
  await waitUntil(() => !stepTitles().some((title) => title.endsWith(`Lift ${first.refs[0]}`)))
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(app.desk.cases.getState().history?.present.passes).toEqual([])
  expect(app.desk.cases.getState().history?.present.marks.some((mark) => mark.id.startsWith('under-'))).toBe(false)
})

test('work without heat is ticked off with one click, and taken back by another', async () => {
  const [first] = answer()?.best.steps ?? []
  if (first === undefined) throw new Error('no step in the plan')
  const before = answer()
  const titles = stepTitles()
  await why()
    .getByRole('button', { name: new RegExp(`^Done: step ${first.n},`) })
    .click()
  await waitUntil(() => planned() && answer() !== before)
  expect(stepTitles()).toHaveLength(titles.length - 1)
  const past = why().getByRole('region', { name: 'Done so far' })
  await expect.element(past.getByText(/^done \d\d:\d\d$/)).toBeVisible()
  // what is left keeps its numbers
  expect(answer()?.best.steps[0]?.n).toBe(first.n + 1)
  await why().getByRole('button', { name: 'Take back the last entry' }).click()
  await waitUntil(() => planned() && stepTitles().length === titles.length)
  expect(app.desk.cases.getState().history?.present.ticks).toEqual([])
})

const violations = async (): Promise<string[]> =>
  (await axe.run(document.body)).violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}`))

test.each(['paper', 'chalk'] as const)('axe finds nothing in the plan and in a pass’s heat on %s', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  for (const details of document.querySelectorAll('details')) details.open = true
  expect(await violations()).toEqual([])
  await openHeat()
  for (const details of document.querySelectorAll('details')) details.open = true
  expect(await violations()).toEqual([])
})

test.each([
  ['a tablet held upright', 820, 1180],
  ['a wide screen', 1440, 900],
])('on %s nothing is cut off and no text is under 12 px', async (_, width, height) => {
  await page.viewport(width, height)
  const check = (): void => {
    for (const details of document.querySelectorAll('details')) details.open = true
    const all = [...document.querySelectorAll('aside *')]
    const cut = all.filter((element) => {
      const box = element.getBoundingClientRect()
      if (box.width === 0 || element.closest('.visually-hidden, [tabindex="0"]') !== null) return false
      return box.right > width + 1 || box.left < -1
    })
    expect(cut.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
    const small = all.filter(
      (element) =>
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '') &&
        Number.parseFloat(getComputedStyle(element).fontSize) < 12,
    )
    expect(small.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width)
  }
  check()
  await openHeat()
  check()
})

test('equipment that contradicts itself is said at its field, and nothing is planned with it', async () => {
  await why().getByRole('tab', { name: 'Bench and prices' }).click()
  await why().getByText('Change what you have').click()
  const least = why().getByRole('textbox', { name: 'at least' }).last()
  await least.fill('600')
  await expect.element(why().getByText(/Found 600 °C, expected at most/)).toBeVisible()
  await waitUntil(() => settled('failed'))
  await expect.element(page.getByRole('button', { name: /^Plan.*partly/ })).toHaveTextContent('could not be planned')
})

test('without a lift list the station says what is missing', async () => {
  await startOwn(app.desk)
  app.desk.screen.setState({ station: 'plan' })
  await expect.element(why().getByText(/No lift list yet/)).toBeVisible()
  expect(stepTitles()).toEqual([])
})
