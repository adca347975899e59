/** Boards of one's own: edited on the sheet by mouse and keys, kept in versions, compared, and a case moved to a newer one. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import splice from '../../boards/splice-6.json'
import { seededRandom } from '../../src/base/index.ts'
import { addressMapSchema, compileAddressMap, hexOf } from '../../src/board/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { caseSchema, startHistory } from '../../src/case/index.ts'
import { openFromShelf } from '../../src/view/actions/open.ts'
import {
  drag,
  exampleCase,
  liftedRefs,
  type RunningApp,
  startApp,
  waitForLiftList,
  waitUntil,
} from '../support/appExample.tsx'

let app: RunningApp
/** The shelf lasts for the whole file: each test has a board and a case of its own. */
let tests = 0
let name = ''
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  localStorage.removeItem('liftmap board editor')
  app.desk.screen.setState({ startOpen: false, message: undefined, chosenTheme: 'paper', notices: [] })
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
  name = `card ${++tests}`
  const board = { inline: { ...bowline, name } }
  const own = caseSchema.parse({ ...exampleCase, demo: false, title: `case ${tests}`, board })
  await app.desk.caseShelf.save({ id: name, history: startHistory(own), boardName: name, basedOnRev: 0 })
})
afterAll(() => app.close())

const start = () => page.getByRole('dialog', { name: 'A new case: which card is it?' })
const editor = () => page.getByRole('dialog', { name, exact: true })
const sheet = () => editor().getByRole('application', { name: /^Sheet of/ })
const field = (label: string) => editor().getByRole('textbox', { name: label, exact: true })
const press = (label: string | RegExp) => editor().getByRole('button', { name: label }).click()
const boardOfCase = () => {
  const board = app.desk.cases.getState().history?.present.board
  return board !== undefined && 'inline' in board ? board.inline : undefined
}
const placeOf = (ref: string) => boardOfCase()?.parts.find((part) => part.ref === ref)?.at

async function openTask(task: 'Edit' | 'Versions' | 'Compare'): Promise<void> {
  app.desk.screen.setState({ startOpen: true })
  await start().getByRole('group', { name, exact: true }).getByRole('button', { name: task }).click()
  await expect.element(editor()).toBeVisible()
}

async function chosen(ref: string): Promise<void> {
  await field('Find parts').fill(ref)
  await editor()
    .getByRole('button', { name: new RegExp(`^${ref} `) })
    .click()
  await expect.element(field('Ref')).toHaveValue(ref)
}

/** A point of the board on the editor's sheet, by the part that stands there. */
function middleOnScreen(ref: string): { x: number; y: number } {
  const box = document.querySelector(`[data-testid="editor-sheet"] [data-ref="${ref}"]`)?.getBoundingClientRect()
  if (box === undefined) throw new Error(`${ref} is not drawn`)
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 }
}

test('a part is dragged in line with others, nudged, turned and undone; fields say where it stands', async () => {
  await openTask('Edit')
  await expect.element(sheet()).toBeVisible()
  const from = middleOnScreen('U13')
  await drag([from, { x: from.x + 20, y: from.y }, { x: from.x + 40, y: from.y + 1 }])
  await expect.element(field('Ref')).toHaveValue('U13')
  await expect.element(editor().getByRole('button', { name: /^Undo: U13 moved by/ })).toBeEnabled()
  const x = Number(
    document.querySelector<HTMLInputElement>('[aria-label="Part U13"] input[inputmode="decimal"]')?.value,
  )
  sheet().element().focus()
  await userEvent.keyboard('{ArrowRight}{ArrowRight}{Shift>}{ArrowRight}{/Shift}')
  await expect.element(field('x')).toHaveValue(String(Number((x + 6).toFixed(4))))
  await userEvent.keyboard('r')
  await expect.element(editor().getByRole('button', { name: /^Undo: U13 turned left by 90°/ })).toBeEnabled()
  await userEvent.keyboard('{Control>}z{/Control}{Control>}z{/Control}')
  await expect.element(field('x')).toHaveValue(String(x))
  await userEvent.keyboard('{Control>}z{/Control}')
  await expect.element(editor().getByRole('button', { name: 'Undo', exact: true })).toBeDisabled()
})

