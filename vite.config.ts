import react from '@vitejs/plugin-react'
import { playwright } from '@vitest/browser-playwright'
import type { Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { build } from 'vite'
import { defineConfig } from 'vitest/config'
import { headers, policy } from './.run/policy.ts'
import { availableParallelism } from 'node:os'
import { chromiumLaunchOptions } from './tests/support/chromium.ts'
import { LongestFirst } from './tests/support/longest-first.ts'
import { PATIENT_MS, TEST_MS } from './tests/support/patience.ts'

const OF_THE_SYSTEM = [
  ...['shelf', 'workers', 'visit'].map((folder) => `tests/${folder}/**/*.test.ts`),
  'tests/cli/record-paper.test.ts',
  // a language that is loaded beside another would reach whatever shares its modules
  'tests/**/*another-language.test.ts',
]

/** What is loaded before the language is known, and must not wait for the page. */
const OF_THE_LANGUAGE =
  /src\/base\/|src\/view\/(?:main|speech\/speech|stores\/pageStorage)\.tsx?|index\.html|no-code-at-run-time|node_modules\/(?:zod|intl-messageformat|@formatjs)\/|vite\/preload-helper|modulepreload-polyfill/

const CORES = availableParallelism()
/** Room for what is young: most objects of the reasoning die at once, and 16 MB of them are collected over and over. */
const ROOM_FOR_YOUNG = ['--max-semi-space-size=64']

const underTest = process.env['VITEST'] !== undefined
const browserProvider = underTest ? playwright({ launchOptions: await chromiumLaunchOptions() }) : undefined

/** The policy stands in the built page too, whoever serves it; while it is developed, scripts come inline. */
function walls(): Plugin {
  return {
    name: 'liftmap-walls',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
      { tag: 'meta', attrs: { name: 'referrer', content: 'no-referrer' }, injectTo: 'head-prepend' },
    ],
  }
}

/** The browser fetches the page while the language is chosen. */
function pageAtOnce(): Plugin {
  return {
    name: 'liftmap-page-at-once',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: (_, { bundle }) =>
        Object.values(bundle ?? {}).flatMap((chunk) =>
          chunk.type === 'chunk' && chunk.facadeModuleId?.endsWith('/src/view/page.tsx') === true
            ? [chunk.fileName, ...chunk.imports].map((file) => ({
                tag: 'link',
                attrs: { rel: 'modulepreload', href: `./${file}` },
                injectTo: 'head' as const,
              }))
            : [],
        ),
    },
  }
}

/**
 * Installable, and there without a network: every file of a build is kept by its service worker. A newer build waits until
 * it is asked to begin (`src/view/version`); none takes over by itself.
 */
const offline = VitePWA({
  registerType: 'prompt',
  injectRegister: false,
  filename: 'sw.js',
  manifest: {
    name: 'Liftmap',
    short_name: 'Liftmap',
    description: 'Which parts of a graphics card to lift after a spill or slip, on a map of the board.',
    id: './',
    start_url: './',
    scope: './',
    display: 'standalone',
    background_color: '#fffdf7',
    theme_color: '#fffdf7',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
  workbox: {
    globPatterns: ['**/*'],
    globIgnores: ['sw.js', '**/*.map'],
    maximumFileSizeToCacheInBytes: 16_000_000,
    navigateFallback: 'index.html',
    cleanupOutdatedCaches: true,
    skipWaiting: false,
    // the page that was loaded first is kept whole too, before it is loaded a second time
    clientsClaim: true,
    inlineWorkboxRuntime: true,
    sourcemap: false,
  },
})

/**
 * Under test a worker comes as one file: served module by module, each of the hundreds that are started would ask for
 * every module of the cores anew. Whole visits run the application as it is built.
 */
function workerInOneFile(): Plugin {
  const bundled = once(async () => {
    const made = await build({
      configFile: false,
      logLevel: 'error',
      build: {
        write: false,
        minify: false,
        lib: { entry: 'src/workers/core.worker.ts', formats: ['es'] },
        rolldownOptions: { output: { codeSplitting: false } },
      },
    })
    const [first] = Array.isArray(made) ? made : [made]
    const chunk = first !== undefined && 'output' in first ? first.output[0] : undefined
    if (chunk === undefined) throw new Error('the worker of the tests was not built')
    return chunk.code
  })
  return {
    name: 'liftmap-worker-in-one-file',
    enforce: 'pre',
    async load(id) {
      if (!id.split('?')[0]?.endsWith('/src/workers/new-worker.ts')) return undefined
      return `const home = URL.createObjectURL(new Blob([${JSON.stringify(await bundled())}], { type: 'text/javascript' }))
export const newCoreWorker = () => new Worker(home, { type: 'module', name: 'liftmap-cores' })`
    },
  }
}

function once<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | undefined
  return () => (made ??= make())
}

