/** The shipped app with a camera that sees the slip: what is printed on it opens the case, and no frame leaves the page. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type BuiltApp, serveBuiltApp } from '../support/built-app.ts'
import { chromiumLaunchOptions } from '../support/chromium.ts'
import { PATIENT_MS, TEST_MS } from '../support/patience.ts'
import { beginCase, opening, why } from './steps.ts'
import { mouseHand } from './hands.ts'

let app: BuiltApp
let browser: Browser
const folder = mkdtempSync(join(tmpdir(), 'slip-'))
/** What the camera sees; written before it is first looked through. */
const seen = join(folder, 'seen.y4m')
beforeAll(async () => {
  app = await serveBuiltApp()
  const { args, ...options } = await chromiumLaunchOptions()
  browser = await chromium.launch({
    ...options,
    args: [
      ...args,
      '--use-fake-device-for-media-stream',
      '--use-fake-ui-for-media-stream',
      `--use-file-for-fake-video-capture=${seen}`,
    ],
  })
})
afterAll(async () => {
  await browser.close()
  await app.close()
  rmSync(folder, { recursive: true })
})

const WIDE = 640
const HIGH = 480

/** Light and dark of a picture, laid askew and small into the view of a camera, as a hand holds a slip. */
async function lumaOf(png: Buffer): Promise<Buffer> {
  const page = await browser.newPage()
  const luma = await page.evaluate(
    async ({ data, wide, high }) => {
      const picture = new Image()
      picture.src = data
      await picture.decode()
      const canvas = document.createElement('canvas')
      canvas.width = wide
      canvas.height = high
      const context = canvas.getContext('2d')
      if (context === null) throw new Error('no canvas')
      context.fillStyle = '#9a9488'
      context.fillRect(0, 0, wide, high)
      context.filter = 'blur(1px)'
      context.translate(wide / 2, high / 2)
      context.rotate(0.35)
      context.drawImage(picture, -110, -110, 220, 220)
      return [...context.getImageData(0, 0, wide, high).data].filter((_, i) => i % 4 === 1)
    },
    { data: `data:image/png;base64,${png.toString('base64')}`, wide: WIDE, high: HIGH },
  )
  await page.close()
  return Buffer.from(luma)
}

/** YUV4MPEG2: a line of the size, then frames of light, and of colour at half the size, which is none. */
function writeSeen(luma: Buffer): void {
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, Buffer.alloc((WIDE * HIGH) / 2, 128)])
  writeFileSync(seen, Buffer.concat([Buffer.from(`YUV4MPEG2 W${WIDE} H${HIGH} F10:1 Ip A1:1 C420\n`), frame, frame]))
}

const heading = (page: Page) => page.getByRole('heading', { level: 1 })

test(
  'the code that stands on a slip finds its case when it is typed, and opens it when it is scanned, while another is on the desk',
  async () => {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-US' })
    const page = await context.newPage()
    page.setDefaultTimeout(PATIENT_MS)
    const broken: string[] = []
    page.on('console', (message) => {
      if (/Content.Security.Policy|violates/i.test(message.text())) broken.push(message.text())
    })
    page.on('pageerror', (error) => broken.push(error.message))
    const elsewhere: string[] = []
    context.on('request', (request) => {
      if (!request.url().startsWith(app.address) && !/^(?:data|blob):/.test(request.url()))
        elsewhere.push(request.url())
    })
    await page.goto(app.address)
    await beginCase({ page, hand: mouseHand(page) })
    await opening(page, 'Card and seals').click()
    await why(page).getByRole('textbox', { name: 'Card number' }).fill('0731')
    await why(page).getByRole('button', { name: 'Intake slip…' }).click()
    const slip = page.frameLocator('iframe[title^="Intake slip"]')
    const code = await slip.locator('figcaption').innerText()
    expect(code).toMatch(/^[0-9A-Z]{4}-[0-9A-Z]{4}$/)
    writeSeen(await lumaOf(await slip.getByRole('img', { name: /^The code/ }).screenshot()))
    await page.keyboard.press('Escape')
    await page.getByRole('banner').getByText('Saved', { exact: true }).waitFor()

    await page.getByRole('button', { name: 'Open' }).click()
    await page.getByRole('menuitem', { name: /slipped/i }).click()
    await expect.poll(() => heading(page).innerText(), { timeout: PATIENT_MS }).toMatch(/slip/i)
    await page.keyboard.press('c')
    const search = page.getByRole('searchbox', { name: 'Search the cases' })
    await search.fill(code.replace(/.$/, '0'))
    await page.getByText('a character is wrong: look at the slip again').waitFor()
    await search.fill(code.toLowerCase())
    await page.getByRole('row').getByText(code).waitFor()
    await page.getByRole('button', { name: 'Scan' }).click()
    await expect.poll(() => heading(page).innerText(), { timeout: PATIENT_MS }).toContain('Card 0731')
    expect(await page.getByRole('dialog').count()).toBe(0)
    expect(broken).toEqual([])
    expect(elsewhere).toEqual([])
    await context.close()
  },
  TEST_MS,
)

test('cameras are for the page itself, and for nothing inside of it; there is no sound', async () => {
  const asked = (await fetch(app.address)).headers.get('permissions-policy') ?? ''
  expect(asked).toContain('camera=(self)')
  expect(asked).toContain('microphone=()')
})