test('the check runs while editing; a line of it points at its place, and a board with faults is not kept', async () => {
  await openTask('Edit')
  await expect.element(editor().getByText('The board is sound')).toBeVisible()
  await chosen('U12')
  await field('x').fill('151')
  await field('y').fill('62')
  await userEvent.keyboard('{Enter}')
  const overlap = editor()
    .getByRole('button', { name: /U12 .*stand in one another/ })
    .first()
  await overlap.click()
  await waitUntil(() => document.querySelectorAll('[data-testid="pointed"] circle').length === 2)
  await chosen('U12')
  await press('Take away')
  await expect.element(editor().getByText(/\d faults on the board/)).toBeVisible()
  await expect
    .element(
      editor()
        .getByRole('button', { name: /address map: found "CH\d+", which no channel has/ })
        .first(),
    )
    .toBeVisible()
  await expect.element(editor().getByRole('button', { name: /Save as version/ })).toBeDisabled()
  await userEvent.click(editor().getByRole('button', { name: /^Undo: U12 taken away/ }))
  await expect.element(editor().getByText('The board is sound')).toBeVisible()
})

test('an edit that is refused says why at its field, and several parts are lined up', async () => {
  await openTask('Edit')
  await chosen('U11')
  await field('Ref').fill('U12')
  await userEvent.keyboard('{Enter}')
  await expect.element(field('Ref')).toHaveAccessibleDescription(/has this ref already/)
  await userEvent.keyboard('{Escape}')
  await expect.element(field('Ref')).toHaveValue('U11')
  sheet().element().focus()
  await userEvent.keyboard('{Control>}a{/Control}')
  await expect
    .element(
      editor()
        .getByText(/\d+ parts selected/)
        .first(),
    )
    .toBeVisible()
  await press('Line up at the left')
  await expect.element(editor().getByRole('button', { name: /^Undo: .*lined up at their left edges/ })).toBeEnabled()
})

test('a part says what is bought for it: package, value and price', async () => {
  await openTask('Edit')
  await chosen('U13')
  await expect.element(editor().getByRole('combobox', { name: 'Package' })).toHaveValue('180-ball')
  await editor().getByRole('combobox', { name: 'Package' }).selectOptions('170-ball')
  await field('Value').fill('8 Gbit')
  await field('Price of a new one').fill('14,50')
  await userEvent.keyboard('{Enter}')
  await expect.element(editor().getByRole('button', { name: /^Undo: U13: price changed/ })).toBeEnabled()
  await expect.element(field('Price of a new one')).toHaveValue('14.5')
  await expect.element(field('Value')).toHaveValue('8 Gbit')
  await userEvent.click(editor().getByRole('button', { name: /^Undo: / }))
  await userEvent.click(editor().getByRole('button', { name: /^Undo: / }))
  await userEvent.click(editor().getByRole('button', { name: /^Undo: U13: package/ }))
  await expect.element(editor().getByRole('combobox', { name: 'Package' })).toHaveValue('180-ball')
})

test('rails: a name, a range in diode mode, and what is selected is fed', async () => {
  await openTask('Edit')
  await chosen('U13')
  await editor().getByRole('tab', { name: 'Rails' }).click()
  await field('A new rail').fill('VTEST')
  await press('Add')
  await field('Nominal voltage').fill('1.8')
  await field('Diode mode, from').fill('300')
  await field('Diode mode, to').fill('450')
  await userEvent.keyboard('{Enter}')
  await editor().getByRole('group', { name: 'Feeds' }).getByRole('button', { name: 'Add U13' }).click()
  await expect.element(editor().getByRole('group', { name: 'Feeds' })).toHaveTextContent(/Feeds U13/)
  await editor()
    .getByText(/changes? against version 1/)
    .click()
  await expect.element(editor().getByText('Rail VTEST is new.')).toBeVisible()
})

test('a version is kept, compared and exported; the case stays until it is moved, and undo brings it back', async () => {
  await openFromShelf(app.desk, name, { x: 40, y: 80 })
  await waitForLiftList()
  const before = placeOf('U13')
  const lifted = liftedRefs()
  await openTask('Edit')
  await chosen('U13')
  await field('x').fill(String((before?.x ?? 0) + 3))
  await userEvent.keyboard('{Enter}')
  await field('Who').fill('Mira')
  await press('Save as version 2')
  const second = editor().getByRole('listitem', { name: 'Version 2' })
  await expect.element(second).toHaveTextContent(/by Mira.*No card yet.*U13 moved by 3 mm\./)
  await expect.element(editor().getByRole('listitem', { name: 'Version 1' })).toHaveTextContent(/1 card/)
  expect(placeOf('U13')).toEqual(before)
  await second.getByRole('button', { name: 'Compare with the one before' }).click()
  await expect.element(editor().getByRole('img', { name: /Both versions over one another/ })).toBeVisible()
  await expect.element(editor().getByRole('listitem').filter({ hasText: 'U13 moved by 3 mm.' })).toBeVisible()
  await press('Versions')
  await press('See what version 2 changes in its result')
  await expect
    .element(editor().getByRole('row', { name: /Lift list on version 1/ }))
    .toHaveTextContent(lifted.join(', ').replace(/, ([^,]*)$/, ' and $1'))
  expect(placeOf('U13')).toEqual(before)
  await press('Move the case to version 2')
  await waitUntil(
    () => app.desk.cases.getState().board?.model.partByRef.get('U13')?.placement.at.x === (before?.x ?? 0) + 3,
  )
  await waitForLiftList()
  await page.getByRole('button', { name: 'Undo', exact: true }).first().click()
  await waitUntil(() => app.desk.cases.getState().board?.model.partByRef.get('U13')?.placement.at.x === before?.x)
  expect(placeOf('U13')).toEqual(before)
})

