/** The list of cases and the list of stations as hand and keys meet them: found, copied, put away, deleted and taken back. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { type Case, caseSchema, startHistory } from '../../src/case/index.ts'
import { focusOn, exampleCase, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { drawn } from '../support/sheetHand.ts'
import { sees } from '../support/waiting.ts'

const CASES = 400

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
  for (let n = 0; n < CASES; n++) await keep(n)
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ casesOpen: false, startOpen: false, notices: [] })
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
})
afterAll(() => app.close())

const present = (n: number): Case =>
  caseSchema.parse({
    ...exampleCase,
    demo: false,
    title: `visit ${n}`,
    card: `c${n}`,
    arrival: { ...exampleCase.arrival, owner: n % 7 === 0 ? 'Mira' : 'Jon', on: '2026-01-01' },
    ...(n % 5 === 0 ? { handBack: { outcome: 'repaired' } } : {}),
    ...(n % 3 === 0 ? { intake: { due: '2026-01-02', serial: `SN-${n}` } } : {}),
  })

const keep = (n: number) =>
  app.desk.caseShelf.save({ id: `case-${n}`, history: startHistory(present(n)), boardName: 'bowline-8', basedOnRev: 0 })

const list = () => page.getByRole('dialog', { name: 'Cases' })
const titles = (): string[] =>
  [...document.querySelectorAll('[data-open-case] b')].map(({ textContent }) => textContent)
const listed = async (): Promise<string[]> => {
  const all = await app.desk.caseShelf.list()
  return all.ok ? all.value.map(({ title }) => title) : []
}
const openList = async (): Promise<void> => {
  await userEvent.keyboard('c')
  await waitUntil(() => titles().length > 0 && document.activeElement === list().getByRole('searchbox').query())
}
const type = async (words: string): Promise<void> => {
  await list().getByRole('searchbox', { name: 'Search the cases' }).fill(words)
}

/** However many are found: a letter draws no more of them than this. */
const ROWS_AT_ONCE = 60

test('of several hundred cases each letter draws a few, and none is lost on the way down', async () => {
  await openList()
  await expect.element(list().getByText(`${CASES} cases`)).toBeVisible()
  for (const [words, found] of [
    ['m', 400],
    ['mi', 58],
    ['mir', 58],
    ['mira ', 58],
    ['mira c3', 16],
    ['mira c35', 3],
    ['mira c350', 1],
  ] as const) {
    await type(words)
    // the list follows the letters: what stands there right after a letter may still answer the one before
    const count = found === CASES ? `${CASES} cases` : `${found} of ${CASES} cases`
    await sees(() => {
      expect(list().getByText(count, { exact: true }).query()).not.toBeNull()
      expect(titles()).toHaveLength(Math.min(found, ROWS_AT_ONCE))
    })
  }
  expect(titles()).toEqual(['visit 350'])
  await type('')
  await waitUntil(() => titles().length >= ROWS_AT_ONCE)
  await waitUntil(() => {
    document.querySelector('[data-open-case]')?.closest('table')?.parentElement?.scrollTo(0, 1e6)
    return new Set(titles()).size === CASES
  })
})

test('words, state and place narrow the list, and what is not found is said', async () => {
  await openList()
  await list().getByRole('combobox', { name: 'State of the visit' }).selectOptions('handed back')
  await expect.element(list().getByText(`80 of ${CASES} cases`)).toBeVisible()
  await type('coolant mira')
  await expect.element(list().getByText(`12 of ${CASES} cases`)).toBeVisible()
  await type('gallium')
  await expect.element(list().getByText(/No case here is like that/)).toBeVisible()
  await type('')
  await list().getByRole('radio', { name: 'Archived' }).click()
  await list().getByRole('combobox', { name: 'State of the visit' }).selectOptions('any')
  await expect.element(list().getByText('The archive is empty.')).toBeVisible()
})

test('by keyboard alone: found, walked to, opened; the list closes and gives the focus back', async () => {
  await openList()
  await userEvent.keyboard('c17')
  await waitUntil(() => titles().length > 1 && titles().every((title) => /17/.test(title)))
  const wanted = titles()[1] ?? ''
  for (let presses = 0; presses < 12 && !(document.activeElement?.matches('[data-open-case]') ?? false); presses++)
    await userEvent.keyboard('{Tab}')
  await userEvent.keyboard('{ArrowDown}{Enter}')
  await waitUntil(() => app.desk.cases.getState().history?.present.title === wanted)
  await expect.element(list()).not.toBeInTheDocument()
  await expect.element(page.getByRole('heading', { level: 1 })).toHaveTextContent('Card c17')
})

test('Enter in the search opens the only case that is found, and none of several', async () => {
  await openList()
  await type('mira c35')
  await sees(() => expect(titles()).toHaveLength(3))
  await userEvent.keyboard('{Enter}')
  await expect.element(list()).toBeVisible()
  await type('SN-63')
  await sees(() => expect(titles()).toEqual(['visit 63']))
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => app.desk.cases.getState().history?.present.title === 'visit 63')
})

test('a duplicate is a case of its own, with what was typed last in it', async () => {
  await openList()
  await type('visit 33')
  await list().getByRole('button', { name: 'Duplicate visit 33', exact: true }).click()
  await waitUntil(() => titles().includes('visit 33, copy'))
  expect(await listed()).toContain('visit 33')
  await list().getByRole('button', { name: 'Delete visit 33, copy' }).click()
  await waitUntil(() => !titles().includes('visit 33, copy'))
})