export default defineConfig({
  root: 'src/view',
  publicDir: '../../public',
  base: './',
  plugins: [react(), walls(), pageAtOnce(), ...(underTest ? [] : [offline])],
  worker: { format: 'es' },
  build: {
    outDir: '../../dist',
    emptyOutDir: true,
    chunkSizeWarningLimit: 1500,
    // One file of all that the first drawing loads anyway, not one for each set of pages that share a piece of it: ninety.
    rolldownOptions: {
      // The page is loaded once its language is known, and is a beginning of its own.
      input: { index: 'src/view/index.html', page: 'src/view/page.tsx' },
      output: {
        codeSplitting: {
          groups: [
            { name: 'language', tags: ['$initial'], test: OF_THE_LANGUAGE, priority: 1 },
            { name: 'first', tags: ['$initial'] },
          ],
        },
      },
    },
  },
  server: { fs: { allow: ['../..'] } },
  preview: { headers },
  optimizeDeps: {
    include: [
      'react',
      'react-dom',
      'react-dom/client',
      'zustand',
      'zustand/vanilla',
      'zod',
      'flatbush',
      'd3-contour',
      'uplot',
      'lucide-react',
      'idb',
      'fflate',
      '@base-ui/react/dialog',
      'pdfmake/build/pdfmake',
      'pdfmake/build/vfs_fonts',
      'qr',
      'qr/decode.js',
      '@base-ui/react/menu',
      '@base-ui/react/popover',
      'vitest-browser-react',
      'axe-core',
    ],
  },
  test: {
    root: '.',
    // Every core has tests to run from beginning to end; the page stands beside them.
    maxWorkers: CORES,
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          // Pure rooms: data in, data out. Files share what was imported, which is most of their time.
          name: 'node',
          root: '.',
          environment: 'node',
          isolate: false,
          execArgv: ROOM_FOR_YOUNG,
          setupFiles: ['tests/support/seed.ts'],
          include: ['tests/**/*.test.ts'],
          exclude: [...OF_THE_SYSTEM, 'tests/browser/**', 'node_modules/**'],
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          expect: { poll: { timeout: PATIENT_MS } },
          maxConcurrency: 3,
        },
      },
      {
        extends: true,
        test: {
          // What starts processes, workers or a browser, or keeps something or loads another language: each file by itself.
          name: 'system',
          root: '.',
          environment: 'node',
          setupFiles: ['tests/support/seed.ts'],
          include: OF_THE_SYSTEM,
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          expect: { poll: { timeout: PATIENT_MS } },
          maxConcurrency: 3,
        },
      },
      {
        extends: true,
        plugins: [workerInOneFile()],
        // React as it is shipped: its development build takes twice as long to draw, and no test asks for its warnings.
        oxc: { jsx: { development: false } },
        optimizeDeps: {
          include: ['react/jsx-runtime', 'papaparse'],
          rolldownOptions: { transform: { define: { 'process.env.NODE_ENV': JSON.stringify('production') } } },
        },
        test: {
          // Files of one page share what was loaded; each closes the application that it started.
          name: 'browser',
          root: '.',
          isolate: false,
          setupFiles: ['tests/support/browser-page.ts'],
          include: ['tests/browser/**/*.browser.test.{ts,tsx}'],
          testTimeout: TEST_MS,
          hookTimeout: TEST_MS,
          expect: { poll: { timeout: PATIENT_MS } },
          browser: {
            enabled: true,
            headless: true,
            // one page on two cores, beside which the tests in Node run
            fileParallelism: CORES > 2,
            viewport: { width: 1440, height: 900 },
            screenshotFailures: false,
            ...(browserProvider === undefined ? {} : { provider: browserProvider }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
    ],
  },
})
