/** The shipped app with forced colours, and at 360 px, which is 400 % zoom of a common screen (WCAG 2.2, 1.4.10 and 1.4.11). */
import type { Page } from 'playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { goToStationOfKey, STATION_KEYS } from '../support/at-station.ts'
import { browserOfFile } from '../support/browser-of-file.ts'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'

let app: BuiltApp
const browser = browserOfFile()
beforeAll(async () => {
  app = await serveBuiltApp()
})
afterAll(async () => {
  await app.close()
})

async function opened(width: number, height: number): Promise<Page> {
  const page = await browser().newPage({ viewport: { width, height } })
  page.setDefaultTimeout(PATIENT_MS)
  await page.goto(app.address)
  await page.getByText('Lift list').first().waitFor()
  return page
}

test(
  'with forced colours what is pressed, and nothing else, takes the system’s colour for it, at every station',
  async () => {
    const page = await opened(1440, 900)
    await page.emulateMedia({ forcedColors: 'active' })
    const alike: string[] = []
    let compared = 0
    for (const key of STATION_KEYS) {
      await goToStationOfKey(page, key)
      const found = await page.evaluate(() => {
        const probe = document.createElement('i')
        probe.style.cssText = 'forced-color-adjust: none; background: Highlight'
        document.body.append(probe)
        const highlight = getComputedStyle(probe).backgroundColor
        probe.remove()
        const isLit = (element: Element): boolean => getComputedStyle(element).backgroundColor === highlight
        return [...document.querySelectorAll('[aria-pressed]')].map((element) => ({
          name: element.textContent,
          isPlain: isLit(element) === (element.getAttribute('aria-pressed') === 'true'),
        }))
      })
      compared += found.length
      alike.push(...found.flatMap(({ name, isPlain }) => (isPlain ? [] : [`${key}: ${name}`])))
    }
    expect(compared).toBeGreaterThan(10)
    expect(alike).toEqual([])
    await page.close()
  },
  TEST_MS,
)

test(
  'at 360 px no station scrolls sideways',
  async () => {
    const page = await opened(360, 800)
    const wide: string[] = []
    for (const key of STATION_KEYS) {
      await goToStationOfKey(page, key)
      const width = await page.evaluate(() => document.documentElement.scrollWidth)
      if (width > 360) wide.push(`${key}: ${width} px`)
    }
    expect(wide).toEqual([])
    await page.close()
  },
  TEST_MS,
)
