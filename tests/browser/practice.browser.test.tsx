/** Practice as hand and keys meet it: a small card from the start to the truth, a reload on the way, and no trace elsewhere. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { leavePractice } from '../../src/view/actions/practice.ts'
import { nothingPlayed } from '../../src/view/stores/practiceDesk.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

/** One package fails, and nobody has looked anywhere. */
const SEED = '6'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  app.desk.screen.setState({ page: undefined, chosenTheme: 'paper' })
  await leavePractice(app.desk)
  app.desk.screen.setState({ page: 'practice' })
})
afterAll(() => app.close())

const practice = () => page.getByRole('dialog', { name: 'Practice' })
const state = () => app.desk.practice.store.getState()
const idle = (): Promise<void> => waitUntil(() => state().waiting === undefined)
const button = (name: string | RegExp) => practice().getByRole('button', { name })
const kind = (name: string) => practice().getByRole('radio', { name, exact: true })
const log = () => practice().getByRole('region', { name: 'What was done' })

async function takeIn(): Promise<void> {
  await practice().getByRole('textbox', { name: 'Number of the card' }).fill(SEED)
  await button('Take the card in').click()
  await expect.element(practice().getByRole('region', { name: 'What to do' })).toBeVisible()
  await idle()
}

/** The package that the report names. */
const failing = (): string => state().table?.view.tallyParts.find(({ errors }) => errors > 0)?.ref ?? ''

test('a small card from the start to the truth, by hand', async () => {
  const cases = await app.desk.caseShelf.list()
  const history = app.desk.cases.getState().history
  await takeIn()
  const ref = failing()
  await expect.element(practice().getByText('The owner says that nothing happened to it.')).toBeVisible()
  await expect.element(practice().getByRole('status', { name: 'Cost so far' })).toHaveTextContent('0 min, cost 0')
  await kind('Look').click()
  await practice()
    .getByRole('combobox', { name: /^Where: Seen at a flat angle/ })
    .selectOptions(ref)
  await button(new RegExp(`^Look: Seen at a flat angle.*${ref}`)).click()
  await expect.element(log().getByText(new RegExp(`seen between ${ref} and the board`))).toBeVisible()
  await expect.element(practice().getByRole('status', { name: 'Cost so far' })).toHaveTextContent('6 min, cost 6')
  await kind('Lift').click()
  await practice()
    .getByRole('combobox', { name: /^Where: Take/ })
    .selectOptions(ref)
  await expect.element(practice().getByText(/extraction, eye protection/)).toBeVisible()
  await button(`Lift: Take ${ref} off, look under it, put right what is wrong there, and refit it.`).click()
  await idle()
  await button(/^Run the test/).click()
  await expect.element(log().getByText('Every lane passes.')).toBeVisible()
  await expect.element(button(/^Run the test/)).toBeDisabled()
  await expect.element(practice().getByText(/it would come out the same/)).toBeVisible()
  await button('Hand back').click()
  await page.getByRole('menuitem', { name: 'As repaired' }).click()
  await expect
    .element(practice().getByRole('heading', { name: /^It works, and nothing was lifted in vain/ }))
    .toBeVisible()
  const truth = practice().getByRole('region', { name: 'The truth' })
  await expect.element(truth.getByText(new RegExp(`${ref}:`))).toBeVisible()
  const beside = practice().getByRole('table', { name: 'Cost beside others' })
  await expect.element(beside.getByRole('row', { name: /^You/ })).toHaveTextContent(ref)
  await expect.element(beside.getByRole('row', { name: /^Liftmap, step by step/ })).toBeVisible()
  const bought = practice().getByRole('table', { name: 'What you bought', exact: true })
  await expect.element(bought.getByRole('row', { name: /A run: Every lane passes/ })).toHaveTextContent('15 min')
  // no case, no history, nothing for the shop's own record
  expect(await app.desk.caseShelf.list()).toEqual(cases)
  expect(app.desk.cases.getState().history).toBe(history)
  const closed = await app.desk.caseShelf.closedCards()
  expect(closed.ok && closed.value.cards).toEqual([])
})

test('what Liftmap would do is told when asked, and noted', async () => {
  await takeIn()
  await button('What would Liftmap do?').click()
  await expect.element(practice().getByText('Liftmap would:')).toBeVisible()
  await expect.element(log().getByText('Asked what Liftmap would do')).toBeVisible()
  expect(state().table?.view.minutes).toBe(0)
  await idle()
  await button('Hand back').click()
  await page.getByRole('menuitem', { name: 'Unrepaired: not worth it' }).click()
  await expect.element(practice().getByRole('heading', { name: /^You gave it up/ })).toBeVisible()
  await expect.element(practice().getByText(/Liftmap was asked once on the way/)).toBeVisible()
})

test('a game goes on where it was after the app was opened anew', async () => {
  await takeIn()
  await kind('Look').click()
  await button(/^Look: Under a loupe/).click()
  await waitUntil(() => state().table?.view.log.length === 1 && state().waiting === undefined)
  const { view } = state().table ?? {}
  app.desk.screen.setState({ page: undefined })
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
  app.desk.practice.endWorker()
  app.desk.practice.store.setState(nothingPlayed)
  app.desk.screen.setState({ page: 'practice' })
  await expect.element(log()).toBeVisible()
  await idle()
  const after = state().table?.view
  expect(after?.log).toEqual(view?.log)
  expect(after?.marks).toEqual(view?.marks)
  expect(after?.minutes).toBe(view?.minutes)
  expect(after?.game).toEqual(view?.game)
})

test('it is worked by keys alone, from the start to an action, and Escape leads back to the case', async () => {
  await focusOn(practice().getByRole('radio', { name: /A plain card/ }))
  await userEvent.keyboard('{ArrowDown}{ArrowUp}')
  await focusOn(button('Take the card in'))
  await userEvent.keyboard('{Enter}')
  await expect.element(practice().getByRole('region', { name: 'What to do' })).toBeVisible()
  await idle()
  await focusOn(kind('Measure cold'))
  await userEvent.keyboard('{ArrowRight}')
  await expect.element(practice().getByRole('list', { name: 'Look' })).toBeVisible()
  await userEvent.keyboard('{Escape}')
  expect(app.desk.screen.getState().page).toBeUndefined()
})

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)('nothing is cut off and axe finds no fault on %s at %i', async (theme, width, height) => {
  await page.viewport(width, height)
  app.desk.screen.setState({ chosenTheme: theme })
  await expect.element(button('Take the card in')).toBeVisible()
  expect(await faultsOfPage()).toEqual([])
  await takeIn()
  await kind('Try and probe').click()
  expect(await faultsOfPage()).toEqual([])
  await button('Hand back').click()
  await page.getByRole('menuitem', { name: 'As repaired' }).click()
  await expect.element(practice().getByRole('region', { name: 'The truth' })).toBeVisible()
  expect(await faultsOfPage()).toEqual([])
})

async function faultsOfPage(): Promise<string[]> {
  const dialog = practice().element()
  const { violations } = await axe.run(dialog)
  const wide = [...dialog.querySelectorAll('*')].filter((each) => each.getBoundingClientRect().right > innerWidth + 1)
  return [
    ...violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`),
    ...wide.map(({ outerHTML }) => outerHTML.slice(0, 80)),
  ]
}
