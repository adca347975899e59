/** The shop's own record as hand and keys meet it: confirmed at hand-back, shown, put in use, handed out and taken in. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import type { PassEntry } from '../../src/plan/index.ts'
import { countCards, countsFileOf, readCounts } from '../../src/rehearsal/index.ts'
import { editArrival, undoEdit } from '../../src/view/actions/edit.ts'
import { defaultAssumptions } from '../../src/suspects/index.ts'
import { dropLastNoted, logPass } from '../../src/view/stations/plan/askPlan.ts'
import { focusOn, dropFile, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { keepClosedCases } from '../support/closedCases.ts'

const CARDS = 24

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  for (let n = 0; n < CARDS; n++) await app.desk.caseShelf.remove(`closed-${n}`)
  await app.desk.caseShelf.setRecordChoice({ inUse: false, pools: [] })
  app.desk.screen.setState({ page: undefined, chosenTheme: 'paper', station: 'hand-back', selection: undefined })
})
afterAll(() => app.close())

const record = () => page.getByRole('dialog', { name: 'The shop’s own record' })
const why = () => page.getByRole('complementary', { name: 'Why' })
const present = () => app.desk.cases.getState().history?.present
/** What stands behind the line of the hand-back comes into sight. */
async function openWrong(): Promise<void> {
  const line = (): HTMLElement | undefined =>
    [...document.querySelectorAll('aside summary')].find(
      (summary): summary is HTMLElement =>
        summary instanceof HTMLElement && summary.textContent.startsWith('What was wrong'),
    )
  await waitUntil(() => line() !== undefined)
  const summary = line()
  if (summary?.closest('details')?.open === false) await userEvent.click(summary)
}
const asOwn = (): void =>
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: { ...history, present: { ...history.present, demo: false } } },
  )
const open = async (): Promise<void> => {
  app.desk.screen.setState({ page: 'own-record' })
  await expect.element(record().getByRole('region', { name: 'Cards that count' })).toBeVisible()
}
const restored = async (): Promise<void> => {
  for (let n = 0; n < CARDS; n++) await app.desk.caseShelf.restore(`closed-${n}`)
  await keepClosedCases(app.desk.caseShelf, CARDS)
}

test('the menu leads to the record, Escape leads back, and an empty one says so plainly', async () => {
  await page.getByRole('button', { name: 'Open', exact: true }).click()
  await page.getByRole('menuitem', { name: 'The shop’s own record' }).click()
  await expect.element(record().getByText('No closed card counts yet')).toBeVisible()
  await expect.element(record().getByText(/Nothing can be said yet/)).toBeVisible()
  await expect.element(record().getByText('Nothing yet: every figure is as it ships.')).toBeVisible()
  await expect.element(record().getByRole('button', { name: 'Export this shop’s counts' })).toBeDisabled()
  await userEvent.keyboard('3{Escape}')
  expect(app.desk.screen.getState()).toMatchObject({ page: undefined, station: 'hand-back' })
})

test('what was wrong is offered from the log and confirmed with one key; what had been foretold is kept', async () => {
  asOwn()
  const said = app.desk.results.getState().assessment?.suspects
  logPass(app.desk, {
    action: 'lift',
    refs: ['U13'],
    outcome: 'done',
    measured: [],
    found: [{ ref: 'U13', what: ['wet'] }],
    replaced: false,
  })
  expect(present()?.foretold?.lift).toEqual(said?.lift)
  expect(present()?.foretold?.failing).toContain('U13.A0')
  await openWrong()
  await expect.element(why().getByRole('combobox', { name: 'What U13 turned out to be' })).toHaveValue('under')
  await focusOn(why().getByRole('radio', { name: 'not confirmed' }))
  await userEvent.keyboard('{ArrowRight}')
  await waitUntil(() => present()?.handBack.causes?.settled === 'all')
  expect(present()?.handBack.causes?.parts).toEqual([{ ref: 'U13', was: 'under', harmed: false }])
  await expect.element(why().getByText('Confirmed: it counts once the outcome is chosen.')).toBeVisible()
  await why().getByRole('radio', { name: 'repaired', exact: true }).click()
  await expect.element(why().getByText('Confirmed: it counts.')).toBeVisible()
})

test('a card that was never lifted keeps what was foretold once it is confirmed', async () => {
  asOwn()
  await openWrong()
  await why().getByRole('checkbox', { name: 'a rail', exact: true }).click()
  await why().getByRole('combobox', { name: 'Which: a rail' }).selectOptions('VMEM')
  await why().getByRole('radio', { name: 'yes, all of it' }).click()
  await waitUntil(() => present()?.foretold !== undefined)
  expect(present()?.handBack.causes).toEqual({ settled: 'all', parts: [], others: [{ what: 'rail', at: 'VMEM' }] })
  expect(present()?.foretold?.stories.length).toBeGreaterThan(0)
})

