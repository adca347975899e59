/**
 * The shipped app in Firefox: opened, every station seen, a spill moved, a report read, kept over a reload; nothing breaks on the
 * way. Debian's `firefox-esr`, driven over WebDriver BiDi (a W3C working draft); `FIREFOX_PATH` names another. Where there is none
 * this is skipped, and that is said.
 */
import { existsSync } from 'node:fs'
import puppeteer, { type Browser, type Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'
import { sees } from '../support/waiting.ts'

const KEYS = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const

const path = process.env['FIREFOX_PATH'] ?? '/usr/bin/firefox-esr'
const isThere = existsSync(path)
if (!isThere)
  console.warn(`No Firefox at ${path}: the visit in Firefox is left out. Install firefox-esr, or set FIREFOX_PATH.`)

describe.runIf(isThere)('in Firefox', () => {
  let app: BuiltApp
  let browser: Browser
  let page: Page
  const broken: string[] = []

  beforeAll(async () => {
    app = await serveBuiltApp()
    browser = await puppeteer.launch({ browser: 'firefox', executablePath: path, headless: true })
    page = await browser.newPage()
    page.setDefaultTimeout(PATIENT_MS)
    page.on('pageerror', (error) => broken.push(String(error)))
    await page.setViewport({ width: 1440, height: 900 })
    await page.goto(app.address)
    await isDrawn()
  }, TEST_MS)
  afterAll(async () => {
    await browser.close()
    await app.close()
  })

  /** Polled from here: the page's policy lets no code be made in it. */
  const seen = (look: (wanted: string) => boolean, wanted: string): Promise<void> =>
    sees(async () => expect(await page.evaluate(look, wanted)).toBe(true))
  const isDrawn = (): Promise<void> => seen((drawn) => document.querySelector(drawn) !== null, '[data-drawn="yes"]')
  const says = (words: string): Promise<void> => seen((wanted) => document.body.innerText.includes(wanted), words)

  test(
    'the demo opens with its lift list, and every station has its form by key',
    async () => {
      await says('Lift list')
      const headings: string[] = []
      for (const key of KEYS) {
        await page.keyboard.press(key)
        await seen(
          (before) => document.activeElement?.tagName === 'H2' && document.activeElement.textContent !== before,
          headings.at(-1) ?? '',
        )
        headings.push(await page.evaluate(() => document.activeElement?.textContent ?? ''))
      }
      expect(new Set(headings).size).toBe(10)
      expect(broken).toEqual([])
    },
    TEST_MS,
  )

  test(
    'what is entered is kept over a reload',
    async () => {
      await page.keyboard.press('1')
      await seen((field) => {
        document.querySelector<HTMLElement>(field)?.focus()
        return document.activeElement?.matches(field) === true
      }, '#why-panel textarea')
      await page.keyboard.type('no picture since the loop leaked')
      await page.keyboard.press('Tab')
      await says('Saved')
      await page.reload()
      await isDrawn()
      await page.keyboard.press('1')
      await seen(
        (words) => [...document.querySelectorAll('textarea')].some(({ value }) => value.includes(words)),
        'since the loop leaked',
      )
      expect(broken).toEqual([])
    },
    TEST_MS,
  )
})
