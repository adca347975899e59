/** The app as the hand meets it: first start, the three gestures, files that are wrong, the find box, the keyboard alone. */
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { editCase } from '../../src/view/actions/edit.ts'
import { putOnDesk } from '../../src/view/actions/putOnDesk.ts'
import {
  drag,
  dropFile,
  liftedRefs,
  otherReportText,
  pageAt,
  type RunningApp,
  startApp,
  startOwn,
  waitForLiftList,
  waitUntil,
} from '../support/appExample.tsx'
import { sees } from '../support/waiting.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(() => app.reset())
afterAll(() => app.close())

const spillOf = () => app.desk.cases.getState().history?.present.marks.find((mark) => mark.kind === 'spill')
const why = () => page.getByRole('complementary', { name: 'Why' })

test('the first start shows a demo case that says it is one, with every station filled in', async () => {
  await expect.element(page.getByText('Demo card: invented.')).toBeVisible()
  const stations = page.getByRole('navigation', { name: 'Stations' })
  for (const name of ['Arrival', 'Memory run', 'Inspection', 'Spill', 'Suspects']) {
    await expect.element(stations.getByRole('button', { name: new RegExp(`^${name}`) })).toHaveTextContent('filled in')
  }
  expect(liftedRefs()).toContain('U1')
})

test('the note on the demo goes when one begins a case of one’s own, and so does all that was invented', async () => {
  await startOwn(app.desk)
  await expect.element(page.getByText('Demo card: invented.')).not.toBeInTheDocument()
  expect(app.desk.cases.getState().history?.present.marks).toEqual([])
  await expect.element(page.getByRole('heading', { name: 'Arrival' })).toBeVisible()
})

test('an answer that is still on its way when another case takes the desk is not taken for that case’s', async () => {
  await waitForLiftList()
  editCase(app.desk, (c) => ({
    ...c,
    marks: c.marks.map((mark) => (mark.kind === 'spill' ? { ...mark, at: { x: mark.at.x + 3, y: mark.at.y } } : mark)),
  }))
  expect(app.desk.results.getState().state).toBe('working')
  const drawn: number[] = []
  const ofItsOwn = app.desk.cases.getState().id
  const end = app.desk.results.subscribe(({ assessment }) => {
    if (app.desk.cases.getState().id !== ofItsOwn) drawn.push(assessment?.reaches.length ?? 0)
  })
  const { history, board } = app.desk.cases.getState()
  if (history === undefined || board === undefined) throw new Error('no case')
  putOnDesk(app.desk, { ...history.present, marks: [], reports: [] }, board.model)
  await waitUntil(() => app.desk.results.getState().state === 'done')
  end()
  expect(Math.max(...drawn)).toBe(0)
})

test('pointing at a spill is one key and one click, and the reach is told at once', async () => {
  await startOwn(app.desk)
  await userEvent.keyboard('s')
  const at = pageAt(app.desk, { x: 148, y: 82 })
  await drag([at])
  await waitUntil(() => spillOf() !== undefined)
  const mark = spillOf()
  expect(mark?.kind === 'spill' && Math.hypot(mark.at.x - 148, mark.at.y - 82)).toBeLessThan(0.6)
  await expect.element(why().getByText(/It spreads .* mm and covers/)).toBeVisible()
  expect(app.desk.screen.getState().tool).toBe('select')
})

test('dragging the spill moves reach and lift list while the hand moves, and undo brings it back in one step', async () => {
  const before = app.desk.results.getState().assessment
  const from = pageAt(app.desk, { x: 147, y: 84 })
  const to = pageAt(app.desk, { x: 100, y: 30 })
  const seen = new Set<unknown>()
  const end = app.desk.results.subscribe(({ assessment }) => seen.add(assessment?.reaches[0]?.reach))
  const path = Array.from({ length: 10 }, (_, i) => ({
    x: from.x + ((to.x - from.x) * i) / 9,
    y: from.y + ((to.y - from.y) * i) / 9,
  }))
  await drag(path)
  await waitUntil(() => app.desk.results.getState().state === 'done' && seen.size > 1)
  end()
  const reached = (ref: string) =>
    app.desk.results.getState().assessment?.reaches[0]?.reach.parts.find((part) => part.ref === ref)?.probability ?? 0
  const reachedBefore = before?.reaches[0]?.reach.parts.find((part) => part.ref === 'U13')?.probability ?? 0
  expect(reached('U13')).toBeLessThan(reachedBefore)
  expect(app.desk.results.getState().assessment?.suspects.stories).not.toEqual(before?.suspects.stories)
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  const mark = spillOf()
  expect(mark?.kind === 'spill' && mark.at).toEqual({ x: 147, y: 84 })
})

