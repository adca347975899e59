/** The shipped app without a network, and beside a newer one: it opens, and it changes only when the user says so. */
import { readFileSync } from 'node:fs'
import type { BrowserContext, Page } from 'playwright'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { z } from 'zod'
import { browserOfFile } from '../support/browser-of-file.ts'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'

let app: BuiltApp
const browser = browserOfFile()
let context: BrowserContext
/** Of the service worker that is served: another one makes a newer version. */
let version = 1
beforeAll(async () => {
  app = await served()
})
beforeEach(async () => {
  context = await browser().newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-US' })
  return () => context.close()
})
afterAll(async () => {
  await app.close()
})

const served = (): Promise<BuiltApp> =>
  serveBuiltApp((path, bytes) => (path === '/sw.js' ? Buffer.concat([bytes, Buffer.from(`\n// ${version}`)]) : bytes))

async function open(address = app.address): Promise<Page> {
  const page = await context.newPage()
  page.setDefaultTimeout(PATIENT_MS)
  await page.goto(address)
  await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
  // all files are kept once the service worker is there
  await page.evaluate(() => navigator.serviceWorker.ready)
  return page
}

const note = (page: Page) => page.getByRole('status', { name: 'New version' })

/** A page that is loaded anew has forgotten it. */
const leaveMark = (page: Page): Promise<void> => page.evaluate(() => void Reflect.set(window, 'mark', true))
const hasMark = (page: Page): Promise<boolean> => page.evaluate(() => Reflect.has(window, 'mark'))

async function aNewerVersionComes(page: Page): Promise<void> {
  version++
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()))
  await note(page).getByText('A new version is ready.').waitFor()
}

test(
  'loaded once, it opens its demo cases and boards with the server gone',
  async () => {
    const gone = await served()
    const page = await open(gone.address)
    await gone.close()
    await page.reload()
    await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
    // files that no page asked for before
    await page.getByRole('button', { name: 'Open' }).click()
    await page.getByRole('menuitem', { name: /slipped/i }).click()
    await expect
      .poll(() => page.getByRole('heading', { level: 1 }).innerText(), { timeout: PATIENT_MS })
      .toMatch(/slip/)
    await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
  },
  TEST_MS,
)

test(
  'a newer version waits; what is typed meanwhile is there when it is started',
  async () => {
    const page = await open()
    await leaveMark(page)
    await aNewerVersionComes(page)
    expect(await hasMark(page)).toBe(true)
    await page.keyboard.press('1')
    await page.getByLabel('The owner’s account').fill('typed before the new version')
    await note(page).getByRole('button', { name: 'Start it' }).click()
    await expect.poll(() => hasMark(page).catch(() => true), { timeout: PATIENT_MS }).toBe(false)
    await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
    await page.keyboard.press('1')
    await expect.poll(() => page.getByLabel('The owner’s account').inputValue()).toBe('typed before the new version')
    expect(await page.getByText('A new version is ready.').count()).toBe(0)
  },
  TEST_MS,
)

test(
  'it does not take over while another tab is open, and says so',
  async () => {
    const page = await open()
    const other = await open()
    await Promise.all([leaveMark(page), leaveMark(other)])
    await aNewerVersionComes(page)
    const start = note(page).getByRole('button', { name: 'Start it' })
    await start.click()
    await note(page).getByText('Liftmap is open in another tab.').waitFor()
    expect(await Promise.all([hasMark(page), hasMark(other)])).toEqual([true, true])
    await other.close()
    // the browser takes a moment to know that the tab is gone
    await expect
      .poll(
        async () => {
          if (await start.isVisible()) await start.click()
          return hasMark(page).catch(() => true)
        },
        { timeout: PATIENT_MS },
      )
      .toBe(false)
    await page.getByRole('list', { name: 'Parts to lift' }).waitFor()
  },
  TEST_MS,
)

/** Fields by W3C, Web Application Manifest (2025): what is needed to install. */
const manifestSchema = z.object({
  name: z.literal('Liftmap'),
  start_url: z.string(),
  display: z.literal('standalone'),
  icons: z.array(z.object({ src: z.string(), sizes: z.string(), type: z.string() })),
})

test('it can be installed: manifest and icons are what they say', async () => {
  const answer = await fetch(new URL('manifest.webmanifest', app.address))
  expect(answer.headers.get('content-type')).toBe('application/manifest+json')
  const { icons } = manifestSchema.parse(await answer.json())
  for (const { src, sizes, type } of icons) {
    const icon = await fetch(new URL(src, app.address))
    expect(icon.headers.get('content-type')).toBe(type)
    if (type !== 'image/png') continue
    // W3C, PNG Specification (2025), 11.2.1: width and height stand in bytes 16 to 23
    const bytes = Buffer.from(await icon.arrayBuffer())
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes)
  }
  expect(icons.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']))
  expect(readFileSync('public/icon.svg', 'utf8')).not.toMatch(/https?:\/\/(?!www\.w3\.org\/2000\/svg)/)
})