test('taking the only pass back takes back what was kept of before it', () => {
  const pass: Omit<PassEntry, 'action'> = { refs: ['U13'], outcome: 'done', measured: [], found: [], replaced: false }
  logPass(app.desk, { ...pass, action: 'lift' })
  const kept = present()?.foretold
  expect(kept).toBeDefined()
  logPass(app.desk, { ...pass, action: 'refit' })
  dropLastNoted(app.desk)
  expect(present()?.foretold).toBe(kept)
  dropLastNoted(app.desk)
  expect(present()?.foretold).toBeUndefined()
})

test('closed cards are counted, set beside what ships, and held against what had been said', async () => {
  await restored()
  await open()
  await expect.element(record().getByRole('heading', { name: `${CARDS} closed cards count` })).toBeVisible()
  const stories = record().getByRole('table', { name: 'Stories and lists against what was found' })
  await expect
    .element(stories.getByRole('row', { name: /The first story named what was wrong/ }))
    .toHaveTextContent('18 of 24')
  await expect.element(stories.getByRole('row', { name: /One of the first three/ })).toHaveTextContent('24 of 24')
  await expect.element(record().getByText(/24 cards are few/)).toBeVisible()
  await expect.element(record().getByRole('table', { name: 'By month' })).toBeVisible()
  await record()
    .getByText(/How often each cause occurs/)
    .click()
  const causes = record().getByRole('table', { name: 'How often each cause occurs' })
  await expect
    .element(causes.getByRole('row', { name: /a memory package is bad in itself/ }))
    .toHaveTextContent('8 of 192 packages')
  // no such joints in 24 cards, against fifty that ship
  const joints = (((defaultAssumptions.prior.joints * 50) / 74) * 100).toFixed(2)
  await expect.element(causes.getByRole('row', { name: /joints under one lane/ })).toHaveTextContent(joints)
  await expect.element(record().getByText(/of such cards have anything wrong/)).toBeVisible()
})

test('put in use, the record stands under the open case and the station says so; undo does not take it away', async () => {
  await restored()
  asOwn()
  await open()
  await record()
    .getByRole('checkbox', { name: /Use this record/ })
    .click()
  await waitUntil(() => present()?.ownRecord !== undefined)
  expect(present()?.ownRecord).toMatchObject({ cards: CARDS, boardAlone: true })
  expect(present()?.ownRecord?.figures.prior?.joints).toBeLessThan(defaultAssumptions.prior.joints)
  await record().getByRole('button', { name: 'Back to the case' }).click()
  app.desk.screen.setState({ station: 'suspects' })
  await expect.element(why().getByText(/Judged with the shop’s own record: 24 closed cards of bowline-8/)).toBeVisible()
  editArrival(app.desk, { seen: 'stripes' })
  undoEdit(app.desk)
  undoEdit(app.desk)
  expect(present()?.ownRecord?.cards).toBe(CARDS)
  await app.desk.caseShelf.setRecordChoice({ inUse: false, pools: [] })
  await waitUntil(() => present()?.ownRecord === undefined)
})

test('counts go out without names, and those of others come in once, renamed and out again', async () => {
  await restored()
  await open()
  let saved: Blob | undefined
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined)
  const address = vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
    saved = blob instanceof Blob ? blob : undefined
    return 'blob:none'
  })
  await record().getByRole('button', { name: 'Export this shop’s counts' }).click()
  click.mockRestore()
  address.mockRestore()
  const text = (await saved?.text()) ?? ''
  for (const secret of ['bowline', 'Ann', 'U13', '2026', 'k1']) expect(text).not.toContain(secret)
  expect(readCounts(text).ok).toBe(true)

  const theirs = countCards([])
  const other = JSON.stringify(
    countsFileOf(
      { ...theirs, all: { cards: 3, shares: { 'prior.core': { hits: 2, tries: 3 } }, minutes: {} } },
      'without boards',
    ),
  )
  const input = () => document.querySelector<HTMLInputElement>('input[aria-label="File of counts to take in"]')
  const takeIn = (content: string, name: string): void => {
    const element = input()
    if (element === null) throw new Error('no chooser')
    const files = new DataTransfer()
    files.items.add(new File([content], name))
    element.files = files.files
    element.dispatchEvent(new Event('change', { bubbles: true }))
  }
  takeIn(text, 'ours.json')
  await expect.element(record().getByText(/this shop’s own counts/)).toBeVisible()
  takeIn(other, 'harbour.counts.json')
  await expect.element(record().getByText('“harbour” was added: 3 cards.')).toBeVisible()
  await expect.element(record().getByText(`${CARDS} closed cards count, and 3 of other shops`)).toBeVisible()
  takeIn(other, 'harbour again.json')
  await expect.element(record().getByText(/These very counts are here already, as “harbour”/)).toBeVisible()
  takeIn('{}', 'nothing.json')
  await expect.element(record().getByText(/no file of counts/)).toBeVisible()
  const name = record().getByRole('textbox', { name: 'Name of these counts' })
  await name.fill('the harbour shop')
  await userEvent.keyboard('{Enter}')
  await record().getByRole('button', { name: 'Take “the harbour shop” out again' }).click()
  await expect
    .element(record().getByRole('heading', { name: `${CARDS} closed cards count`, exact: true }))
    .toBeVisible()
})

