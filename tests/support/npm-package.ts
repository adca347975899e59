/**
 * Files out of a package of the npm registry, fetched with npm's own client into `node_modules/.cache`, whatever its dependencies.
 * Nothing of them is kept in the repository.
 */
import { execFile } from 'node:child_process'
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, readdir, rename, rm } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import type { TestContext } from 'vitest'

const run = promisify(execFile)
const CACHE = resolve('node_modules/.cache/npm-packages')
const COMMAND_TIMEOUT_MS = 120_000

/**
 * Folder of an unpacked package. Where it can't be had the test says so and is skipped, or fails if LIFTMAP_NO_SKIP is set.
 * @param wanted name and version, such as `left-pad@1.3.0`
 */
export async function npmPackage(wanted: string, context: TestContext): Promise<string> {
  const folder = join(CACHE, wanted.replaceAll(/[^\w.@-]/g, '_'))
  if (existsSync(folder)) return folder
  try {
    await fetchInto(wanted, folder)
    return folder
  } catch (error) {
    const reason = `${wanted} can't be had: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`
    console.warn(`NOT TESTED on files of others: ${reason}`)
    if (process.env['LIFTMAP_NO_SKIP'] === '1') throw new Error(reason, { cause: error })
    return context.skip(reason)
  }
}

async function fetchInto(wanted: string, folder: string): Promise<void> {
  await mkdir(CACHE, { recursive: true })
  const work = await mkdtemp(join(CACHE, 'work-'))
  try {
    const options = { cwd: work, timeout: COMMAND_TIMEOUT_MS }
    await run('npm', ['pack', wanted, '--silent', '--ignore-scripts'], options)
    const archive = (await readdir(work)).find((name) => name.endsWith('.tgz'))
    if (archive === undefined) throw new Error('npm packed nothing')
    await run('tar', ['-x', '-z', '-f', archive], options)
    // another test may have been faster
    if (!existsSync(folder)) await rename(join(work, 'package'), folder)
  } finally {
    await rm(work, { recursive: true, force: true })
  }
}
