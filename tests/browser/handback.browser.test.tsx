/** The hand-back as the hand meets it: filled in by keyboard, drafts offered, the record beside it, saved, printed, axe, the tablet. */
import axe from 'axe-core'
import { page, userEvent } from 'vitest/browser'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { z } from 'zod'
import { recordHtml, recordOf } from '../../src/case/index.ts'
import { writeInvoice } from '../../src/view/quote/invoicing.ts'
import { answerQuote, editQuote, giveQuote } from '../../src/view/quote/quoting.ts'
import { editHandBack } from '../../src/view/stations/hand-back/handBack.ts'
import { recordPdf } from '../../src/view/stations/hand-back/record.ts'
import { focusOn, type RunningApp, startApp, waitUntil } from '../support/appExample.tsx'
import { openFull } from '../support/recordCase.ts'

let app: RunningApp
beforeAll(async () => {
  await page.viewport(1440, 900)
  app = await startApp()
})
beforeEach(async () => {
  await page.viewport(1440, 900)
  await app.reset()
  app.desk.screen.setState({ station: 'hand-back', selection: undefined, chosenTheme: 'paper' })
  await expect.element(why().getByRole('button', { name: 'Save PDF' })).toBeVisible()
  for (const name of ['What was done', 'What was wrong', 'Parts and price', 'Advice to the owner']) await open(name)
  await lookAtPage()
  await waitUntil(() => previewStands() && previewWords().includes('In short'))
})
afterEach(() => {
  vi.restoreAllMocks()
})
afterAll(() => app.close())

const why = () => page.getByRole('complementary', { name: 'Why' })
const preview = (): HTMLIFrameElement | null => document.querySelector<HTMLIFrameElement>('aside iframe')
const opening = (name: string): HTMLDetailsElement | undefined =>
  [...document.querySelectorAll<HTMLDetailsElement>('aside section[aria-label="What it holds"] > details')].find(
    (details) => details.querySelector('summary b')?.textContent === name,
  )

/** What stands behind a line comes into sight; it stays there where it is already. */
async function open(name: string): Promise<void> {
  await waitUntil(() => opening(name) !== undefined)
  const details = opening(name)
  const summary = details?.querySelector('summary')
  if (details?.open === false && summary instanceof HTMLElement) await userEvent.click(summary)
}

const range = { low: 140.2, expected: 190, high: 309.4, daysLow: 2, daysHigh: 8, works: 0.85 }

/** Quote, invoice and the question of later, with all that stands behind them. */
async function openMoney(): Promise<void> {
  giveQuote(app.desk, range)
  answerQuote(app.desk, 'agreed')
  editHandBack(app.desk, { outcome: 'repaired', on: '2026-03-20', minutes: 400, currency: 'EUR' })
  writeInvoice(app.desk)
  for (const name of ['Quote', 'Invoice', 'Asking later']) await open(name)
  for (const details of document.querySelectorAll<HTMLDetailsElement>('aside details')) details.open = true
  await expect.element(why().getByRole('textbox', { name: 'Warranty' }).first()).toBeVisible()
}

async function lookAtPage(): Promise<void> {
  if (preview() === null) await why().getByRole('button', { name: 'Look at it' }).click()
  await why().getByRole('radio', { name: 'For the owner' }).click()
}
/** It shows what is entered now, and will not be loaded anew. */
const previewStands = (): boolean => preview()?.closest('[aria-busy]')?.getAttribute('aria-busy') === 'false'
const previewWords = (): string => preview()?.contentDocument?.querySelector('main')?.textContent ?? ''
const handBack = () => app.desk.cases.getState().history?.present.handBack
const present = () => app.desk.cases.getState().history?.present

/** Goes on by Tab until a control of that name has the focus. */
async function tabTo(name: RegExp): Promise<void> {
  for (let i = 0; i < 60; i++) {
    const on = document.activeElement
    const labels = on instanceof HTMLInputElement || on instanceof HTMLTextAreaElement ? [...(on.labels ?? [])] : []
    if (name.test(labels.map((label) => label.textContent).join() || (on?.textContent ?? ''))) return
    await userEvent.keyboard('{Tab}')
  }
  throw new Error(`no way by Tab to ${name.source}`)
}

