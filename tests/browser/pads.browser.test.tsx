/** Glue, torn pads and the ways of their wires, as the hand meets them: by keyboard, on the sheet, and taken back. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { addMark, undoEdit } from '../../src/view/actions/edit.ts'
import { takeSketch } from '../../src/view/stations/pads/edit.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await app.reset()
  app.desk.screen.setState({ station: 'plan', selection: undefined, message: undefined, tool: 'select' })
})
afterAll(() => app.close())

const repairs = () => app.desk.cases.getState().history?.present.padRepairs ?? []
const pads = () => page.getByRole('region', { name: 'Pads and tracks' })
const boardOnSheet = () => app.desk.cases.getState().board?.model
const bondingOf = (ref: string) => boardOnSheet()?.partByRef.get(ref)?.description.bonding

async function note(ref: string, pad: string): Promise<void> {
  const fold = pads().getByText('Note what was hurt')
  if ((await fold.findElement()).closest('details')?.open === false) await fold.click()
  await userEvent.fill(pads().getByLabelText('Part'), ref)
  await focusOn(pads().getByLabelText('Ball or pad'))
  await userEvent.keyboard(`${pad}{Enter}`)
}

test('a torn pad is noted by part and ball, a ball that the part lacks is refused, and its wire’s way is typed', async () => {
  await note('U13', 'ZZ9')
  await expect.element(pads().getByRole('alert')).toHaveTextContent('The part has no such ball or pad.')
  expect(repairs()).toEqual([])
  await userEvent.clear(pads().getByLabelText('Ball or pad'))
  await note('u13', 'c4')
  expect(repairs()).toMatchObject([{ ref: 'U13', pad: 'C4', hurt: 'pad torn', remedy: 'not yet' }])
  const row = pads().getByRole('listitem', { name: 'U13 C4, pad torn' })
  await row.getByText('Jumper').click()
  await expect.element(row.getByText('Its way is not drawn yet.')).toBeVisible()
  await row.getByText('Via, measured, way typed, note').click()
  await focusOn(row.getByLabelText('Way, x y in mm'))
  await userEvent.keyboard('100 40; 103 44')
  await expect.element(row.getByText('5 mm, top side')).toBeVisible()
  const { violations } = await axe.run(document.body, { runOnly: ['wcag2a', 'wcag2aa'] })
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([])
})

test('a line from the sheet becomes the way that was waited for, and the next one is a dam again', async () => {
  await note('U13', 'C4')
  const row = pads().getByRole('listitem', { name: 'U13 C4, pad torn' })
  await row.getByText('Track', { exact: true }).click()
  await row.getByRole('button', { name: 'Draw its way' }).click()
  const dam = {
    kind: 'dam',
    side: 'top',
    path: [
      { x: 100, y: 40 },
      { x: 108, y: 46 },
    ],
  } as const
  expect(takeSketch(app.desk, dam)).toBe(true)
  expect(repairs()[0]?.path).toEqual(dam.path)
  const marks = app.desk.cases.getState().history?.present.marks.length ?? 0
  expect(takeSketch(app.desk, dam)).toBe(false)
  addMark(app.desk, dam)
  expect(app.desk.cases.getState().history?.present.marks.length).toBe(marks + 1)
})

test('glue set at a part goes into the board of the case, the sheet stays where it was, and undo takes it off', async () => {
  app.desk.screen.setState({ station: 'suspects', selection: { kind: 'part', id: 'U13' } })
  const camera = app.desk.cases.getState().board?.camera
  await page.getByLabelText('Glue at U13').selectOptions('underfill')
  await waitUntil(() => bondingOf('U13') === 'underfill')
  expect(app.desk.screen.getState().selection).toEqual({ kind: 'part', id: 'U13' })
  expect(app.desk.cases.getState().board?.camera).toBe(camera)
  undoEdit(app.desk)
  await waitUntil(() => bondingOf('U13') === 'none')
})
