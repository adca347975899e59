/** A Chromium of one's own in a process group of one's own, with a profile that outlives it: it can be killed like by the kernel. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright'
import { chromiumLaunchOptions } from './chromium.ts'
import { PATIENT_MS } from './patience.ts'
import { waitUntil } from './waiting.ts'

export interface BrowserByHand {
  readonly page: Page
  /** SIGKILL to every process of it; nothing is told and nothing is tidied up. */
  readonly kill: () => Promise<void>
}

export async function startBrowser(profile: string): Promise<BrowserByHand> {
  const { executablePath, args, env } = await chromiumLaunchOptions()
  const portFile = join(profile, 'DevToolsActivePort')
  rmSync(portFile, { force: true })
  const own = ['--headless', '--remote-debugging-port=0', `--user-data-dir=${profile}`, '--lang=en-US', 'about:blank']
  const child = spawn(executablePath, [...args, ...own], { env: env ?? process.env, detached: true, stdio: 'ignore' })
  const gone = once(child, 'exit')
  const kill = async (): Promise<void> => {
    if (child.pid !== undefined && child.exitCode === null && child.signalCode === null)
      process.kill(-child.pid, 'SIGKILL')
    await gone
  }
  try {
    const browser = await connected(portFile)
    const [context] = browser.contexts()
    if (context === undefined) throw new Error('no window in the browser')
    return { page: context.pages()[0] ?? (await context.newPage()), kill }
  } catch (reason) {
    await kill()
    throw reason
  }
}

/** The browser writes its port into its profile once it listens, and behind it, in a second line, a path. */
async function connected(portFile: string): Promise<Browser> {
  let port: string | undefined
  await waitUntil(() => {
    port = existsSync(portFile) ? /^(\d+)\n\S/.exec(readFileSync(portFile, 'utf8'))?.[1] : undefined
    return port !== undefined
  })
  return chromium.connectOverCDP(`http://127.0.0.1:${port}`, { timeout: PATIENT_MS })
}