test('an earlier version is deleted, then the whole board: asked once more, and its case keeps the board', async () => {
  await openTask('Edit')
  await chosen('U13')
  await field('Heats so far').fill('2')
  await userEvent.keyboard('{Enter}')
  await press('Save as version 2')
  const first = editor().getByRole('listitem', { name: 'Version 1' })
  await first.getByRole('button', { name: 'Delete version 1…' }).click()
  await first.getByRole('button', { name: 'Keep it' }).click()
  await first.getByRole('button', { name: 'Delete version 1…' }).click()
  await first.getByRole('button', { name: 'Delete', exact: true }).click()
  await expect.element(editor().getByText('Version 1 is deleted.')).toBeVisible()
  await expect.element(editor().getByRole('listitem', { name: 'Version 2' })).toBeVisible()
  await press('Delete this board…')
  await editor().getByRole('button', { name: 'Delete', exact: true }).click()
  await waitUntil(() => document.querySelector(`[role="dialog"] [aria-label="Delete this board"]`) === null)
  const listed = await app.desk.caseShelf.boards.list()
  expect(listed.ok && listed.value.boards.some(({ versions }) => versions[0]?.description.name === name)).toBe(false)
  expect(await app.desk.caseShelf.boardOf(name)).toMatchObject({ ok: true, value: { name } })
})

test('what is not kept is asked about before the window closes', async () => {
  await openTask('Edit')
  await chosen('U13')
  await press('Turn left')
  await press('Close the board')
  await expect.element(editor().getByText('What you changed is not kept as a version yet.')).toBeVisible()
  await press('Go on editing')
  await press('Versions')
  await press('Edit from it')
  await expect.element(editor().getByText('What you changed is not kept as a version yet.')).toBeVisible()
  await press('Close the board')
  await press('Leave without keeping it')
  await waitUntil(() => editor().query() === null)
})

test('an own board that bears an example’s name stands among one’s own, told apart by what it holds', async () => {
  const board = { inline: { ...bowline, thicknessMm: 1.2 } }
  const own = caseSchema.parse({ ...exampleCase, demo: false, title: 'same name', board })
  await app.desk.caseShelf.save({ id: 'same name', history: startHistory(own), boardName: 'bowline-8', basedOnRev: 0 })
  app.desk.screen.setState({ startOpen: true })
  await expect.element(start().getByRole('group', { name: 'bowline-8', exact: true })).toBeVisible()
})

const violations = async (rules: axe.RunOptions): Promise<string[]> => {
  const found = await axe.run(editor().element(), rules)
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)
}

test('axe finds nothing in the window: all tabs on paper and on chalk, and the tablet held upright', async () => {
  await openTask('Edit')
  await chosen('U13')
  for (const tab of ['Parts', 'Rails', 'Lanes', 'Board']) {
    app.desk.screen.setState({ chosenTheme: 'paper' })
    await editor().getByRole('tab', { name: tab }).click()
    expect({ tab, found: await violations({}) }).toEqual({ tab, found: [] })
    app.desk.screen.setState({ chosenTheme: 'chalk' })
    await waitUntil(() => document.documentElement.dataset['theme'] === 'chalk')
    expect({ tab, found: await violations({ runOnly: ['color-contrast'] }) }).toEqual({ tab, found: [] })
  }
  await page.viewport(820, 1180)
  expect(await violations({})).toEqual([])
  await expect.element(editor().getByRole('button', { name: /Save as version/ })).toBeInViewport()
})

