/** The short finder as the hand meets it: a hunt is started, read by keyboard and by the sheet, answered, undone, removed. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import type { BoardModel } from '../../src/board/index.ts'
import { contactAt, createShortFinder, createSolver, valueAtContact } from '../../src/measure/index.ts'
import { shortStoreOf } from '../../src/view/stations/measuring/short/shortStore.ts'
import { focusOn, drag, pageAt, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  shortStoreOf(app.desk).setState({ open: undefined, answer: undefined, place: undefined, state: 'none' })
  app.desk.screen.setState({ station: 'cold-measuring', selection: undefined, tool: 'select', chosenTheme: 'paper' })
})
afterAll(() => app.close())

const finder = () => page.getByRole('region', { name: 'Short finder' })
const shorts = () => app.desk.cases.getState().history?.present.shorts ?? []
const answer = () => shortStoreOf(app.desk).getState().answer
const answeredFor = (readings: number): boolean =>
  shortStoreOf(app.desk).getState().state === 'done' && answer()?.readings.length === readings

async function startOn(rail: string): Promise<void> {
  const field = finder().getByRole('combobox', { name: /^(Rail|Another rail)$/ })
  await field.selectOptions(rail)
  await finder().getByRole('button', { name: 'Start search' }).click()
  await waitUntil(() => shorts().length === 1 && answeredFor(0))
}

/** A meter over the rail's copper with the short at a place, 40 mV above ground. */
function meter(model: BoardModel, rail: string, short: { x: number; y: number }, ampere: number) {
  const sheets = createShortFinder(model).sheetsFor({ rail })
  const sheet = sheets.ok ? sheets.value.pieces[0]?.sheet : undefined
  const source = shorts()[0]?.sourceAt
  const ins = sheet && source && contactAt(sheet, source)
  const outs = sheet && contactAt(sheet, short)
  if (sheet === undefined || ins === undefined || outs === undefined) throw new Error('no copper there')
  const currents = new Float64Array(sheet.cells.length)
  for (const [i, node] of ins.nodes.entries()) currents[node] = (currents[node] ?? 0) + ampere * (ins.weights[i] ?? 0)
  for (const [i, node] of outs.nodes.entries()) currents[node] = (currents[node] ?? 0) - ampere * (outs.weights[i] ?? 0)
  const field = createSolver(sheet).potentials(currents)
  return (at: { x: number; y: number }): string => {
    const contact = contactAt(sheet, at)
    return contact === undefined ? '0' : (40 + valueAtContact(field, contact)).toFixed(2).replace('.', ',')
  }
}

test('six readings typed by keyboard where it says find the short and name the part, and the next place is always told', async () => {
  await startOn('VMEM')
  const model = app.desk.cases.getState().board?.model
  const short = model?.partByRef.get('U12')?.placement.at
  if (model === undefined || short === undefined) throw new Error('no board')
  const read = meter(model, 'VMEM', short, 1)
  await expect.element(finder().getByText(/Two readings at least/)).toBeVisible()
  const field = finder().getByRole('textbox', { name: 'Millivolts there' })
  await focusOn(field)
  for (let k = 1; k <= 6; k++) {
    const next = answer()?.next
    if (next === undefined) throw new Error('nowhere to probe')
    await expect.element(finder().getByText(`Probe next: ${next.label}`)).toBeVisible()
    await userEvent.keyboard(`${read(next.at)}m{Enter}`)
    await waitUntil(() => answeredFor(k))
    expect(document.activeElement).toBe(field.element())
  }
  const found = answer()
  expect(found?.verdict).toBe('place')
  expect(Math.hypot((found?.best.x ?? 0) - short.x, (found?.best.y ?? 0) - short.y)).toBeLessThan(12)
  await expect.element(finder().getByText(/The current most likely sinks near/)).toBeVisible()
  expect(
    finder().getByRole('list', { name: 'Parts that may hold the short' }).element().children.length,
  ).toBeGreaterThan(0)
  expect(
    finder().getByRole('table', { name: 'Readings of this hunt' }).element().querySelectorAll('tbody tr'),
  ).toHaveLength(6)
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await waitUntil(() => shorts()[0]?.readings.length === 5)
})

