/**
 * The app as it is shipped, built and served on a local port, for tests that need whole pages, touch or a killed browser.
 * One build serves all tests, and later runs too, until something that it is made from changes. `BUILT_APP` names a folder
 * with a build that is there already, and none is made.
 */
import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join, normalize } from 'node:path'
import { promisify } from 'node:util'
import { headers } from '../../.run/policy.ts'

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
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
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

const CACHE = join(process.cwd(), 'node_modules/.cache')
const MADE_FROM = [
  '.run/policy.ts',
  'public',
  'src',
  'boards',
  'demo-data',
  'words',
  'vite.config.ts',
  'package-lock.json',
]

function filesIn(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path]
  return readdirSync(path)
    .toSorted()
    .flatMap((name) => filesIn(join(path, name)))
}

/** @returns the folder of a build of the sources as they are now */
async function builtNow(): Promise<string> {
  const hash = createHash('sha256')
  for (const path of MADE_FROM.flatMap(filesIn)) hash.update(path).update('\0').update(readFileSync(path)).update('\0')
  const home = join(CACHE, `built-app-${hash.digest('hex').slice(0, 16)}`)
  if (existsSync(home)) return home
  forgetOldBuilds()
  const partial = `${home}.${process.pid}`
  await build(partial)
  try {
    renameSync(partial, home)
  } catch {
    rmSync(partial, { recursive: true }) // another process was first
  }
  return home
}

const OLD_MS = 24 * 3_600_000

function forgetOldBuilds(): void {
  if (!existsSync(CACHE)) return
  for (const name of readdirSync(CACHE).filter((each) => each.startsWith('built-app-'))) {
    const path = join(CACHE, name)
    const made = statSync(path, { throwIfNoEntry: false })?.mtimeMs
    if (made !== undefined && Date.now() - made > OLD_MS) rmSync(path, { recursive: true, force: true })
  }
}

/** @param changed what is served in place of a file, by its path, as a newer build would have it */
export async function serveBuiltApp(
  changed: (path: string, bytes: Buffer) => Buffer = (_, bytes) => bytes,
): Promise<BuiltApp> {
  const home = process.env['BUILT_APP'] ?? (await builtNow())
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://app').pathname))
    const file = join(home, path.endsWith('/') ? `${path}index.html` : path)
    if (!file.startsWith(home) || !existsSync(file)) return response.writeHead(404).end()
    response.writeHead(200, { ...headers, 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' })
    return response.end(changed(path, readFileSync(file)))
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const at = server.address()
  if (at === null || typeof at === 'string') throw new Error('the app is served at no port')
  return {
    address: `http://127.0.0.1:${at.port}/`,
    close: async () => {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
    },
  }
}
