/** The app for everybody: axe on each station in both themes, text size, and the tablet held upright. */
import axe from 'axe-core'
import { page } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { drawn } from '../support/sheetHand.ts'
import { sees } from '../support/waiting.ts'
import { type Station, stations } from '../../src/case/index.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
})
afterAll(() => app.close())

const show = async (station: Station): Promise<void> => {
  app.desk.screen.setState({ station, selection: undefined })
  await drawn()
  for (const details of document.querySelectorAll('details')) details.open = true
}

/** On chalk only colours differ, so there only they are looked at. */
const asked: Readonly<Record<'paper' | 'chalk', axe.RunOptions>> = {
  paper: { rules: { region: { enabled: true } } },
  chalk: { runOnly: ['color-contrast', 'link-in-text-block'] },
}

async function violations(theme: 'paper' | 'chalk'): Promise<string[]> {
  const found = await axe.run(document.body, asked[theme])
  return found.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`),
  )
}

test.each(['paper', 'chalk'] as const)('axe finds nothing on any station on %s', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  for (const station of stations) {
    await show(station)
    expect({ station, found: await violations(theme) }).toEqual({ station, found: [] })
  }
  app.desk.screen.setState({ selection: { kind: 'part', id: 'U13' } })
  await waitUntil(() => document.querySelector('[aria-label="Evidence for U13"]') !== null)
  expect(await violations(theme)).toEqual([])
})

test('no text is smaller than 12 px', async () => {
  for (const station of stations) {
    await show(station)
    const small = textElements().filter((element) => Number.parseFloat(getComputedStyle(element).fontSize) < 12)
    expect(small.map((element) => element.outerHTML.slice(0, 120))).toEqual([])
  }
})

function textElements(): Element[] {
  return [...document.querySelectorAll('body *')].filter((element) =>
    [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''),
  )
}

test.each([
  ['a tablet held upright', 820, 1180],
  ['a small screen', 1024, 700],
  ['a wide one', 1440, 900],
])('on %s nothing runs out of the window and every station can be reached', async (_, width, height) => {
  await page.viewport(width, height)
  for (const station of stations) {
    await show(station)
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width)
    if (width >= 820 && height >= 800) expect(document.documentElement.scrollHeight).toBeLessThanOrEqual(height)
    const outside = [...document.querySelectorAll('button, input, select, h1, h2, h3, p, li, table')].filter(
      (element) => {
        const box = element.getBoundingClientRect()
        if (element.closest('[tabindex="0"], .visually-hidden') !== null || box.width === 0) return false
        return box.right > width + 1 || box.left < -1
      },
    )
    expect({ station, outside: outside.map((element) => element.outerHTML.slice(0, 160)) }).toEqual({
      station,
      outside: [],
    })
  }
})

test.each(stations)('on the tablet the words of the %s panel are not cut off', async (station) => {
  await page.viewport(820, 1180)
  await show(station)
  const cut = [...document.querySelectorAll('nav button, aside p, aside h2, aside button')].filter(
    (element) => element.scrollWidth > element.clientWidth + 1 && getComputedStyle(element).overflowX !== 'visible',
  )
  expect(cut.map((element) => element.textContent)).toEqual([])
  const sheet = page.getByTestId('sheet').element().getBoundingClientRect()
  expect(sheet.height).toBeGreaterThan(300)
})

test('what is drawn on the sheet is told in words, and a change is announced', async () => {
  const told = () =>
    [...document.querySelectorAll('[aria-live="polite"]')].map((element) => element.textContent).join(' ')
  await waitUntil(() => /Lift list.*U1/.test(told()))
  const before = told()
  app.desk.cases.setState(({ history }) =>
    history === undefined ? {} : { history: { ...history, present: { ...history.present, marks: [] } } },
  )
  await waitUntil(() => told() !== before)
  await sees(() => expect(told()).toMatch(/Lift list/))
})
