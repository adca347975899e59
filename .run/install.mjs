// Installs what is missing: runs `npm ci` when node_modules does not match the lock file. Needs only Node itself.
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const major = Number(process.versions.node.split('.')[0])
if (major < 20) {
  console.error(`Found Node ${process.versions.node}, expected Node 20 or newer. Install a newer Node and try again.`)
  process.exit(1)
}

/** True when npm's own record of node_modules holds every package that the lock file asks of each machine. */
function isInstalled() {
  const record = join(root, 'node_modules/.package-lock.json')
  if (!existsSync(record)) return false
  const packagesOf = (file) => JSON.parse(readFileSync(file, 'utf8')).packages
  const installed = packagesOf(record)
  return Object.entries(packagesOf(join(root, 'package-lock.json'))).every(
    ([path, { version, optional }]) => path === '' || optional === true || installed[path]?.version === version,
  )
}

/** Leaves node_modules as the lock file says; does nothing when it already is. */
export function ensureInstalled() {
  if (isInstalled()) return
  console.log('Installing packages from the lock file …')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error']
  const done = spawnSync(npm, args, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' })
  if (done.status === 0) return
  console.error('Packages could not be installed. Is the npm registry reachable from here?')
  process.exit(done.status ?? 1)
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
