/** The shipped app while its storage fails it: what is typed stays, the reason stands where it is needed, nothing goes unasked. */
import type { BrowserContext, Page } from 'playwright'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { browserOfFile } from '../support/browser-of-file.ts'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'
import { opening } from './steps.ts'

let app: BuiltApp
const browser = browserOfFile()
let context: BrowserContext
beforeAll(async () => {
  app = await serveBuiltApp()
})
beforeEach(async () => {
  context = await browser().newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-US' })
  return () => context.close()
})
afterAll(async () => {
  await app.close()
})

async function open(): Promise<Page> {
  const page = await context.newPage()
  page.setDefaultTimeout(PATIENT_MS)
  await page.goto(app.address)
  await page.getByRole('navigation', { name: 'Stations' }).waitFor()
  return page
}

const title = (page: Page) => page.getByRole('heading', { level: 1 })
const account = (page: Page) => page.getByLabel('The owner’s account')
const notice = (page: Page) => page.getByLabel('Keeping the case')
const word = (page: Page, text: string) => page.getByRole('banner').getByText(text, { exact: true })

/** A page of the same origin that is not Liftmap. */
async function another(): Promise<Page> {
  const page = await context.newPage()
  await page.goto(`${app.address}icon.svg`)
  return page
}

/** A change under way on the shelf that ends with its tab. */
const HOLD_SHELF = `new Promise((resolve, reject) => {
  const asked = indexedDB.open('liftmap')
  asked.onerror = () => reject(asked.error)
  asked.onsuccess = () => {
    const tx = asked.result.transaction([...asked.result.objectStoreNames], 'readwrite')
    const notes = tx.objectStore('notes')
    const again = () => { notes.get('nothing').onsuccess = again }
    again()
    resolve()
  }
})`

const DROP_SHELF = `new Promise((resolve, reject) => {
  const dropped = indexedDB.deleteDatabase('liftmap')
  dropped.onerror = () => reject(dropped.error)
  dropped.onsuccess = () => resolve()
})`

/** Closes it as a person would. @returns whether it asked; it stays open then */
async function asksBeforeClosing(page: Page): Promise<boolean> {
  const asked = page
    .waitForEvent('dialog')
    .then((dialog) => dialog.dismiss().then(() => dialog.type() === 'beforeunload'))
  const closed = page.waitForEvent('close').then(() => false)
  await page.close({ runBeforeUnload: true })
  return Promise.race([asked, closed])
}

async function beginOwnCase(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Start my own case' }).click()
  await page.getByLabel('Name of the board').fill(name)
  await page.getByRole('button', { name: 'Start with this board' }).click()
  await title(page).getByText(name).first().waitFor()
  await word(page, 'Saved').waitFor()
}

test(
  'a shelf that another tab holds: said at the top, in the list and at a new case; what is typed stays and is saved after',
  async () => {
    const page = await open()
    await beginOwnCase(page, 'first-board')
    await page.keyboard.press('1')
    const other = await another()
    await other.evaluate(HOLD_SHELF)
    await page.bringToFront()
    await account(page).fill('typed while it was held')
    await notice(page).getByText('another tab may be holding it').waitFor()
    await word(page, 'Not saved').waitFor()

    await page.getByRole('button', { name: 'Cases', exact: true }).click()
    const list = page.getByRole('dialog', { name: 'Cases' })
    await list.getByRole('alert').getByText('another tab may be holding it').waitFor()
    expect(await list.getByText('No case is kept here yet').count()).toBe(0)
    await list.getByRole('button', { name: 'New case…' }).click()
    const start = page.getByRole('dialog', { name: /A new case/ })
    await start.getByLabel('Name of the board').fill('second-board')
    await start.getByRole('button', { name: 'Start with this board' }).click()
    await page.getByText('The case on the desk is not kept yet').waitFor()
    expect(await start.getByLabel('Name of the board').inputValue()).toBe('second-board')
    await page.getByRole('button', { name: 'Close', exact: true }).click()
    await start.getByRole('button', { name: 'Close without a new case' }).click()

    expect(await account(page).inputValue()).toBe('typed while it was held')
    expect(await asksBeforeClosing(page)).toBe(true)
    await other.close()
    await word(page, 'Saved').waitFor()
    const download = page.waitForEvent('download')
    await notice(page).getByRole('button', { name: 'Export now' }).click()
    await download
    await expect.poll(() => notice(page).textContent(), { timeout: PATIENT_MS }).toBe('')
    expect(await asksBeforeClosing(page)).toBe(false)
    const again = await open()
    await title(again).getByText('first-board').first().waitFor()
    await again.keyboard.press('1')
    await expect.poll(() => account(again).inputValue(), { timeout: PATIENT_MS }).toBe('typed while it was held')
  },
  2 * TEST_MS,
)

test(
  'a database that was emptied between two starts is told, with what was there by name',
  async () => {
    const page = await open()
    await beginOwnCase(page, 'kept-board')
    await page.keyboard.press('1')
    await opening(page, 'Card and seals').click()
    await page.getByLabel('Card number').fill('0933')
    await word(page, 'Saved').waitFor()
    await expect
      .poll(() => page.evaluate(() => localStorage.getItem('liftmap ledger')), { timeout: PATIENT_MS })
      .toContain('0933')
    const other = await another()
    await page.close()
    await other.evaluate(DROP_SHELF)
    const again = await open()
    await notice(again).getByText('The browser dropped 1 case:').waitFor()
    await notice(again).getByText('0933').waitFor()
    await again.getByRole('button', { name: 'Dismiss' }).click()
    await expect.poll(() => notice(again).textContent(), { timeout: PATIENT_MS }).toBe('')
  },
  TEST_MS,
)