test('a report that is dropped on the sheet is read, and the lift list follows it', async () => {
  dropFile(new File([otherReportText], 'run-2.csv'), pageAt(app.desk, { x: 122, y: 60 }))
  await expect.element(page.getByRole('article', { name: 'Report run-2.csv' })).toHaveTextContent('32 rows read')
  await page.getByRole('button', { name: 'Remove run-1.csv' }).click()
  await waitUntil(() => liftedRefs().includes('U17'))
})

/** With room for a message below it, wherever the view of the board is. */
function middleOfSheet(): { x: number; y: number } {
  const sheet = document.querySelector('[data-testid="sheet"]')
  if (sheet === null) throw new Error('no sheet yet')
  const { left, top, width, height } = sheet.getBoundingClientRect()
  return { x: left + width / 2, y: top + height / 3 }
}

test('what is wrong with a dropped board is told where it was dropped, all of it, and nothing changes', async () => {
  const before = app.desk.cases.getState()
  const at = middleOfSheet()
  const wrong = { format: 'liftmap-board', version: 1, name: 5, outline: [], parts: [{ ref: 'U1' }] }
  dropFile(new File([JSON.stringify(wrong)], 'wrong.json'), at)
  const popover = page.getByRole('dialog', { name: 'wrong.json was not opened' })
  await expect.element(popover).toBeVisible()
  await expect.element(popover).toHaveTextContent('$.name')
  await expect.element(popover).toHaveTextContent('$.outline')
  await expect.element(popover).toHaveTextContent('$.parts[0].kind')
  await sees(() => {
    const box = popover.element().getBoundingClientRect()
    expect(Math.hypot(box.left + box.width / 2 - at.x, box.top - at.y)).toBeLessThan(60)
  })
  expect(app.desk.cases.getState()).toBe(before)
  await userEvent.keyboard('{Escape}')
  await expect.element(popover).not.toBeInTheDocument()
})

test.each([
  [
    'bytes that are no text',
    new File([new Uint8Array([0x1f, 0x8b, 8, 0, 0, 0, 1, 0, 0])], 'run.gz'),
    'run.gz was not taken',
  ],
  [
    'a packed case that is cut off',
    new File([new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 1, 0, 0])], 'card.case.zip'),
    'card.case.zip was not opened',
  ],
  ['an empty file', new File([''], 'empty.log'), 'empty.log was not taken'],
  [
    'a case of a newer program',
    new File(['{"format":"liftmap-case","version":9}'], 'new.json'),
    'new.json was not opened',
  ],
  ['text without a row', new File(['Dear shop,\nplease repair it.\n'], 'letter.txt'), 'letter.txt was not read'],
  [
    'a layout that breaks off',
    new File(['(kicad_pcb (version 20211014) (layers'], 'cut.kicad_pcb'),
    'cut.kicad_pcb was not imported',
  ],
])('%s: the drop says what it is', async (_, file, title) => {
  const before = app.desk.cases.getState().history
  dropFile(file, { x: 700, y: 500 })
  await expect.element(page.getByRole('dialog', { name: title })).toBeVisible()
  expect(app.desk.cases.getState().history).toBe(before)
})