test('a hand-back is filled in by keyboard alone, and the record beside it says so', async () => {
  await focusOn(why().getByRole('radio', { name: 'still open' }))
  await userEvent.keyboard('{ArrowRight}')
  expect(handBack()?.outcome).toBe('repaired')
  await tabTo(/^Today$/)
  await userEvent.keyboard('{Enter}')
  expect(handBack()?.on).toMatch(/^\d{4}-\d\d-\d\d$/)
  await tabTo(/^What was done$/)
  await userEvent.keyboard('Hose mended, board washed.')
  await tabTo(/^Time at the bench$/)
  await userEvent.keyboard('150')
  await tabTo(/^Add a part$/)
  await userEvent.keyboard('{Enter}')
  await focusOn(why().getByRole('textbox', { name: 'Part 1' }))
  await userEvent.keyboard('{Control>}a{/Control}memory, same marking')
  await tabTo(/^Count$/)
  await userEvent.keyboard('{Control>}a{/Control}2')
  await tabTo(/^Price of one$/)
  await userEvent.keyboard('{Control>}a{/Control}17,35')
  await tabTo(/^Charged$/)
  await userEvent.keyboard('180')
  await tabTo(/^Currency$/)
  await userEvent.keyboard('EUR')
  await tabTo(/^Add: /)
  await userEvent.keyboard('{Enter}')
  expect(handBack()).toMatchObject({
    done: 'Hose mended, board washed.',
    minutes: 150,
    usedParts: [{ what: 'memory, same marking', count: 2, price: 17.35 }],
    charged: 180,
    currency: 'EUR',
  })
  expect(handBack()?.advice).not.toBe('')
  // 2 × 17.35 = 34.70; 150 min at 60 an hour = 150; together 184.70
  await expect.element(why().getByText('184.70 EUR')).toBeVisible()
  await expect.element(why().getByText(/charged is 4\.70 EUR less/)).toBeVisible()
  await waitUntil(() =>
    ['Hose mended, board washed.', '34.70 EUR', 'You pay 180.00 EUR', '2 h 30'].every((words) =>
      previewWords().replaceAll('\u00a0', ' ').includes(words),
    ),
  )
  await expect.element(page.getByRole('button', { name: /^Hand-back/ })).toHaveTextContent('repaired')
})

test('undo takes the last entry back, and an emptied field leaves the case again', async () => {
  const charged = why().getByRole('textbox', { name: 'Charged' })
  await charged.fill('12')
  expect(handBack()?.charged).toBe(12)
  await charged.fill('')
  expect(handBack()).not.toHaveProperty('charged')
  await charged.fill('a lot')
  await expect.element(charged).toHaveAttribute('aria-invalid', 'true')
  expect(handBack()).not.toHaveProperty('charged')
  await userEvent.fill(charged, '')
  await userEvent.type(charged, '1,200')
  await expect.element(why().getByText('type 1.200 or 1200')).toBeVisible()
  expect(handBack()).not.toHaveProperty('charged')
  await userEvent.type(charged, '{Backspace}{Backspace}{Backspace}{Backspace}200')
  expect(handBack()?.charged).toBe(1200)
  await charged.fill('')
  await why().getByRole('button', { name: 'Today' }).click()
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  expect(handBack()).not.toHaveProperty('on')
})

test('the log writes what was done, and names the new part with its price', async () => {
  app.desk.cases.setState(({ history }) =>
    history === undefined
      ? {}
      : {
          history: {
            ...history,
            present: {
              ...history.present,
              passes: [
                {
                  action: 'lift',
                  refs: ['U13'],
                  outcome: 'done',
                  peakC: 236,
                  measured: [],
                  found: [{ ref: 'U13', what: ['wet'] }],
                  replaced: false,
                },
                { action: 'refit', refs: ['U13'], outcome: 'done', measured: [], found: [], replaced: true },
              ],
            },
          },
        },
  )
  await why().getByRole('button', { name: 'Write from the log' }).click()
  expect(handBack()?.done).toBe('Lifted U13 (peak 236 °C): wet under U13. Fitted new U13.')
  await why()
    .getByRole('button', { name: /^Take .* from log and plan$/ })
    .click()
  expect(handBack()?.usedParts[0]).toMatchObject({ what: 'memory for U13', count: 1 })
})

test('the technician’s version is one key away, and holds what the owner’s does not', async () => {
  expect(previewWords()).not.toContain('U13.A0')
  await focusOn(why().getByRole('radio', { name: 'For the owner' }))
  await userEvent.keyboard('{ArrowRight}')
  await waitUntil(() => previewWords().includes('U13.A0'))
  expect(preview()?.title).toBe('Record for the technician')
})

