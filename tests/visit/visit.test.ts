/**
 * A whole visit in a real Chromium on the shipped app, from a fresh case to the record: by keys alone, by mouse, by touch,
 * on a wide screen and on a tablet held upright; axe looks at every station. Where one fails, a picture of the page stays
 * in `node_modules/.cache`.
 */
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { browserOfFile } from '../support/browser-of-file.ts'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'
import { type Hand, keyboardHand, mouseHand, touchHand } from './hands.ts'
import { beginCase, steps, told, why } from './steps.ts'

let app: BuiltApp
const browser = browserOfFile()
beforeAll(async () => {
  app = await serveBuiltApp()
})
afterAll(async () => {
  await app.close()
})

/** Ten stations, and all visits at once. */
const VISIT_MS = 4 * TEST_MS

const axeSource = readFileSync('node_modules/axe-core/axe.min.js', 'utf8')

async function violations(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axeSource)
  return await page.evaluate(async () => {
    for (const details of document.querySelectorAll('aside details')) details.setAttribute('open', '')
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- axe puts itself on the window
    const axe = Reflect.get(window, 'axe') as typeof import('axe-core')
    const found = await axe.run(document.body)
    return found.violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`))
  })
}

interface Way {
  readonly name: string
  readonly width: number
  readonly height: number
  readonly theme: 'light' | 'dark'
  readonly touch?: true
  /** Axe takes its time: it looks at both themes and both sizes once. */
  readonly axe?: true
  readonly hand: (page: Page) => Hand
}

const ways: readonly Way[] = [
  { name: 'keys alone on a wide screen', width: 1440, height: 900, theme: 'light', axe: true, hand: keyboardHand },
  { name: 'keys alone on a tablet', width: 820, height: 1180, theme: 'dark', hand: keyboardHand },
  { name: 'a mouse on a wide screen', width: 1440, height: 900, theme: 'dark', hand: mouseHand },
  { name: 'a mouse on a tablet', width: 820, height: 1180, theme: 'light', hand: mouseHand },
  { name: 'a finger on a wide screen', width: 1440, height: 900, theme: 'light', touch: true, hand: touchHand },
  { name: 'a finger on a tablet', width: 820, height: 1180, theme: 'dark', touch: true, axe: true, hand: touchHand },
]

describe.concurrent('a whole visit', () => {
  test.each(ways)(
    'by $name',
    async ({ name, width, height, theme, touch = false, axe = false, hand: handOf }) => {
      const context = await browser().newContext({
        viewport: { width, height },
        colorScheme: theme,
        hasTouch: touch,
        locale: 'en-US',
      })
      const page = await context.newPage()
      page.setDefaultTimeout(2 * PATIENT_MS)
      try {
        const broken: string[] = []
        page.on('pageerror', ({ message }) => broken.push(message))
        await page.goto(app.address)
        const hand = handOf(page)
        await beginCase({ page, hand })
        for (const { station, key, run } of steps) {
          await hand.goTo(station, key)
          await told(page, station).and(page.locator('[aria-current="step"]')).waitFor()
          // the focus follows a frame later, and would leave a field that was entered before it came
          await why(page).locator('h2:focus').waitFor()
          await run({ page, hand })
          if (axe) expect({ station, found: await violations(page) }).toEqual({ station, found: [] })
          expect({ station, width: await page.evaluate(() => document.documentElement.scrollWidth) }).toEqual({
            station,
            width,
          })
        }
        await page.reload()
        await page.getByRole('heading', { level: 1 }).getByText('Card 0420').waitFor()
        expect(broken).toEqual([])
      } catch (reason) {
        await page.screenshot({ path: `node_modules/.cache/visit-${name.replaceAll(' ', '-')}.png` })
        throw reason
      } finally {
        await context.close()
      }
    },
    VISIT_MS,
  )
})
