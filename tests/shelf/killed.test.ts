/** The browser dies in the middle of a hundred edits: the case opens, and at most the last half second is missing. */
import { mkdtempSync, rmSync } from 'node:fs'
import type { Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { z } from 'zod'
import { type BrowserByHand, startBrowser } from '../support/browser-by-hand.ts'
import { serveFolder } from '../support/serve-folder.ts'

const toldSchema = z.object({ edits: z.number(), kept: z.array(z.string()).optional(), fault: z.string().optional() })

const folder = mkdtempSync(join(tmpdir(), 'liftmap-killed-'))
let address = ''
let server: Server | undefined
const browsers: BrowserByHand[] = []

beforeAll(async () => {
  const root = join(process.cwd(), 'tests/shelf/page')
  const outDir = join(folder, 'page')
  await build({ configFile: false, root, base: './', logLevel: 'error', build: { outDir, minify: false } })
  ;({ address, server } = await serveFolder(outDir))
}, 60_000)

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

const timeOf = (words: string): number => Number(/ at (\d+)$/.exec(words)?.[1])
const numberOf = (words: string): number => Number(/^edit (\d+)/.exec(words)?.[1])

test('killed in the middle of a hundred edits, at most the last half second is missing', {
  timeout: 60_000,
}, async () => {
  const first = await open('')
  const before = await toldOnce(first, ({ edits }) => edits >= 50)
  const killedAt = Date.now()
  await first.kill()
  expect(before.edits).toBeLessThan(100)
  const again = await open('?read')
  const { kept = [] } = await toldOnce(again, (now) => now.kept !== undefined)
  const last = kept[0] ?? ''
  // where a busy machine held up the hand itself, the last edit that was seen is there
  const missingMs = numberOf(last) >= before.edits ? 0 : killedAt - timeOf(last)
  expect(missingMs).toBeLessThan(500)
  // every step before it is there as well, in order
  expect(kept.map(numberOf)).toEqual(Array.from({ length: numberOf(last) }, (_, i) => numberOf(last) - i))
  // and undo and redo go on over reloads
  const walked = async (search: string): Promise<number> => {
    await again.page.goto(`${address}${search}`)
    return (await toldOnce(again, (now) => now.kept !== undefined)).edits
  }
  expect(await walked('?undo')).toBe(numberOf(last) - 7)
  expect(await walked('?undo')).toBe(numberOf(last) - 14)
  expect(await walked('?redo')).toBe(numberOf(last) - 7)
  expect(await walked('?redo')).toBe(numberOf(last))
})