test('the preview runs no script, and is what gets printed', async () => {
  expect([...(preview()?.sandbox ?? [])]).not.toContain('allow-scripts')
  const shown = preview()?.contentWindow
  if (shown === null || shown === undefined) throw new Error('no preview')
  const print = vi.spyOn(shown, 'print').mockImplementation(() => {})
  await why().getByRole('button', { name: 'Print' }).click()
  expect(print).toHaveBeenCalledOnce()
})

test('the record leaves as a PDF and as a page under its own name', async () => {
  const names: string[] = []
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function noted(this: HTMLAnchorElement) {
    names.push(this.download)
  })
  await why().getByRole('button', { name: 'Save page' }).click()
  await why().getByRole('button', { name: 'Save PDF' }).click()
  await waitUntil(() => names.length === 2)
  expect(names).toEqual(['record-0417-owner.html', 'record-0417-owner.pdf'])
})

test('the PDF made in the browser is one, and the same each time', async () => {
  const record = recordOf({ ...(await openFull()), audience: 'technician', today: '2026-03-20' })
  const bytes = async (): Promise<string> => {
    const pdf = await recordPdf(record)
    if (!pdf.ok) throw new Error(JSON.stringify(pdf.faults))
    return new TextDecoder('latin1').decode(await pdf.value.arrayBuffer())
  }
  const first = await bytes()
  expect(first.startsWith('%PDF-')).toBe(true)
  expect(first.match(/\/Type \/Page\b(?!s)/g)?.length).toBeGreaterThan(2)
  expect((await bytes()) === first).toBe(true)
})

