/** Names of a report above the sheet: dragged, pressed, told by keys, filled by a pattern, undone; the same on the next report. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { step } from '../../src/case/index.ts'
import { lanesOfMeaning } from '../../src/report/index.ts'
import { exportCase } from '../../src/view/actions/exchange.ts'
import { wordsOf } from '../../src/view/stores/boardWords.ts'
import {
  drag,
  dropFile,
  focusOn,
  pageAt,
  readingNamed,
  type RunningApp,
  startApp,
  startOwn,
  waitUntil,
} from '../support/appExample.tsx'
import { drawn, handOn } from '../support/sheetHand.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: step(history, { ...history.present, reports: [] }) },
  )
  app.desk.screen.setState({
    station: 'memory-run',
    selection: undefined,
    chosenTheme: 'paper',
    message: undefined,
    naming: { closed: [] },
  })
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const card = (name: string) => why().getByRole('article', { name: `Report ${name}` })
const bar = () => page.getByRole('region', { name: 'Names of halves.txt' })
const chip = (name: string) => bar().getByRole('button', { name: new RegExp(`^${name}`) })
const reading = (name: string) => readingNamed(app.desk, name)
const model = () => {
  const { board } = app.desk.cases.getState()
  if (board === undefined) throw new Error('no board')
  return board.model
}
const told = () => {
  const present = app.desk.cases.getState().history?.present
  return present === undefined ? {} : Object.assign({}, ...wordsOf(present, model()).map(({ names }) => names))
}
const settled = (name: string) => waitUntil(() => !['reading', undefined].includes(reading(name)?.state))
const failing = (name: string) =>
  reading(name)
    ?.tally?.parts.filter((part) => part.errors > 0)
    .map((part) => part.ref)

/** Two names a package, in the order of refs: U14 fails, its first half more. */
const halves = Array.from({ length: 8 }, (_, i) =>
  ['low', 'high'].map((half, k) => `C${i} ${half}: ${i === 3 ? [1432, 12][k] : 0} errors`),
)
  .flat()
  .join('\n')

async function drop(name: string, text: string): Promise<void> {
  dropFile(new File([text], name, { type: 'text/plain' }), pageAt(app.desk, { x: 100, y: 40 }))
  await settled(name)
}

/** Where lanes of a package lie, in the page: the middle of their regions. */
function overLanes(meaning: string): { x: number; y: number } {
  const [lane = ''] = lanesOfMeaning(model(), meaning)
  const polygon = model().regionById.get(model().laneById.get(lane)?.memoryRegion ?? '')?.polygon ?? []
  const middle = (pick: (p: { x: number; y: number }) => number): number =>
    polygon.reduce((sum, p) => sum + pick(p), 0) / Math.max(1, polygon.length)
  return pageAt(app.desk, { x: middle((p) => p.x), y: middle((p) => p.y) })
}

const frame = (): Promise<void> => new Promise((done) => requestAnimationFrame(() => done()))

const centreOf = (element: Element): { x: number; y: number } => {
  const box = element.getBoundingClientRect()
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 }
}

test('a name dragged onto half of its package means that half; the pattern that agrees fills the rest and it is read', async () => {
  await drop('halves.txt', halves)
  await expect.element(bar().getByText('0 of 16 told')).toBeVisible()
  expect(card('halves.txt').getByText('read', { exact: true }).elements()).toEqual([])
  const [half = ''] = model()
    .channels.filter(({ parts }) => parts.includes('U14'))
    .map(({ id }) => id)
  await drawn()
  await drag([centreOf(await chip('C3 low').findElement()), overLanes(half)])
  await expect.element(chip('C3 low')).toHaveTextContent(/U14/)
  expect(told()).toEqual({ 'C3 low': half })
  await expect.element(bar().getByText('1 of 16 told')).toBeVisible()
  await bar().getByRole('button', { name: 'Fill in as shown' }).click()
  await waitUntil(() => reading('halves.txt')?.sure === 'sure' && reading('halves.txt')?.state === 'read')
  expect(failing('halves.txt')).toEqual(['U14'])
  await expect.element(card('halves.txt').getByText('16 of 16 told', { exact: false })).toBeVisible()
  // Undo takes the pattern back, then the first name: the report waits again, step by step.
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(told()).toEqual({ 'C3 low': half })
  await waitUntil(() => reading('halves.txt')?.state === 'read' && reading('halves.txt')?.sure !== 'sure')
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(told()).toEqual({})
  await expect.element(bar().getByText('0 of 16 told')).toBeVisible()
})

test('a press on a name and then on a package does the same, and a place beside all packages leaves it in the hand', async () => {
  await drop('halves.txt', halves)
  await bar().getByRole('button', { name: 'a package', exact: true }).click()
  await chip('C3 low').click()
  await drawn()
  const press = (at: { x: number; y: number }) => drag([at])
  await press(pageAt(app.desk, model().core?.placement.at ?? { x: 0, y: 0 }))
  expect(told()).toEqual({})
  await expect.element(chip('C3 low')).toHaveAttribute('aria-pressed', 'true')
  await press(pageAt(app.desk, model().partByRef.get('U12')?.placement.at ?? { x: 0, y: 0 }))
  expect(told()).toEqual({ 'C3 low': 'U12' })
  // The next name without a place is in the hand at once.
  await expect.element(chip('C3 high')).toHaveAttribute('aria-pressed', 'true')
  await userEvent.keyboard('{Escape}')
  await expect.element(chip('C3 high')).toHaveAttribute('aria-pressed', 'false')
})

