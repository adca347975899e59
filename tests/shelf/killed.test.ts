/** The browser dies in the middle of a hundred edits: the case opens, and nothing is missing that was said to be saved. */
import { mkdtempSync, rmSync } from 'node:fs'
import type { Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { z } from 'zod'
import { type BrowserByHand, startBrowser } from '../support/browser-by-hand.ts'
import { serveFolder } from '../support/serve-folder.ts'

const toldSchema = z.object({
  edits: z.number(),
  saved: z.number().optional(),
  kept: z.array(z.number()).optional(),
  fault: z.string().optional(),
})

const folder = mkdtempSync(join(tmpdir(), 'liftmap-killed-'))
let address = ''
let server: Server | undefined
const browsers: BrowserByHand[] = []

beforeAll(async () => {
  const root = join(process.cwd(), 'tests/shelf/page')
  const outDir = join(folder, 'page')
  await build({ configFile: false, root, base: './', logLevel: 'error', build: { outDir, minify: false } })
  ;({ address, server } = await serveFolder(outDir))
})

afterAll(async () => {
  for (const browser of browsers) await browser.kill()
  server?.close()
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 })
})

async function open(search: string): Promise<BrowserByHand> {
  const browser = await startBrowser(join(folder, 'profile'))
  browsers.push(browser)
  await browser.page.goto(`${address}${search}`)
  return browser
}

async function told(browser: BrowserByHand): Promise<z.infer<typeof toldSchema>> {
  const title = await browser.page.title()
  return title.startsWith('{') ? toldSchema.parse(JSON.parse(title)) : { edits: 0 }
}

async function toldOnce(browser: BrowserByHand, holds: (now: z.infer<typeof toldSchema>) => boolean) {
  for (;;) {
    const now = await told(browser)
    if (now.fault !== undefined) throw new Error(now.fault)
    if (holds(now)) return now
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
}

test('killed in the middle of a hundred edits, all that was said to be saved is there, and every step before it', async () => {
  const first = await open('')
  const before = await toldOnce(first, ({ edits, saved = 0 }) => edits >= 50 && saved >= 20)
  await first.kill()
  const again = await open('?read')
  const { kept = [] } = await toldOnce(again, (now) => now.kept !== undefined)
  const last = kept[0] ?? 0
  expect(last).toBeGreaterThanOrEqual(before.saved ?? 0)
  expect(kept).toEqual(Array.from({ length: last }, (_, i) => last - i))
  // and undo and redo go on over reloads
  const walked = async (search: string): Promise<number> => {
    await again.page.goto(`${address}${search}`)
    return (await toldOnce(again, (now) => now.kept !== undefined)).edits
  }
  expect(await walked('?undo')).toBe(last - 7)
  expect(await walked('?undo')).toBe(last - 14)
  expect(await walked('?redo')).toBe(last - 7)
  expect(await walked('?redo')).toBe(last)
})
