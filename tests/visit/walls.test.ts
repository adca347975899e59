/** The walls of the shipped app: nothing leaves, nothing inline runs, at every station and with every export. */
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

test(
  'no request leaves and nothing breaks the policy, with every station seen and every export made',
  async () => {
    const context = await browser().newContext({ viewport: { width: 1440, height: 900 } })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENT_MS)
    const elsewhere: string[] = []
    const broken: string[] = []
    const saved: string[] = []
    // of the context: what the service worker asks for counts too
    context.on('request', (request) => {
      const address = request.url()
      if (!address.startsWith(app.address) && !/^(?:data|blob):/.test(address)) elsewhere.push(address)
    })
    page.on('console', (message) => {
      if (/Content.Security.Policy|violates/i.test(message.text())) broken.push(message.text())
    })
    page.on('pageerror', (error) => broken.push(error.message))
    page.on('download', (download) => saved.push(download.suggestedFilename()))
    await page.goto(app.address)
    await page.getByText('Lift list').first().waitFor()
    for (const key of STATION_KEYS) await goToStationOfKey(page, key)
    await page.getByRole('button', { name: 'Export', exact: true }).click()
    await page.getByRole('button', { name: 'Look at it' }).click()
    const frame = page.frameLocator('iframe[title^="Record"]')
    await frame.locator('main').waitFor()
    // the record is written anew while the plan still comes in, and a frame is loaded again with it
    const fontSeen = () => frame.locator('body').evaluate((body) => getComputedStyle(body).fontFamily)
    await expect.poll(fontSeen, { timeout: PATIENT_MS }).not.toMatch(/^"?Times/)
    await page.getByRole('button', { name: 'Save page' }).click()
    await page.getByRole('button', { name: 'Save PDF' }).click()
    await expect.poll(() => saved.length, { timeout: PATIENT_MS }).toBeGreaterThanOrEqual(3)
    expect(saved.map((name) => name.split('.').pop())).toEqual(expect.arrayContaining(['html', 'pdf']))
    await page.evaluate(() => navigator.serviceWorker.ready)
    expect(elsewhere).toEqual([])
    expect(broken).toEqual([])
    await context.close()
  },
  2 * TEST_MS,
)

test('what serves the page forbids frames, guesses of types, referrers and code from elsewhere', async () => {
  const answer = await fetch(app.address)
  const policy = answer.headers.get('content-security-policy') ?? ''
  expect(policy).toContain("default-src 'none'")
  for (const from of ['worker-src', 'manifest-src', 'connect-src']) expect(policy).toMatch(new RegExp(`${from} 'self'`))
  expect(policy).toContain("frame-ancestors 'none'")
  expect(policy.replace("'wasm-unsafe-eval'", '')).not.toMatch(/unsafe|\*|https?:/)
  expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
  expect(answer.headers.get('referrer-policy')).toBe('no-referrer')
  const html = await answer.text()
  expect(html).toContain('http-equiv="Content-Security-Policy"')
  expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\son\w+=/)
})

/** Run from a timer, since what the test itself hands to the page is let through. */
const whatRuns = (): Promise<{ text: boolean; vectors: boolean }> =>
  new Promise((resolve) => {
    setTimeout(() => {
      const isRun = (run: () => unknown): boolean => {
        try {
          run()
          return true
        } catch {
          return false
        }
      }
      const text = isRun(() => Reflect.construct(Function, ['return 1']))
      // `\0asm`, version 1, and nothing in it.
      const vectors = isRun(() => new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0)))
      resolve({ text, vectors })
    }, 0)
  })

test(
  'page and worker make WebAssembly, which reads long reports, and no code out of texts',
  async () => {
    const page = await browser().newPage()
    page.setDefaultTimeout(PATIENT_MS)
    await page.goto(app.address)
    await page.getByText('Lift list').first().waitFor()
    await expect.poll(() => page.workers().length, { timeout: PATIENT_MS }).toBeGreaterThan(0)
    const [worker] = page.workers()
    expect(await page.evaluate(whatRuns)).toEqual({ text: false, vectors: true })
    expect(await worker?.evaluate(whatRuns)).toEqual({ text: false, vectors: true })
    const isInlineRun = await page.evaluate(async () => {
      const script = document.createElement('script')
      script.textContent = 'document.documentElement.dataset.inline = "run"'
      document.body.append(script)
      await new Promise((resolve) => setTimeout(resolve, 0))
      return document.documentElement.dataset['inline'] === 'run'
    })
    expect(isInlineRun).toBe(false)
    await page.close()
  },
  TEST_MS,
)
