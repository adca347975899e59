/** The dialog that asks which card a new case is about: by mouse and keys, on both screens. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test, vi } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { bad } from '../../src/base/index.ts'
import { caseSchema, startHistory } from '../../src/case/index.ts'
import { exampleCase, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  vi.restoreAllMocks()
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ startOpen: false, message: undefined, chosenTheme: 'paper' })
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
})
afterAll(() => app.close())

const dialog = () => page.getByRole('dialog', { name: 'A new case: which card is it?' })
const field = (name: string) => dialog().getByRole('textbox', { name })
const present = () => app.desk.cases.getState().history?.present
const boardNow = () => app.desk.cases.getState().board?.model

const open = async (): Promise<void> => {
  await page.getByRole('button', { name: 'Start my own case' }).click()
  await waitUntil(() => document.activeElement === dialog().getByRole('combobox', { name: 'Memory package' }).query())
  await expect.element(dialog().getByRole('button', { name: /8 packages in a ring.*bowline-8/ })).toBeVisible()
}

test('no case begins before a card is chosen: the focus is at the first question, past the name that may stay empty, and Escape leads back', async () => {
  const { id } = app.desk.cases.getState()
  await open()
  await userEvent.keyboard('{Escape}')
  await expect.element(dialog()).not.toBeInTheDocument()
  expect(app.desk.cases.getState().id).toBe(id)
  await waitUntil(() => document.activeElement?.textContent === 'Start my own case')
})

test('examples stand apart and are named by what they are like', async () => {
  await open()
  const examples = dialog().getByRole('region', { name: 'Invented examples' })
  expect(examples.getByRole('button').elements()).toHaveLength(1)
  await expect.element(examples).toHaveTextContent(/8 packages in a ring, 256 bit, one side/)
  expect(dialog().getByRole('region', { name: 'Boards of your own' }).getByRole('button').elements()).toHaveLength(1)
})

test('by keys alone: a pattern becomes a board without a map, and the case begins on it', async () => {
  const { id } = app.desk.cases.getState()
  await open()
  await dialog().getByRole('combobox', { name: 'Bus width' }).selectOptions('384')
  await dialog().getByRole('radio', { name: 'Both sides' }).click()
  await expect.element(dialog().getByText('24 packages in a ring, 384 bit, both sides')).toBeVisible()
  await userEvent.click(field('Name of the board'))
  await userEvent.keyboard('brought in by Mira{Enter}')
  await waitUntil(() => app.desk.cases.getState().id !== id)
  await expect.element(dialog()).not.toBeInTheDocument()
  expect(boardNow()?.name).toBe('brought in by Mira')
  expect(boardNow()?.memories).toHaveLength(24)
  expect(boardNow()?.addressMap).toBeUndefined()
  expect(present()?.demo).toBe(false)
  await expect.element(page.getByText(/Which address belongs to which channel/)).toBeVisible()
})

test('a size that is too small says what it takes, and no case begins on it', async () => {
  const { id } = app.desk.cases.getState()
  await open()
  const start = dialog().getByRole('button', { name: 'Start with this board' })
  await field('Board, height with tab').fill('70')
  await expect.element(dialog().getByText(/It takes at least \d+ mm/)).toBeVisible()
  await expect.element(start).toBeDisabled()
  await dialog().getByRole('button', { name: 'Let the sizes follow bus and stages again' }).click()
  await expect.element(start).toBeEnabled()
  await field('Core, each edge').fill('400')
  await start.click()
  await waitUntil(() => document.activeElement === field('Core, each edge').query())
  expect(app.desk.cases.getState().id).toBe(id)
})

test('supplies follow package and bus until one is changed; a name that stands twice is said', async () => {
  await open()
  await expect.element(field('Nominal voltage of supply 2')).toHaveValue('1.35')
  await dialog().getByRole('combobox', { name: 'Memory package' }).selectOptions('170-ball')
  await expect.element(field('Nominal voltage of supply 2')).toHaveValue('1.5')
  await field('Stages of supply 1').fill('4')
  await dialog().getByRole('button', { name: 'Add a supply' }).click()
  await expect.element(dialog().getByText(/8 power stages/)).toBeVisible()
  await field('Name of supply 4').fill('VCORE')
  await expect.element(field('Name of supply 4')).toHaveAccessibleDescription(/VCORE for the second time/)
  await expect.element(field('Name of supply 4')).toBeInvalid()
  await dialog().getByRole('button', { name: 'Take away VCORE' }).last().click()
  await expect.element(dialog().getByText(/7 power stages/)).toBeVisible()
})

test('a board of an earlier case stands among one’s own once, and a case begins on it', async () => {
  const own = caseSchema.parse({
    ...exampleCase,
    demo: false,
    title: 'earlier',
    board: { inline: { ...bowline, name: 'their card' } },
  })
  for (const id of ['one', 'two'])
    await app.desk.caseShelf.save({ id, history: startHistory(own), boardName: 'their card', basedOnRev: 0 })
  await open()
  const boards = dialog().getByRole('region', { name: 'Boards of your own' })
  const theirs = boards.getByRole('button', { name: /their card/ })
  await expect.element(theirs).toHaveTextContent(/8 packages in a ring, 256 bit, one side; 2 cases/)
  await theirs.click()
  await waitUntil(() => boardNow()?.name === 'their card')
  expect(present()?.marks).toEqual([])
})

/** What a hand does in the browser's own chooser of files. */
function choose(file: File): void {
  const chooser = document.querySelector<HTMLInputElement>('input[aria-label="Layout, board or case file to begin on"]')
  if (chooser === null) throw new Error('no chooser')
  expect(chooser.accept.split(',')).toEqual(
    expect.arrayContaining(['.json', '.kicad_pcb', '.zip', '.xml', '.d356', '.gbr', '.csv']),
  )
  expect(chooser.multiple).toBe(true)
  const transfer = new DataTransfer()
  transfer.items.add(file)
  chooser.files = transfer.files
  chooser.dispatchEvent(new Event('change', { bubbles: true }))
}