test('addresses: labels by package are learnt from, wrong ones named, and the map is used', async () => {
  await openTask('Edit')
  await editor().getByRole('tab', { name: 'Addresses' }).click()
  await expect.element(editor().getByText('16 channels, 33 bits.')).toBeVisible()
  const rows = addressesByPackage(500)
  const wrong = rows.map((line, i) => (i === 7 ? line.replace(/,.*/, line.endsWith('U11') ? ',U12' : ',U11') : line))
  await field('Addresses').fill([...wrong, 'no address here'].join('\n'))
  await press('Add these')
  await expect.element(editor().getByText('500 addresses taken. Skipped lines: 501.')).toBeVisible()
  const told = editor().getByRole('region', { name: 'What the labels tell' })
  await expect.element(told.getByText('16 places for 8 packages, 2 each.')).toBeVisible()
  await expect.element(told.getByText(/^8: 0x/)).toBeVisible()
  await expect.element(told.getByText('The board’s map says the same.')).toBeVisible()
  await press('Take it away')
  await expect.element(told.getByText('No line contradicts the rest.')).toBeVisible()
  await editor().getByRole('tab', { name: 'Board', exact: true }).click()
  await press('Take the address map away')
  await editor().getByRole('tab', { name: 'Addresses' }).click()
  await expect.element(editor().getByText('No map yet.')).toBeVisible()
  await press('Use this map')
  await expect.element(editor().getByText(/499 of 499 labelled addresses lie where the map says/)).toBeVisible()
  await expect
    .element(editor().getByRole('button', { name: /An address tells the package, not which channel/ }))
    .toBeVisible()
  expect(await violations({})).toEqual([])
})

/** Lines `0x…,U11` of the board's own map, evenly over its memory. */
function addressesByPackage(count: number): string[] {
  const map = unwrap(compileAddressMap(addressMapSchema.parse(bowline.addressMap)))
  const random = seededRandom(5)
  const partOf = new Map(bowline.memory.channels.map(({ id, part }) => [id, part]))
  return Array.from({ length: count }, () => {
    const address = Math.floor((random.next() + random.next() * 2 ** -32) * (map.endAddress - 1))
    return `${hexOf(address)},${partOf.get(map.decode(address)?.channel ?? '')}`
  })
}

// DQ 0 to 7 of byte 0 of a 170-ball package: boards/packages/170-ball.json.
const BYTE_0 = ['A4', 'A2', 'B4', 'B2', 'E4', 'E2', 'F4', 'F2']

test('the order of a lane’s data bits is learnt from failed bits, and used', async () => {
  name = 'card with known balls'
  const own = caseSchema.parse({ ...exampleCase, demo: false, board: { inline: { ...splice, name } } })
  await app.desk.caseShelf.save({ id: name, history: startHistory(own), boardName: name, basedOnRev: 0 })
  await openTask('Edit')
  await editor().getByRole('tab', { name: 'Lanes' }).click()
  await editor().getByText('Learn the order of data bits').click()
  await field('Failed bit and the ball at fault').fill(
    BYTE_0.slice(0, 6)
      .map((ball, dq) => `${7 - dq},${ball}`)
      .join('\n'),
  )
  await expect.element(editor().getByText('bit 7: DQ0, ball A4')).toBeVisible()
  await expect.element(editor().getByText('2 bits not known: 0 and 1. Next: F4.')).toBeVisible()
  await expect.element(editor().getByRole('button', { name: 'Use this order for U11.B0' })).toBeDisabled()
  await field('Failed bit and the ball at fault').fill(BYTE_0.map((ball, dq) => `${7 - dq},${ball}`).join('\n'))
  await press('Use this order for U11.B0')
  await expect.element(editor().getByRole('button', { name: /^Undo: data bits of U11.B0 put in order/ })).toBeEnabled()
})

test('a region is drawn on the sheet, its lane ends in it, and undo takes it back', async () => {
  await openTask('Edit')
  await chosen('U13')
  await editor().getByRole('tab', { name: 'Lanes' }).click()
  await editor().getByText('Draw a region').click()
  await field('Name of the region of U13').fill('own corner')
  await editor().getByRole('checkbox', { name: 'U13.A0 ends in it' }).click()
  await press('Draw its box on the sheet')
  const middle = middleOnScreen('U13')
  await drag([middle, { x: middle.x + 6, y: middle.y + 6 }, { x: middle.x + 12, y: middle.y + 10 }])
  await expect.element(editor().getByRole('button', { name: /^Undo: region U13\/own corner drawn/ })).toBeEnabled()
  await expect.element(editor().getByText('U13.A0 in region own corner')).toBeVisible()
  await press('Take region own corner away')
  await expect.element(editor().getByText('U13.A0 in region A0')).toBeVisible()
})
