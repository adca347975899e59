/** The intake desk: a card is taken down by keys alone, the days fill themselves in, and the slip says it; calm, whole, axe. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { codeWords, intakeOf } from '../../src/case/index.ts'
import { dayAfter, today } from '../../src/view/actions/clock.ts'
import { undoEdit } from '../../src/view/actions/edit.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { sees } from '../support/waiting.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ station: 'arrival', selection: undefined, chosenTheme: 'paper' })
  await expect.element(why().getByRole('region', { name: 'Photos at intake' })).toBeVisible()
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const present = () => {
  const now = app.desk.cases.getState().history?.present
  if (now === undefined) throw new Error('no case')
  return now
}

const nameOfFocus = (): string => {
  const on = document.activeElement
  const labels = on instanceof HTMLInputElement ? [...(on.labels ?? [])].map(({ textContent }) => textContent) : []
  return (labels.length > 0 ? labels.join() : (on?.textContent ?? '')).trim()
}

async function tabTo(name: RegExp): Promise<void> {
  for (let i = 0; i < 30; i++) {
    await userEvent.keyboard('{Tab}')
    if (name.test(nameOfFocus())) return
  }
  throw new Error(`no way by Tab to ${name.source}`)
}

const summary = (name: string) => {
  const found = [...document.querySelectorAll<HTMLElement>('#why-panel summary')].find(({ textContent }) =>
    textContent.startsWith(name),
  )
  if (found === undefined) throw new Error(`no line ${name}`)
  return found
}

test('by keys alone: particulars, promise, fee and consents, each on its day, and the slip with a code', async () => {
  const before = today()
  summary('Card and seals').focus()
  await userEvent.keyboard('{Enter}')
  await tabTo(/^Serial number$/)
  await userEvent.keyboard('HT-550')
  await tabTo(/^Owner and contact/)
  await userEvent.keyboard('{Enter}')
  await tabTo(/^Phone$/)
  await userEvent.keyboard('0555 019')
  await tabTo(/^Agreed/)
  await userEvent.keyboard('{Enter}')
  await tabTo(/^Diagnosis fee$/)
  await userEvent.keyboard('34,50')
  await tabTo(/^Currency$/)
  await userEvent.keyboard('EUR')
  await tabTo(/^1 week$/)
  await userEvent.keyboard('{Enter}')
  await tabTo(/^Heat: /)
  await userEvent.keyboard(' ')
  const { serial, phone, diagnosisFee, due, consents } = intakeOf(present())
  expect({ serial, phone, diagnosisFee }).toEqual({ serial: 'HT-550', phone: '0555 019', diagnosisFee: 34.5 })
  // midnight may pass meanwhile
  const days = [before, today()]
  expect(days.map((day) => dayAfter(day, 7))).toContain(due)
  expect(Object.keys(consents)).toEqual(['heat'])
  expect(days).toContain(consents.heat)
  await tabTo(/^Intake slip…$/)
  await userEvent.keyboard('{Enter}')
  await waitUntil(() => slipWords().includes('34.50 EUR'))
  const { code } = intakeOf(present())
  for (const words of [codeWords(code ?? 'none'), 'HT-550', '0555 019', 'Heat: lift and refit parts'])
    expect(slipWords()).toContain(words)
  await userEvent.keyboard('{Escape}')
  await waitUntil(() => document.querySelector('[role="dialog"]') === null)
})

const slipWords = (): string =>
  document.querySelector<HTMLIFrameElement>('iframe[title^="Intake slip"]')?.contentDocument?.body.innerText ?? ''

test('a code that was undone is the same when the slip is asked for again', async () => {
  const codeOfSlip = async (): Promise<string | undefined> => {
    await focusOn(why().getByRole('button', { name: 'Intake slip…' }))
    await userEvent.keyboard('{Enter}')
    await waitUntil(() => intakeOf(present()).code !== undefined)
    await userEvent.keyboard('{Escape}')
    await waitUntil(() => document.querySelector('[role="dialog"]') === null)
    return intakeOf(present()).code
  }
  const first = await codeOfSlip()
  undoEdit(app.desk)
  expect(intakeOf(present()).code).toBeUndefined()
  expect(await codeOfSlip()).toBe(first)
})

test('a fee that can be read in two ways is asked for, and nothing is kept of it', async () => {
  summary('Agreed').click()
  await focusOn(why().getByRole('textbox', { name: 'Diagnosis fee' }))
  await userEvent.keyboard('1,200')
  await sees(() => expect(why().getByText('The comma may be a decimal one').query()).not.toBeNull())
  expect(intakeOf(present()).diagnosisFee).toBeUndefined()
})

test.each([
  ['paper', 1440, 900],
  ['chalk', 820, 1180],
] as const)(
  'axe finds nothing at arrival with all lines open, on %s at %i px, and nothing is cut off',
  async (theme, width, height) => {
    await page.viewport(width, height)
    app.desk.screen.setState({ chosenTheme: theme })
    for (const name of ['Card and seals', 'Owner and contact', 'Agreed', 'Another day']) summary(name).click()
    const panel = why().element()
    await sees(() => expect(panel.querySelectorAll('details[open]').length).toBeGreaterThanOrEqual(4))
    const found = await axe.run(panel)
    expect(found.violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
    const { right } = panel.getBoundingClientRect()
    const outside = [...panel.querySelectorAll('input, button, select, textarea')].filter(
      (element) => element.getBoundingClientRect().right > right + 1,
    )
    expect(outside.map(({ outerHTML }) => outerHTML.slice(0, 100))).toEqual([])
  },
)
