/** Next checks as the hand meets them: ranked, answered, taken back, undone, shown on the sheet; by keys, with axe, on a tablet. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { editCase, undoEdit } from '../../src/view/actions/edit.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
  await waitUntil(isRanked)
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ station: 'suspects', selection: undefined, chosenTheme: 'paper' })
  await waitUntil(isRanked)
})
afterAll(() => app.close())

const rows = (): HTMLElement[] => [
  ...document.querySelectorAll<HTMLElement>('ol[aria-label="Next checks, best first"] > li'),
]
const questions = (): string[] => rows().map((row) => row.querySelector('p')?.textContent ?? '')
const ranked = () => app.desk.nextChecks.getState().ranked?.checks ?? []
/** The list stands for the case as it is now. */
const isRanked = (): boolean => {
  const present = app.desk.cases.getState().history?.present
  const asked = ranked().some(({ check, at }) =>
    present?.checks.some((answer) => answer.check === check && answer.at === at),
  )
  return (
    app.desk.nextChecks.getState().state === 'done' &&
    app.desk.results.getState().state === 'done' &&
    !asked &&
    rows().length > 0
  )
}
const present = () => app.desk.cases.getState().history?.present
const firstStories = (): string =>
  [...document.querySelectorAll('section')].find((part) => part.textContent.startsWith('Stories that explain'))
    ?.textContent ?? ''
const buttonIn = (row: HTMLElement | undefined, name: string): HTMLButtonElement => {
  const found = [...(row?.querySelectorAll('button') ?? [])].find((button) => button.textContent.trim() === name)
  if (found === undefined) throw new Error(`no button ${name}`)
  return found
}
/** The row of the first check of a kind, the list opened as far as needed. */
async function rowWith(wanted: (check: ReturnType<typeof ranked>[number]) => boolean): Promise<HTMLElement> {
  const question = ranked().find(wanted)?.question
  if (question === undefined) throw new Error('no such check is ranked')
  for (;;) {
    const row = rows().find((each) => each.textContent.includes(question))
    if (row !== undefined) return row
    await page.getByRole('button', { name: /^Show \d+ more$/ }).click()
  }
}

test('the best stands first, the others one press behind it, each with its minutes, what it tells and what either outcome changes', async () => {
  expect(rows()).toHaveLength(1)
  await page.getByRole('button', { name: /^Show \d+ more$/ }).click()
  expect(questions()[0]).toBe(ranked()[0]?.question)
  const shown = rows().map((row) => ranked().find(({ question }) => question === row.querySelector('p')?.textContent))
  for (const [i, row] of rows().entries()) {
    const check = shown[i]
    expect(row.textContent).toContain(`${check?.minutes} min`)
    expect(row.textContent).toMatch(/\d min, saves (about \d+|little)/)
    if (check?.ifFound !== undefined) expect(row.textContent).toMatch(/If so, .+If not, /)
    if (check?.caution !== undefined) expect(row.textContent).toContain(check.caution)
  }
  // The same check at several lanes of one part is met once among them.
  const atLanes = shown.flatMap((check) => (check?.lanes.length === 1 ? [`${check.check} ${check.refs.join()}`] : []))
  expect(new Set(atLanes).size).toBe(atLanes.length)
})

test('an answer moves the stories, is listed with its outcome and not asked again; undo brings all of it back', async () => {
  const before = { stories: firstStories(), question: questions()[0] }
  const row = await rowWith(({ entry }) => entry === 'check')
  const question = row.querySelector('p')?.textContent
  buttonIn(row, 'Found').click()
  await waitUntil(() => firstStories() !== before.stories && isRanked())
  expect(ranked().map((check) => check.question)).not.toContain(question)
  const done = page.getByRole('list', { name: 'Checks that were done' })
  await expect.element(done).toBeVisible()
  expect(done.element().querySelectorAll('li')).toHaveLength(1)
  undoEdit(app.desk)
  await waitUntil(() => firstStories() === before.stories && present()?.checks.length === 0)
  await expect.element(done).not.toBeInTheDocument()
})

test('what was foretold for an outcome is what the lift list says then', async () => {
  const isSettled = (): boolean => app.desk.results.getState().state === 'done' && isRanked()
  await waitUntil(isSettled)
  const row = await rowWith(({ entry, ifNot }) => entry === 'check' && (ifNot?.parts.length ?? 0) > 0)
  const told = ranked().find(({ question }) => row.textContent.includes(question))?.ifNot
  const before = app.desk.results.getState().assessment
  buttonIn(row, 'Nothing found').click()
  await waitUntil(() => app.desk.results.getState().assessment !== before && isSettled())
  const parts = app.desk.results.getState().assessment?.suspects.parts ?? []
  for (const { ref, after } of told?.parts ?? []) {
    expect(parts.find((part) => part.ref === ref)?.probability).toBeCloseTo(after, 2)
  }
})