test('a file of counts that is dropped on the sheet goes into the record, not among the reports', async () => {
  const all = { cards: 9, shares: { 'prior.core': { hits: 4, tries: 9 } }, minutes: {} }
  const text = JSON.stringify({ format: 'liftmap-counts', version: 1, all })
  const reports = present()?.reports.length
  dropFile(new File([text], 'canal.json'), { x: 600, y: 500 })
  await expect.element(page.getByText('“canal” was added: 9 cards')).toBeVisible()
  expect(present()?.reports.length).toBe(reports)
  await open()
  await expect
    .element(record().getByRole('heading', { name: 'No closed card counts yet, and 9 of other shops' }))
    .toBeVisible()
})

const violations = (found: axe.AxeResults): string[] =>
  found.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 200)}`))

const openAll = (): void => {
  for (const details of document.querySelectorAll('details')) details.open = true
}

test.each(['paper', 'chalk'] as const)('axe finds nothing on the page and in the hand-back on %s', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  logPass(app.desk, { action: 'lift', refs: ['U13'], outcome: 'done', measured: [], found: [], replaced: false })
  await openWrong()
  await expect.element(why().getByRole('combobox', { name: 'What U13 turned out to be' })).toBeVisible()
  expect(violations(await axe.run(document.body, { iframes: false }))).toEqual([])
  await restored()
  await open()
  openAll()
  expect(violations(await axe.run(document.body, { iframes: false }))).toEqual([])
})

test.each([
  ['a tablet held upright', 820, 1180],
  ['a wide screen', 1440, 900],
])('on %s nothing of the page is cut off or under 12 px', async (_, width, height) => {
  await page.viewport(width, height)
  await restored()
  await open()
  openAll()
  const all = [...document.querySelectorAll('[role="dialog"] *')]
  const cut = all.filter((element) => {
    const box = element.getBoundingClientRect()
    if (box.width === 0 || element.closest('.visually-hidden') !== null) return false
    return box.right > width + 1 || box.left < -1
  })
  expect(cut.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
  const small = all.filter(
    (element) =>
      [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '') &&
      Number.parseFloat(getComputedStyle(element).fontSize) < 12,
  )
  expect(small.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
})

test('the page is gone through by keys alone', async () => {
  await restored()
  await open()
  await waitUntil(() => record().query()?.contains(document.activeElement) ?? false)
  const met: string[] = []
  for (let i = 0; i < 80; i++) {
    await userEvent.keyboard('{Tab}')
    const on = document.activeElement
    met.push(on?.getAttribute('aria-label') ?? on?.textContent ?? '')
    if (on instanceof HTMLInputElement && on.type === 'checkbox') met.push(on.labels?.[0]?.textContent ?? '')
  }
  for (const wanted of [
    /Back to the case/,
    /Use this record/,
    /The same as a table/,
    /Minutes/,
    /Export/,
    /Take in a file/,
  ])
    expect(met.some((words) => wanted.test(words))).toBe(true)
})

test('an owner who is to be asked stands on the page, and one press leads to the answer', async () => {
  asOwn()
  app.desk.cases.setState(({ history }) =>
    history === undefined
      ? {}
      : {
          history: {
            ...history,
            present: {
              ...history.present,
              handBack: { ...history.present.handBack, outcome: 'repaired', on: '2020-03-02' },
            },
          },
        },
  )
  await open()
  await expect.element(record().getByRole('heading', { name: '1 owner to ask' })).toBeVisible()
  await record().getByRole('button', { name: 'Ask about 0417' }).click()
  expect(app.desk.screen.getState()).toMatchObject({ page: undefined, station: 'hand-back' })
  await expect.element(why().getByText(/due since 13 April 2020/)).toBeVisible()
})