test('what is deleted comes back whole with one press, however late', async () => {
  await openList()
  await type('visit 44')
  await list().getByRole('button', { name: 'Delete visit 44', exact: true }).click()
  await waitUntil(() => !titles().includes('visit 44'))
  expect(await listed()).not.toContain('visit 44')
  await userEvent.keyboard('{Escape}')
  await expect.element(list()).not.toBeInTheDocument()
  await page.getByRole('button', { name: /^Undo.*visit 44/ }).click()
  await sees(async () => {
    const back = await app.desk.caseShelf.load('case-44')
    expect(back.ok && back.value.history.present).toEqual(present(44))
  })
})

test('deleting the case on the desk puts the next one there; taking it back puts it there again', async () => {
  await openList()
  await type('visit 55')
  await list()
    .getByRole('button', { name: /^visit 55\b.*card/ })
    .click()
  await waitUntil(() => app.desk.cases.getState().id === 'case-55')
  await openList()
  await type('visit 55')
  await list().getByRole('button', { name: 'Delete visit 55', exact: true }).click()
  await waitUntil(() => app.desk.cases.getState().id !== 'case-55')
  expect(app.desk.cases.getState().history).toBeDefined()
  await list().getByRole('button', { name: /^Undo/ }).click()
  await waitUntil(() => app.desk.cases.getState().id === 'case-55')
})

test('a case goes to the archive and back', async () => {
  await openList()
  await type('visit 66')
  await list().getByRole('button', { name: 'Archive visit 66', exact: true }).click()
  await waitUntil(() => !titles().includes('visit 66'))
  await list().getByRole('radio', { name: 'Archived' }).click()
  await waitUntil(() => titles().includes('visit 66'))
  await list().getByRole('button', { name: 'Take back visit 66', exact: true }).click()
  await waitUntil(() => !titles().includes('visit 66'))
  await list().getByRole('radio', { name: 'On the bench' }).click()
  await waitUntil(() => titles().includes('visit 66'))
  const entries = await app.desk.caseShelf.list()
  expect(entries.ok && entries.value.find(({ title }) => title === 'visit 66')?.archived).toBe(false)
})

test('a new case asks for its card and begins on the chosen board, with today as its day', async () => {
  await openList()
  const before = today()
  await list().getByRole('button', { name: 'New case…' }).click()
  await expect.element(list()).not.toBeInTheDocument()
  await page
    .getByRole('dialog', { name: /A new case/ })
    .getByRole('button', { name: /8 packages in a ring, 256 bit, one side/ })
    .click()
  await waitUntil(() => app.desk.cases.getState().history?.present.marks.length === 0)
  await expect.element(page.getByRole('heading', { name: 'Arrival' })).toBeVisible()
  // midnight may pass meanwhile
  expect([before, today()]).toContain(app.desk.cases.getState().history?.present.arrival.on)
  await expect
    .element(page.getByLabelText('Received'))
    .toHaveValue(app.desk.cases.getState().history?.present.arrival.on)
})

function today(): string {
  const now = new Date()
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-')
}

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)('axe finds nothing in the list on %s, and nothing is cut off at %i px', async (theme, width, height) => {
  await page.viewport(width, height)
  app.desk.screen.setState({ chosenTheme: theme })
  await openList()
  await list()
    .getByRole('button', { name: /^Archive/ })
    .first()
    .click()
  await waitUntil(() => app.desk.screen.getState().notices.length === 1)
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
  await page.getByRole('button', { name: /^Undo/ }).last().click()
})

test('number keys go to the stations and their heading takes the focus; arrows walk the list of them', async () => {
  const focused = (): string => document.activeElement?.textContent ?? ''
  for (const [key, heading] of [
    ['2', 'Cold measuring'],
    ['0', 'Hand-back'],
    ['5', 'Inspection'],
  ] as const) {
    await userEvent.keyboard(key)
    await waitUntil(() => focused() === heading)
  }
  const stations = page.getByRole('navigation', { name: 'Stations' })
  expect(stations.getByRole('listitem').getByRole('button').elements()).toHaveLength(10)
  await focusOn(stations.getByRole('button').first())
  await userEvent.keyboard('{ArrowDown}{ArrowDown}')
  expect(focused()).toMatch(/^Powered measuring/)
  await userEvent.keyboard('{End}')
  expect(focused()).toMatch(/^Hand-back/)
  await userEvent.keyboard('{Home}{Enter}')
  await waitUntil(() => focused() === 'Arrival')
  await page.getByText('Card and seals').click()
  await page.getByLabelText('Card number').fill('042')
  expect(app.desk.screen.getState().station).toBe('arrival')
})

test('the ten stations are seen whole without scrolling on both screens', async () => {
  for (const [width, height] of [
    [1440, 900],
    [820, 1180],
  ] as const) {
    await page.viewport(width, height)
    await drawn()
    const nav = page.getByRole('navigation', { name: 'Stations' }).element()
    expect(nav.scrollHeight).toBeLessThanOrEqual(nav.clientHeight + 1)
    const last = page.getByRole('navigation', { name: 'Stations' }).getByRole('button', { name: /^Hand-back/ })
    expect(last.element().getBoundingClientRect().bottom).toBeLessThanOrEqual(height)
  }
})
