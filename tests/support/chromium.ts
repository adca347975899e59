/** How Playwright launches the browser for tests: the Chromium that npm installed, with its own fonts and libraries. */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--font-render-hinting=none',
]

export interface LaunchOptions {
  executablePath: string
  args: string[]
  env?: Record<string, string>
}

/** `CHROMIUM_PATH` overrides the browser that npm installed (needed anywhere but on 64-bit Linux). */
export async function chromiumLaunchOptions(): Promise<LaunchOptions> {
  const chosen = process.env['CHROMIUM_PATH']
  if (chosen) return { executablePath: chosen, args: FLAGS }
  const home = join(process.cwd(), 'node_modules/.cache', `chromium-${installedVersion()}`)
  if (!existsSync(home)) {
    const partial = `${home}.${process.pid}`
    await unpackChromium(partial)
    try {
      renameSync(partial, home)
    } catch {
      rmSync(partial, { recursive: true }) // another process was first
    }
  }
  writeWhole(
    join(home, 'fonts.conf'),
    `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${home}/fonts/fonts</dir><cachedir>${home}/fonts-cache</cachedir></fontconfig>`,
  )
  const env: Record<string, string> = {}
  for (const [key, value] of Object.entries(process.env)) if (value !== undefined) env[key] = value
  env['LD_LIBRARY_PATH'] = join(home, 'al2023/lib')
  env['FONTCONFIG_FILE'] = join(home, 'fonts.conf')
  // Under a bare POSIX locale the page's language is no valid tag, which libraries refuse.
  env['LC_ALL'] = 'en_US.UTF-8'
  env['LANGUAGE'] = 'en_US'
  return { executablePath: join(home, 'chromium'), args: FLAGS, env }
}

/** Never seen half written: a browser that another process starts may read it at any moment. */
function writeWhole(path: string, text: string): void {
  if (existsSync(path) && readFileSync(path, 'utf8') === text) return
  const partial = `${path}.${process.pid}`
  writeFileSync(partial, text)
  renameSync(partial, path)
}

function installedVersion(): string {
  const manifest = readFileSync(join(process.cwd(), 'node_modules/@sparticuz/chromium/package.json'), 'utf8')
  return z.object({ version: z.string() }).parse(JSON.parse(manifest)).version
}

/** The package unpacks into os.tmpdir() and adds its NSS libraries only where it believes it is on Lambda. */
async function unpackChromium(dir: string): Promise<void> {
  mkdirSync(dir, { recursive: true })
  const touched = ['TMPDIR', 'AWS_LAMBDA_JS_RUNTIME', 'LD_LIBRARY_PATH', 'FONTCONFIG_PATH']
  const saved = new Map(touched.map((key) => [key, process.env[key]]))
  process.env['TMPDIR'] = dir
  process.env['AWS_LAMBDA_JS_RUNTIME'] = 'nodejs20.x'
  try {
    const { default: chromium } = await import('@sparticuz/chromium')
    await chromium.executablePath()
  } finally {
    for (const [key, value] of saved) {
      if (value === undefined) delete process.env[key]
      else process.env[key] = value
    }
  }
}
