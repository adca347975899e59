/**
 * The first drawing of the demo from a cold start on the built application: script that is asked for until the sheet shows
 * the card, the longest task of the page's thread, and its processor time. `BUILT_APP=folder` takes a build that is there.
 */
import { gzipSync } from 'node:zlib'
import { type Browser, chromium } from 'playwright'
import { z } from 'zod'
import { serveBuiltApp } from '../support/built-app.ts'
import { chromiumLaunchOptions } from '../support/chromium.ts'

const STARTS = 7
const AIMS = { firstDrawingMs: 1000, scriptKb: 350, longestTaskMs: 50 }

/** Notes when a pane’s picture shows the present state for the first time; as text, for it runs in the page. */
const NOTE_FIRST_DRAWING = `
  const watch = new MutationObserver(() => {
    if (document.querySelector('[data-drawn="yes"]') === null) return
    performance.mark('first-drawing')
    watch.disconnect()
  })
  watch.observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-drawn'] })`

const traceEvent = z.object({
  name: z.string(),
  ph: z.string(),
  pid: z.number(),
  tid: z.number(),
  ts: z.number(),
  dur: z.number().optional(),
  tdur: z.number().optional(),
  args: z.record(z.string(), z.unknown()).optional(),
})
type TraceEvent = z.infer<typeof traceEvent>

interface Start {
  readonly firstDrawingMs: number
  readonly scripts: readonly string[]
  readonly longestTaskMs: number
  readonly longestTaskProcessorMs: number
  readonly processorMs: number
}

/** One start in a fresh profile, traced until two seconds after the first drawing. */
async function startOnce(browser: Browser, address: string): Promise<Start> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.addInitScript(NOTE_FIRST_DRAWING)
  const session = await browser.newBrowserCDPSession()
  const events: TraceEvent[] = []
  session.on('Tracing.dataCollected', ({ value }) => events.push(...z.array(traceEvent).parse(value)))
  await session.send('Tracing.start', {
    traceConfig: { includedCategories: ['toplevel', 'blink.user_timing', 'loading'] },
  })
  await page.goto(address)
  await page.waitForFunction(() => performance.getEntriesByName('first-drawing').length > 0)
  const firstDrawingMs = await page.evaluate(
    () => performance.getEntriesByName('first-drawing')[0]?.startTime ?? Number.NaN,
  )
  const scripts = await page.evaluate(
    (until) =>
      performance
        .getEntriesByType('resource')
        .filter(({ name, startTime }) => name.endsWith('.js') && startTime <= until)
        .map(({ name }) => name),
    firstDrawingMs,
  )
  await page.waitForTimeout(2000)
  const ended = new Promise<void>((resolve) => session.once('Tracing.tracingComplete', () => resolve()))
  await session.send('Tracing.end')
  await ended
  await context.close()
  return { firstDrawingMs, scripts, ...tasksOf(events) }
}

/** Tasks of the thread that made the mark of the first drawing, from the page’s navigation on. */
function tasksOf(events: readonly TraceEvent[]): Omit<Start, 'firstDrawingMs' | 'scripts'> {
  const drawn = events.find(({ name }) => name === 'first-drawing')
  if (drawn === undefined) throw new Error('the trace holds no first drawing')
  const mine = events.filter(({ pid, tid }) => pid === drawn.pid && tid === drawn.tid)
  const tasks = mine.filter(({ name, ph }) => ph === 'X' && name.endsWith('RunTask'))
  const ms = (micros = 0) => micros / 1000
  const longest = tasks.reduce((a, b) => ((b.dur ?? 0) > (a.dur ?? 0) ? b : a))
  return {
    longestTaskMs: ms(longest.dur),
    longestTaskProcessorMs: Math.max(...tasks.map(({ tdur }) => ms(tdur))),
    processorMs: tasks.filter(({ ts }) => ts <= drawn.ts).reduce((sum, { tdur }) => sum + ms(tdur), 0),
  }
}

const median = (values: readonly number[]): number =>
  Number((values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN).toFixed(1))

async function kilobytes(addresses: readonly string[]): Promise<number> {
  const sizes = await Promise.all(
    addresses.map(async (address) => gzipSync(Buffer.from(await (await fetch(address)).arrayBuffer())).length),
  )
  return Number((sizes.reduce((sum, size) => sum + size, 0) / 1000).toFixed(1))
}

/** @returns medians over cold starts; the page’s script in kB gzipped apart from that of the worker */
export async function benchStart(): Promise<object> {
  const app = await serveBuiltApp()
  const browser = await chromium.launch(await chromiumLaunchOptions())
  try {
    const starts: Start[] = []
    for (let k = 0; k <= STARTS; k++) starts.push(await startOnce(browser, app.address))
    const measured = starts.slice(1)
    const scripts = measured[0]?.scripts ?? []
    const ofWorker = (address: string) => address.includes('core.worker')
    return {
      starts: measured.length,
      firstDrawingMs: median(measured.map(({ firstDrawingMs }) => firstDrawingMs)),
      scriptKb: await kilobytes(scripts.filter((address) => !ofWorker(address))),
      scriptFiles: scripts.length,
      workerKb: await kilobytes([...new Set(scripts.filter(ofWorker))]),
      longestTaskMs: median(measured.map(({ longestTaskMs }) => longestTaskMs)),
      longestTaskProcessorMs: median(measured.map(({ longestTaskProcessorMs }) => longestTaskProcessorMs)),
      processorMsUntilDrawn: median(measured.map(({ processorMs }) => processorMs)),
      aims: AIMS,
    }
  } finally {
    await browser.close()
    await app.close()
  }
}
