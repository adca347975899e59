/** One Chromium for a whole file of tests; it ends with the file. */
import { type Browser, chromium } from 'playwright'
import { afterAll, beforeAll } from 'vitest'
import { chromiumLaunchOptions } from './chromium.ts'

/** @returns a function that gives the browser once tests run */
export function browserOfFile(): () => Browser {
  let browser: Browser | undefined
  beforeAll(async () => {
    browser = await chromium.launch(await chromiumLaunchOptions())
  })
  afterAll(async () => {
    await browser?.close()
  })
  return () => {
    if (browser === undefined) throw new Error('the browser is not there before the tests run')
    return browser
  }
}