test('a board file that is chosen begins a case', async () => {
  await open()
  choose(new File([JSON.stringify({ ...bowline, name: 'from a file' })], 'from-a-file.json'))
  await waitUntil(() => boardNow()?.name === 'from a file')
  await expect.element(dialog()).not.toBeInTheDocument()
})

test('a report that is chosen begins no case and says so in sight, with the dialog gone', async () => {
  const { id } = app.desk.cases.getState()
  await open()
  choose(new File(['U11 12 errors\n'], 'run.txt'))
  await expect.element(page.getByText('run.txt can’t start a case')).toBeVisible()
  await expect.element(dialog()).not.toBeInTheDocument()
  expect(app.desk.cases.getState().id).toBe(id)
})

test('two boards of one name stand apart, each with when it was used last', async () => {
  for (const [id, thicknessMm] of [
    ['thin', 1.2],
    ['thick', 1.6],
  ] as const) {
    const board = { inline: { ...bowline, name: 'twice', thicknessMm } }
    const own = caseSchema.parse({ ...exampleCase, demo: false, title: id, board })
    await app.desk.caseShelf.save({ id, history: startHistory(own), boardName: 'twice', basedOnRev: 0 })
  }
  await open()
  const twice = dialog().getByRole('region', { name: 'Boards of your own' }).getByRole('button', { name: /twice/ })
  await expect.element(twice.first()).toHaveTextContent(/1 case, the last of \d{1,2} [A-Z][a-z]+ \d{4}/)
  expect(twice.elements()).toHaveLength(2)
  await field('Name of the board').fill('twice')
  await expect.element(field('Name of the board')).toHaveAccessibleDescription(/A board of yours is called so/)
})

test('what the shelf can’t give is said where it would stand', async () => {
  const fault = { path: 'the shelf', found: 'a database that is locked', expected: 'the list of cases' }
  vi.spyOn(app.desk.caseShelf, 'list').mockResolvedValue(bad(fault))
  await page.getByRole('button', { name: 'Start my own case' }).click()
  await expect.element(dialog().getByRole('alert').first()).toHaveTextContent(/a database that is locked/)
})

test('an example that can’t be read says so, and can’t be chosen', async () => {
  const { shelf } = app.desk
  Object.defineProperty(app.desk, 'shelf', { value: { ...shelf, open: async () => undefined }, configurable: true })
  await page.getByRole('button', { name: 'Start my own case' }).click()
  const example = dialog().getByRole('button', { name: /bowline-8/ })
  await expect.element(example).toHaveTextContent(/could not be read: bowline-8\.json: found nothing/)
  await expect.element(example).toBeDisabled()
  Object.defineProperty(app.desk, 'shelf', { value: shelf, configurable: true })
})

test('by keys alone: Tab leads from the memory package to each field and on to the examples, Enter begins on one, arrows choose sides', async () => {
  const { id } = app.desk.cases.getState()
  await open()
  await userEvent.keyboard('{Tab}')
  expect(document.activeElement).toBe(dialog().getByRole('combobox', { name: 'Bus width' }).query())
  await userEvent.keyboard('{Tab}')
  expect(document.activeElement).toBe(dialog().getByRole('radio', { name: 'One side' }).query())
  await userEvent.keyboard('{ArrowRight}')
  await expect.element(dialog().getByRole('radio', { name: 'Both sides' })).toBeChecked()
  await expect
    .element(
      dialog()
        .getByText(/both sides/)
        .first(),
    )
    .toBeVisible()
  const example = dialog().getByRole('button', { name: /bowline-8/ })
  for (let step = 0; step < 60 && document.activeElement !== example.query(); step++) await userEvent.keyboard('{Tab}')
  expect(document.activeElement).toBe(example.query())
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => app.desk.cases.getState().id !== id)
  expect(boardNow()?.name).toBe('bowline-8')
})

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)('axe finds nothing on %s, and nothing is cut off at %i px', async (theme, width, height) => {
  await page.viewport(width, height)
  app.desk.screen.setState({ chosenTheme: theme })
  await open()
  const found = (await axe.run(document.body)).violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html}`),
  )
  expect(found).toEqual([])
  const outside = [...document.querySelectorAll('[role="dialog"] *')].filter((element) => {
    const box = element.getBoundingClientRect()
    return box.width > 0 && element.closest('.visually-hidden') === null && (box.right > width + 1 || box.left < -1)
  })
  expect(outside.map(({ outerHTML }) => outerHTML.slice(0, 120))).toEqual([])
  const low = [
    ...document.querySelectorAll('[role="dialog"] :is(button, input:not([type="radio"], [hidden]), select)'),
  ].filter((element) => element.getBoundingClientRect().height < 32)
  expect(low.map(({ outerHTML }) => outerHTML.slice(0, 120))).toEqual([])
})