test('the find box takes parts, rails and lanes, and shows what is chosen on the sheet', async () => {
  await userEvent.keyboard('/')
  await userEvent.keyboard('u17.b')
  await expect.element(page.getByRole('listbox').getByRole('option').first()).toHaveTextContent('U17.B0')
  await userEvent.keyboard('{ArrowDown}{Enter}')
  expect(app.desk.screen.getState().selection).toEqual({ kind: 'lane', id: 'U17.B1' })
  const at = pageAt(
    app.desk,
    app.desk.cases.getState().board?.model.partByRef.get('U17')?.placement.at ?? { x: 0, y: 0 },
  )
  const sheet = page.getByTestId('sheet').element().getBoundingClientRect()
  expect(at.x > sheet.left && at.x < sheet.right && at.y > sheet.top && at.y < sheet.bottom).toBe(true)
  await expect.element(why().getByRole('heading', { name: 'Lane U17.B1' })).toBeVisible()
})

test('the keyboard alone gets from the start to the evidence of the first part on the lift list', async () => {
  const reached = () => (document.activeElement === document.body ? '' : (document.activeElement?.textContent ?? ''))
  for (let presses = 0; presses < 60 && !reached().includes('show its evidence'); presses++)
    await userEvent.keyboard('{Tab}')
  const first = liftedRefs()[0] ?? 'none'
  expect(reached()).toContain(first)
  await userEvent.keyboard('{Enter}')
  await expect.element(why().getByRole('heading', { name: `Evidence for ${first}` })).toBeInTheDocument()
  await userEvent.keyboard('{Escape}')
  await expect.element(why().getByRole('heading', { name: 'Lift list' })).toBeVisible()
})

test('a mark can be typed, changed and taken away without the sheet', async () => {
  await page.getByRole('button', { name: /^Inspection/ }).click()
  await page.getByText('Type a mark’s place instead').click()
  await page.getByRole('textbox', { name: 'x from the left' }).fill('120.5')
  await page.getByRole('button', { name: 'Add this mark' }).click()
  const added = () =>
    app.desk.cases.getState().history?.present.marks.find((mark) => mark.kind === 'residue' && mark.id !== 'residue-a')
  await waitUntil(() => added() !== undefined)
  const mark = added()
  expect(mark?.kind === 'residue' && mark.at.x).toBe(120.5)
  await page.getByRole('button', { name: 'Remove Residue' }).last().click()
  expect(added()).toBeUndefined()
})

test('a saved case opens again with board, report and marks inside', async () => {
  const { caseToSave } = await import('../../src/view/actions/exchange.ts')
  const saved = await caseToSave(app.desk)
  const text = saved.ok ? saved.value : ''
  await startOwn(app.desk)
  dropFile(new File([text], 'card.case.json'), { x: 700, y: 500 })
  await waitUntil(() => app.desk.cases.getState().history?.present.marks.length === 3)
  await waitForLiftList()
  expect(JSON.parse(text).reports[0].text).toContain('lane,errors')
})

test('a layout that is dropped begins a case on its board, and what it does not tell is listed', async () => {
  const { default: layout } = await import('../fixtures/kicad/version-5.kicad_pcb?raw')
  dropFile(new File([layout], 'version-5.kicad_pcb'), { x: 700, y: 500 })
  const note = page.getByRole('dialog', { name: /version-5.kicad_pcb is on the sheet/ })
  await expect.element(note).toHaveTextContent('No part could be told to be memory')
  expect(app.desk.cases.getState().board?.model.parts).toHaveLength(6)
  await waitUntil(() => (app.desk.cases.getState().board?.camera.getState().width ?? 0) > 0)
})

test('a spill off the board is said to be off it, with what to do', async () => {
  await waitUntil(() => document.querySelector('[data-pane="top"][data-drawn="yes"]') !== null)
  const spill = page.getByRole('group', { name: 'What the hand does' }).getByRole('button', { name: /^Spill/ })
  await spill.click()
  await expect.element(spill).toHaveAttribute('aria-pressed', 'true')
  const board = app.desk.cases.getState().board
  board?.camera.getState().fit()
  await drag([pageAt(app.desk, { x: board?.model.box.minX ?? 0, y: (board?.model.box.minY ?? 0) - 5 })])
  await expect.element(page.getByRole('list', { name: 'What could not be worked out' })).toBeVisible()
})