const violations = (found: axe.AxeResults): string[] =>
  found.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 200)}`))

test.each(['paper', 'chalk'] as const)('axe finds nothing at the station on %s', async (theme) => {
  app.desk.screen.setState({ chosenTheme: theme })
  await why().getByRole('button', { name: 'Add a part' }).click()
  expect(violations(await axe.run(document.body, { iframes: false }))).toEqual([])
  await openMoney()
  // the preview runs no scripts, so axe is run in a copy of it, in the next test
  expect(violations(await axe.run(document.body, { iframes: false }))).toEqual([])
})

test.each(['owner', 'technician'] as const)(
  'axe finds nothing in the page of the %s, which is read as it was written',
  async (audience) => {
    const html = recordHtml(recordOf({ ...(await openFull()), audience, today: '2026-03-20' }))
    const frame = document.createElement('iframe')
    frame.style.cssText = 'width: 820px; height: 1000px'
    // the page's own policy refuses scripts, axe is one
    frame.srcdoc = html.replace(/<meta http-equiv[^>]*>/, '')
    document.body.append(frame)
    await waitUntil(
      () => frame.contentDocument?.readyState === 'complete' && frame.contentDocument.body.textContent !== '',
    )
    const inside = frame.contentDocument
    if (inside === null) throw new Error('no page')
    // a parser that had to mend something would leave other elements than were written
    const written = [...html.matchAll(/<([a-z][a-z0-9]*)[\s>]/g)]
      .map(([, name]) => name)
      .filter((name) => name !== 'meta')
    const read = [...inside.querySelectorAll('*')].map((element) => element.localName).filter((name) => name !== 'meta')
    expect(read).toEqual(written)
    const script = inside.createElement('script')
    script.textContent = axe.source
    inside.head.append(script)
    const theirs = z
      .custom<typeof axe>((value) => typeof value === 'object' && value !== null)
      .parse(Reflect.get(frame.contentWindow ?? {}, 'axe'))
    expect(violations(await theirs.run())).toEqual([])
    frame.remove()
  },
)

test.each([
  ['a tablet held upright', 820, 1180],
  ['a wide screen', 1440, 900],
])('on %s nothing is cut off, no text is under 12 px, every target is high enough', async (_, width, height) => {
  await page.viewport(width, height)
  await why().getByRole('button', { name: 'Add a part' }).click()
  await openMoney()
  // The page is laid out anew after its size has changed: what it comes to counts, not its first moment.
  const all = () => [...document.querySelectorAll('aside *')]
  const begun = (elements: readonly Element[]): string[] => elements.map((element) => element.outerHTML.slice(0, 120))
  await expect
    .poll(() =>
      begun(
        all().filter((element) => {
          const box = element.getBoundingClientRect()
          if (box.width === 0 || element.closest('.visually-hidden') !== null || element.matches('input[type="radio"]'))
            return false
          return box.right > width + 1 || box.left < -1
        }),
      ),
    )
    .toEqual([])
  const small = all().filter(
    (element) =>
      [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '') &&
      Number.parseFloat(getComputedStyle(element).fontSize) < 12,
  )
  expect(begun(small)).toEqual([])
  const station = ['Hand-back', 'What it holds', 'Record'].map((name) => `aside section[aria-label="${name}"]`)
  // A number within a line may be as low as 24 px (WCAG 2.2, success criterion 2.5.8).
  const low = () =>
    [
      ...document.querySelectorAll(
        `:is(${station.join()}) :is(button, textarea, input:not([type="radio"], [type="checkbox"]))`,
      ),
    ].filter((element) => element.getBoundingClientRect().height < (element.matches('[data-figure]') ? 23.5 : 31.5))
  await expect.poll(() => begun(low())).toEqual([])
  await expect.poll(() => document.documentElement.scrollWidth).toBeLessThanOrEqual(width)
  await expect
    .poll(() => (preview()?.contentDocument?.documentElement.scrollWidth ?? Infinity) - (preview()?.clientWidth ?? 0))
    .toBeLessThanOrEqual(0)
})

test('a case without anything done says what the hand-back lacks, and the record that nothing is settled', async () => {
  await why().getByRole('button', { name: 'Today' }).click()
  await expect.element(page.getByRole('button', { name: /^Hand-back/ })).toHaveTextContent('the outcome')
  await waitUntil(() => previewWords().includes('not settled yet'))
  expect(present()?.passes).toEqual([])
})

/** Words of the panel that can be seen without a press or a scroll. */
function wordsInSight(): number {
  const panel = document.querySelector('aside[aria-label="Why"]')
  if (panel === null) throw new Error('no panel')
  const frame = panel.getBoundingClientRect()
  const walker = document.createTreeWalker(panel, NodeFilter.SHOW_TEXT)
  let count = 0
  while (walker.nextNode()) {
    const { parentElement, textContent } = walker.currentNode
    if (parentElement?.closest('.visually-hidden') !== null) continue
    if (!parentElement.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true })) continue
    const around = document.createRange()
    around.selectNodeContents(walker.currentNode)
    const { top, bottom, width } = around.getBoundingClientRect()
    if (width > 0 && top < frame.bottom && bottom > frame.top)
      count += (textContent ?? '').split(/\s+/).filter((word) => word !== '').length
  }
  return count
}

describe('money', () => {
  test('on arrival at most 150 words are in sight, also where something is uncleaned', async () => {
    await why().getByRole('radio', { name: 'repaired', exact: true }).click()
    for (const details of document.querySelectorAll<HTMLDetailsElement>('aside details')) details.open = false
    await why().getByRole('button', { name: 'Hide it' }).click()
    await waitUntil(() => preview() === null)
    const panel = document.querySelector('aside[aria-label="Why"]')
    if (panel !== null) panel.scrollTop = 0
    expect(wordsInSight()).toBeGreaterThan(20)
    expect(wordsInSight()).toBeLessThanOrEqual(150)
  })

  test('a quote that is agreed has the higher price as its limit; work past it asks for a reason', async () => {
    giveQuote(app.desk, range)
    await open('Quote')
    await why().getByRole('radio', { name: 'agreed' }).click()
    expect(present()?.quote).toMatchObject({ low: 140, high: 310, answer: 'agreed', limit: 310 })
    await expect.element(why().getByText('Agreed up to 310.00.', { exact: true })).toBeVisible()
    await why().getByRole('textbox', { name: 'At most' }).fill('100')
    await why().getByRole('textbox', { name: 'Time at the bench' }).fill('120')
    const past = why().getByRole('region', { name: 'Past the agreed limit' })
    await expect.element(past.getByRole('alert')).toHaveTextContent('About 120 is spent, past the 100.00 agreed.')
    await past.getByRole('textbox', { name: 'Or reason' }).fill('U13 had to come off too')
    await past.getByRole('button', { name: 'Note it' }).click()
    await expect.element(past.getByText('Reason: U13 had to come off too')).toBeVisible()
    expect(present()?.quote?.pastLimit).toMatchObject([{ limit: 100, spent: 120 }])
  })

  test('the range is worked out from the proposal: the mean lies within, and tax is on it', async () => {
    app.desk.shopDetails.setState({ taxPct: 19 })
    await open('Quote')
    await why().getByRole('button', { name: 'Work out the range' }).click()
    await waitUntil(() => present()?.quote !== undefined)
    const { low = 0, expected = 0, high = 0, works = 0, taxPct } = present()?.quote ?? {}
    expect(low).toBeGreaterThan(0)
    expect(expected).toBeGreaterThan(low)
    expect(high).toBeGreaterThan(expected)
    expect(works).toBeGreaterThan(0.5)
    expect(taxPct).toBe(19)
    app.desk.shopDetails.setState({ taxPct: 0 })
  })

  test('at the plan the line of the limit stands above the steps, and without a quote the way to one', async () => {
    app.desk.screen.setState({ station: 'plan' })
    await why().getByRole('button', { name: 'Quote the owner' }).click()
    expect(app.desk.screen.getState().station).toBe('hand-back')
    giveQuote(app.desk, range)
    answerQuote(app.desk, 'agreed')
    editQuote(app.desk, { limit: 1 })
    editHandBack(app.desk, { minutes: 30 })
    app.desk.screen.setState({ station: 'plan' })
    const past = why().getByRole('region', { name: 'Past the agreed limit' })
    await expect.element(past.getByRole('alert')).toHaveTextContent('About 30 is spent, past the 1.00')
    await past.getByRole('textbox', { name: 'Owner agrees to' }).fill('200')
    await past.getByRole('button', { name: 'New limit' }).click()
    await expect.element(why().getByText('About 30 of the 200.00 agreed is spent.')).toBeVisible()
  })

  test('declined: the hand-back is filled in, and the owner’s page says what it would have cost', async () => {
    giveQuote(app.desk, range)
    await open('Quote')
    await why().getByRole('radio', { name: 'declined' }).click()
    expect(handBack()).toMatchObject({ outcome: 'not repaired' })
    expect(handBack()?.done).toContain('declined')
    await waitUntil(() => previewWords().includes('Mending it would have cost about 140.00 to 310.00.'))
  })

  test('an invoice takes the noted minutes and parts, the shop’s tax and the next number, and is the price', async () => {
    app.desk.shopDetails.setState({ taxPct: 19, currency: 'EUR', lastInvoice: undefined, warranty: 'Six months.' })
    await why().getByRole('textbox', { name: 'Time at the bench' }).fill('150')
    await why().getByRole('button', { name: 'Write the invoice' }).click()
    // 150 min at 60 an hour and 19 %: 178.50
    expect(present()?.invoice).toMatchObject({ taxPct: 19, lines: [{ unit: 'minutes', quantity: 150, price: 60 }] })
    expect(present()?.invoice?.number).toMatch(/^\d{4}-0001$/)
    await expect.element(why().getByText('178.50 EUR', { exact: true }).first()).toBeVisible()
    await waitUntil(() => previewWords().includes('178.50 EUR'))
    await why().getByRole('radio', { name: 'Invoice' }).click()
    await waitUntil(() => previewWords().includes('Six months.'))
    // what was undone leaves no gap in the numbers
    await page.getByRole('button', { name: 'Undo', exact: true }).click()
    expect(present()).not.toHaveProperty('invoice')
    await why().getByRole('button', { name: 'Write the invoice' }).click()
    expect(present()?.invoice?.number).toMatch(/^\d{4}-0001$/)
    await open('Invoice')
    await why().getByText('Number, day, discount and warranty').click()
    await why().getByRole('button', { name: 'Take the invoice back' }).click()
    expect(present()).not.toHaveProperty('invoice')
    expect(app.desk.shopDetails.getState().lastInvoice).toMatchObject({ number: 0 })
  })

  test('some weeks later the owner is asked, and one press keeps the answer', async () => {
    await why().getByRole('radio', { name: 'repaired', exact: true }).click()
    await why().getByRole('button', { name: 'Today' }).click()
    await open('Asking later')
    await why().getByRole('button', { name: 'works', exact: true }).click()
    expect(present()?.followUps).toMatchObject([{ answer: 'works' }])
    await why().getByRole('button', { name: 'Take back the last answer' }).click()
    expect(present()?.followUps).toEqual([])
  })
})