test('a place that was looked at becomes a mark there', async () => {
  const row = await rowWith(({ look }) => look !== undefined)
  const place = ranked().find(({ question }) => row.textContent.includes(question))?.look
  buttonIn(row, 'Nothing found').click()
  await waitUntil(() => present()?.marks.some(({ id }) => id === place?.mark.id) ?? false)
  const mark = present()?.marks.find(({ id }) => id === place?.mark.id)
  expect(mark).toMatchObject({ kind: 'clean', at: place?.mark.at, side: 'top' })
})

test('a measurement is made at the measuring sheet, with its rail selected', async () => {
  const lanes = app.desk.cases.getState().board?.model.lanes ?? []
  const table = lanes.map(({ id }) => ({ lane: id, errors: 40 }))
  editCase(app.desk, (c) => ({
    ...c,
    marks: [],
    reports: [{ id: 'r', name: 'all fail', run: 'first', coversAll: false, table }],
  }))
  await waitUntil(() => isRanked() && ranked().some(({ check, bits }) => check === 'rail-cold' && bits > 0.001))
  const check = ranked().find((each) => each.check === 'rail-cold')
  buttonIn(await rowWith(({ question }) => question === check?.question), 'Measure it').click()
  expect(app.desk.screen.getState().station).toBe('cold-measuring')
  expect(app.desk.screen.getState().selection).toEqual({ kind: 'rail', id: check?.at })
})

test('by keys alone: a row lights its place up, Enter answers, the answer is taken back', async () => {
  const row = await rowWith(({ entry, refs }) => entry === 'check' && refs.length > 0)
  buttonIn(row, 'Found').focus()
  expect(app.desk.screen.getState().hovered).toBeDefined()
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => present()?.checks.length === 1)
  const back = page.getByRole('button', { name: /^Take back: / })
  await expect.element(back).toBeVisible()
  await focusOn(back)
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => present()?.checks.length === 0)
})

test('axe finds nothing, on a wide screen and on a tablet, with a check done and the ranking explained', async () => {
  buttonIn(await rowWith(({ entry }) => entry === 'check'), 'Found').click()
  await waitUntil(() => present()?.checks.length === 1 && isRanked())
  await page.getByText('How they are ranked').click()
  for (const [width, height] of [
    [1440, 900],
    [820, 1180],
  ] as const) {
    await page.viewport(width, height)
    const { violations } = await axe.run(document.body)
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([])
    for (const row of rows()) {
      for (const button of row.querySelectorAll<HTMLElement>('button')) {
        // a number is a word in a line
        const leastPx = button.dataset['figure'] === undefined ? 32 : 24
        expect(button.getBoundingClientRect().height).toBeGreaterThanOrEqual(leastPx)
      }
      expect(row.getBoundingClientRect().right).toBeLessThanOrEqual(width)
    }
  }
})

test('what to do first stands in steps with what then depends on what is seen; other ways open beside it, dearer', async () => {
  const proposal = app.desk.nextChecks.getState().proposal
  const steps = [...document.querySelectorAll<HTMLElement>('ol[aria-label="Proposed steps"] > li')]
  expect(steps).toHaveLength(proposal?.steps.length ?? 0)
  expect(steps[0]?.textContent).toContain('Wash the card and dry it')
  expect(steps[0]?.textContent).toMatch(
    /Test again\. If it passes \(\d+\s%\), run it for hours, warm and from cold, then hand it back\./,
  )
  await page.getByText(/^\d other ways?$/).click()
  const other = proposal?.others[0]
  await expect.element(page.getByText(other?.name ?? 'none', { exact: true })).toBeVisible()
  expect(other?.expectedCost).toBeGreaterThan(proposal?.expectedCost ?? Number.POSITIVE_INFINITY)
})

test('a card noted as washed and dried is proposed another beginning at once', async () => {
  const before = app.desk.nextChecks.getState().proposal
  editCase(app.desk, (c) => ({ ...c, cleaned: { marks: c.marks.map(({ id }) => id), note: 'washed, dried' } }))
  await waitUntil(() => isRanked() && app.desk.nextChecks.getState().proposal !== before)
  expect(app.desk.nextChecks.getState().proposal?.steps[0]?.action).not.toBe('wash')
  undoEdit(app.desk)
})
