/** Drawing 50,000 pads while panning: the whole sheet against the same rectangles on a bare canvas, in one browser. */
import react from '@vitejs/plugin-react'
import { chromium } from 'playwright'
import { createServer, type Plugin } from 'vite'
import { chromiumLaunchOptions } from '../support/chromium.ts'

/** An empty page that runs the drawing side of the bench. */
const benchPage: Plugin = {
  name: 'bench-page',
  configureServer(server) {
    server.middlewares.use('/drawing', (_request, response) => {
      response.setHeader('content-type', 'text/html')
      response.end(
        '<!doctype html><body style="margin:0"><script type="module" src="/tests/bench/drawing-page.tsx"></script>',
      )
    })
  },
}

/** Rastering on the processor for both sides alike: without it a canvas may move to another path in mid-measurement. */
const rasterOnProcessor = () => {
  // oxlint-disable-next-line typescript/unbound-method -- it is only ever applied to the canvas it was called on
  const plain = HTMLCanvasElement.prototype.getContext
  HTMLCanvasElement.prototype.getContext = new Proxy(plain, {
    apply: (target, canvas, [kind, options]) =>
      Reflect.apply(target, canvas, [kind, kind === '2d' ? { ...options, willReadFrequently: true } : options]),
  })
}

/**
 * @returns milliseconds a frame (median and 95th percentile) of the sheet, of its pads alone and of the bare canvas, and
 * the median of the ratios frame by frame; aim: at most 1.5
 */
export async function benchDrawing(): Promise<object> {
  const server = await createServer({
    configFile: false,
    root: process.cwd(),
    logLevel: 'error',
    plugins: [react(), benchPage],
    optimizeDeps: { entries: ['tests/bench/drawing-page.tsx'] },
    server: { port: 0, host: '127.0.0.1', hmr: false, ws: false },
  })
  await server.listen()
  const browser = await chromium.launch(await chromiumLaunchOptions())
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
    await page.addInitScript(rasterOnProcessor)
    const address = server.resolvedUrls?.local[0]
    if (address === undefined) throw new Error('the bench server has no address')
    await page.goto(`${address}drawing`)
    const measured = page.locator('#measured')
    await measured.waitFor({ state: 'attached', timeout: 180_000 })
    return { name: 'drawing', ...JSON.parse((await measured.textContent()) ?? '{}') }
  } finally {
    await browser.close()
    await server.close()
  }
}
