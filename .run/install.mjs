// Installs what is missing: runs `npm ci` when node_modules does not match the lock file. Needs only Node itself.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const stamp = join(root, 'node_modules/.cache/installed-lock')

const major = Number(process.versions.node.split('.')[0])
if (major < 20) {
  console.error(`Found Node ${process.versions.node}, expected Node 20 or newer. Install a newer Node and try again.`)
  process.exit(1)
}

/** Leaves node_modules as the lock file says; does nothing when it already is. */
export function ensureInstalled() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return
  console.log('Installing packages from the lock file …')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const done = spawnSync(npm, ['ci', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  })
  if (done.status !== 0) {
    console.error('Packages could not be installed. Is the npm registry reachable from here?')
    process.exit(done.status ?? 1)
  }
  mkdirSync(dirname(stamp), { recursive: true })
  writeFileSync(stamp, lock)
}

/** Runs one of the installed programs; answers its exit code. */
export function runInstalled(program, args, env = {}) {
  const bin = join(root, 'node_modules/.bin', process.platform === 'win32' ? `${program}.cmd` : program)
  const done = spawnSync(bin, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    shell: process.platform === 'win32',
  })
  return done.status ?? 1
}