test('a reading that was typed wrong is put right in its place, and one step back brings it again', async () => {
  await startOn('VMEM')
  await finder().getByRole('textbox', { name: 'Millivolts there' }).fill('39')
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => answeredFor(1))
  const field = finder().getByRole('textbox', { name: 'Millivolts of reading 1' })
  await field.fill('OL')
  await userEvent.keyboard('{Enter}')
  await expect.element(finder().getByText('Not a voltage.')).toBeVisible()
  expect(shorts()[0]?.readings[0]?.millivolt).toBe(39)
  await field.fill('39,4')
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => shorts()[0]?.readings[0]?.millivolt === 39.4)
  expect(shorts()[0]?.readings).toHaveLength(1)
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await waitUntil(() => shorts()[0]?.readings[0]?.millivolt === 39)
})

test('readings that fit no single short name no part and no share', async () => {
  await startOn('VMEM')
  const field = finder().getByRole('textbox', { name: 'Millivolts there' })
  for (const [k, millivolt] of ['12.4', '11.8', '10.1', '9.2', '8.8', '8.5'].entries()) {
    await field.fill(millivolt)
    await userEvent.keyboard('{Enter}')
    await waitUntil(() => answeredFor(k + 1))
  }
  expect(answer()?.verdict).toBe('no-fit')
  await expect.element(finder().getByText(/fits least badly/)).toBeVisible()
  await expect.element(finder().getByText(/in under 0\.1.% of hunts/)).toBeVisible()
  expect(finder().getByRole('list', { name: 'Parts that may hold the short' }).query()).toBeNull()
})

test('what is no voltage is said to be none, and nothing is taken', async () => {
  await startOn('VMEM')
  const field = finder().getByRole('textbox', { name: 'Millivolts there' })
  await field.fill('OL')
  await userEvent.keyboard('{Enter}')
  await expect.element(finder().getByText(/Not a voltage/)).toBeVisible()
  expect(shorts()[0]?.readings).toEqual([])
})

test('a point is taken from the sheet, and the current’s point too; one press of a known point means that point', async () => {
  await startOn('VMEM')
  const places = answer()?.places ?? []
  const near = places.find(({ label }) => label.startsWith('C'))
  if (near === undefined) throw new Error('no place')
  await finder().getByRole('button', { name: 'Point at it on the sheet' }).click()
  await drag([pageAt(app.desk, { x: near.at.x + 0.4, y: near.at.y + 0.3 })])
  await expect.element(finder().getByText(`Your point: ${near.label}`)).toBeVisible()
  await userEvent.keyboard('39,2{Enter}')
  await waitUntil(() => shorts()[0]?.readings.length === 1)
  expect(shorts()[0]?.readings[0]).toEqual({ at: { x: near.at.x, y: near.at.y }, millivolt: 39.2 })
  await finder().getByRole('button', { name: 'Point at where it goes in' }).click()
  await drag([pageAt(app.desk, near.at)])
  await waitUntil(() => shorts()[0]?.sourceAt.x === near.at.x)
  expect(app.desk.screen.getState().tool).toBe('select')
})

test('a hunt with readings off its copper says so at each, and is removed with one step back', async () => {
  await startOn('VMEM')
  await finder().getByRole('button', { name: 'Point at it on the sheet' }).click()
  await drag([pageAt(app.desk, { x: 55, y: 80 })])
  await userEvent.keyboard('12{Enter}')
  await expect.element(finder().getByText(/not on this rail’s copper/)).toBeVisible()
  await finder().getByRole('button', { name: 'Remove this hunt' }).click()
  await waitUntil(() => shorts().length === 0)
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await waitUntil(() => shorts().length === 1)
})

const violations = async (): Promise<string[]> =>
  (await axe.run(document.body)).violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}`))

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)(
  'axe finds nothing on %s at %i by %i, nothing is cut off and no text is under 12 px',
  async (theme, width, height) => {
    await page.viewport(width, height)
    app.desk.screen.setState({ chosenTheme: theme })
    await startOn('VMEM')
    for (const millivolt of ['40', '39,5', '39,7']) {
      const before = shorts()[0]?.readings.length ?? 0
      await finder().getByRole('textbox', { name: 'Millivolts there' }).fill(millivolt)
      await userEvent.keyboard('{Enter}')
      await waitUntil(() => answeredFor(before + 1))
    }
    for (const details of document.querySelectorAll('details')) details.open = true
    expect(await violations()).toEqual([])
    const all = [...document.querySelectorAll('section[aria-label="Short finder"] *')]
    const cut = all.filter((element) => {
      const box = element.getBoundingClientRect()
      return box.width > 0 && element.closest('.visually-hidden') === null && (box.right > width + 1 || box.left < -1)
    })
    expect(cut.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
    const small = all.filter(
      (element) =>
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '') &&
        Number.parseFloat(getComputedStyle(element).fontSize) < 12,
    )
    expect(small.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
  },
)
