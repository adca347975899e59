/**
 * The app as it is shipped, built and served on a local port, for tests that need whole pages, touch or a killed browser.
 * `BUILT_APP` names a folder with a build that is there already, and none is made.
 */
import { execFile } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join, normalize } from 'node:path'
import { promisify } from 'node:util'

export interface BuiltApp {
  readonly address: string
  readonly close: () => Promise<void>
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
}

/** Builds in a process of its own, so that the build is a production one whatever the test runner's environment says. */
async function build(home: string): Promise<void> {
  const { VITEST: _, ...env } = process.env
  const options = ['--outDir', home, '--emptyOutDir', '--logLevel', 'error']
  await promisify(execFile)(process.execPath, ['node_modules/vite/bin/vite.js', 'build', ...options], {
    env: { ...env, NODE_ENV: 'production' },
  })
}

export async function serveBuiltApp(): Promise<BuiltApp> {
  const made = process.env['BUILT_APP']
  const home = made ?? join(process.cwd(), 'node_modules/.cache', `built-app-${process.pid}`)
  if (made === undefined) await build(home)
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://app').pathname))
    const file = join(home, path.endsWith('/') ? `${path}index.html` : path)
    if (!file.startsWith(home) || !existsSync(file)) return response.writeHead(404).end()
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' })
    return response.end(readFileSync(file))
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const at = server.address()
  if (at === null || typeof at === 'string') throw new Error('the app is served at no port')
  return {
    address: `http://127.0.0.1:${at.port}/`,
    close: async () => {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
      if (made === undefined) rmSync(home, { recursive: true, force: true })
    },
  }
}