test('keys alone tell a name, two names of one place are a conflict in words, and all are taken back at once', async () => {
  await drop('halves.txt', halves)
  await focusOn(chip('C0 low'))
  await userEvent.keyboard('{Enter}')
  await userEvent.selectOptions(bar().getByRole('combobox', { name: 'C0 low means' }), 'U11')
  await waitUntil(() => Object.keys(told()).length === 1)
  await userEvent.selectOptions(bar().getByRole('combobox', { name: 'C0 high means' }), 'U11')
  const conflicts = bar().getByRole('list', { name: 'What does not hold together' })
  await expect.element(conflicts.getByText('C0 low and C0 high both mean U11.')).toBeVisible()
  await expect.element(bar().getByText(/^No pattern fits/)).toBeVisible()
  await settled('halves.txt')
  await bar().getByRole('button', { name: 'Take all back' }).click()
  expect(told()).toEqual({})
})

test('what was told is exported with the board, known for the next report, and stands on the sheet at a switch', async () => {
  await drop('halves.txt', halves)
  await bar().getByRole('button', { name: 'Fill in as shown' }).click()
  await waitUntil(() => reading('halves.txt')?.sure === 'sure' && reading('halves.txt')?.state === 'read')
  const exported = await exportCase(app.desk)
  if (!exported.ok) throw new Error('not exported')
  const file: unknown = JSON.parse(await exported.value.bytes.text())
  expect(file).toMatchObject({ board: { inline: { reportWords: [{ names: { 'C3 low': 'CH6' } }] } } })
  await drop('next.txt', halves.replace('C5 low: 0', 'C5 low: 77'))
  await waitUntil(() => reading('next.txt')?.state === 'read')
  expect(reading('next.txt')?.sure).toBe('sure')
  expect(failing('next.txt')).toEqual(['U14', 'U16'])
  await drawn()
  const picture = (): string => document.querySelector<HTMLCanvasElement>('[data-pane] canvas')?.toDataURL() ?? ''
  const withRefs = picture()
  await page.getByRole('button', { name: 'The report’s names' }).click()
  await drawn()
  expect(picture() === withRefs).toBe(false)
  await why()
    .getByText(/^How reports speak of this board/)
    .click()
  await why()
    .getByRole('button', { name: /^Forget halves.txt/ })
    .click()
  await waitUntil(() => reading('next.txt')?.state === 'read' && reading('next.txt')?.sure !== 'sure')
  expect(told()).toEqual({})
})

test.each(['paper', 'chalk'] as const)('in %s nothing above the sheet is out of reach', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  await drop('halves.txt', halves)
  await chip('C0 low').click()
  const { violations } = await axe.run(document.body, { resultTypes: ['violations'] })
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([])
})

test('on a tablet the packages are all in view below the names', async () => {
  await page.viewport(820, 1180)
  await drop('halves.txt', halves)
  await expect.element(bar()).toBeVisible()
  await drawn()
  const sheetBox = document.querySelector('[data-testid="sheet"]')?.getBoundingClientRect()
  for (const part of model().memories) {
    const at = pageAt(app.desk, part.placement.at)
    expect(at.y).toBeGreaterThan(sheetBox?.top ?? 0)
    expect(at.y).toBeLessThan(sheetBox?.bottom ?? 0)
  }
})

test('on the sheet itself, by keys: a name in the hand goes to the first free half of the package where the keyboard stands', async () => {
  await drop('halves.txt', halves)
  await focusOn(chip('C1 low'))
  await userEvent.keyboard('{Enter}')
  await drawn()
  const { board } = app.desk.cases.getState()
  if (board === undefined) throw new Error('no board')
  const hand = handOn(document.body, board.camera)
  hand.element.focus()
  hand.key('Enter')
  const spoken = (): string => hand.element.querySelector('output')?.textContent ?? ''
  for (let presses = 0; presses < model().parts.length && !spoken().startsWith('U12,'); presses++) {
    hand.key('Tab')
    await frame()
  }
  expect(spoken()).toMatch(/^U12, memory/)
  hand.key('Enter')
  const [first, second] = model()
    .channels.filter(({ parts }) => parts.includes('U12'))
    .map(({ id }) => id)
  await waitUntil(() => Object.keys(told()).length === 1)
  expect(told()).toEqual({ 'C1 low': first })
  await drawn()
  hand.key('Enter')
  await waitUntil(() => Object.keys(told()).length === 2)
  expect(told()).toEqual({ 'C1 low': first, 'C1 high': second })
})

test('the next card of the same board knows the names, and a demo takes none from other cards', async () => {
  await drop('halves.txt', halves)
  await bar().getByRole('button', { name: 'Fill in as shown' }).click()
  await waitUntil(() => reading('halves.txt')?.sure === 'sure' && reading('halves.txt')?.state === 'read')
  expect(app.desk.shopWords.of('bowline-8')).toHaveLength(1)
  await startOwn(app.desk)
  expect(Object.keys(told())).toHaveLength(16)
  app.desk.screen.setState({ station: 'memory-run' })
  await drop('another.txt', halves)
  await waitUntil(() => reading('another.txt')?.state === 'read')
  expect(reading('another.txt')?.sure).toBe('sure')
  expect(failing('another.txt')).toEqual(['U14'])
  await app.reset()
  expect(told()).toEqual({})
})
