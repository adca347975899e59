// `npm test`: installs what is missing, then types, lint, and all tests (Node and a real Chromium), and sums up.
import { spawn } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled, root, runInstalled } from './install.mjs'

ensureInstalled()

/** Runs one of the installed programs beside others; answers its exit code and all that it said. */
function heardOf(program, args) {
  const isWindows = process.platform === 'win32'
  const bin = join(root, 'node_modules/.bin', isWindows ? `${program}.cmd` : program)
  return new Promise((resolve) => {
    const running = spawn(bin, args, { cwd: root, shell: isWindows })
    let said = ''
    const hear = (piece) => (said += piece)
    running.stdout.setEncoding('utf8').on('data', hear)
    running.stderr.setEncoding('utf8').on('data', hear)
    running.on('error', (error) => resolve({ code: 1, said: String(error) }))
    running.on('close', (code) => resolve({ code: code ?? 1, said }))
  })
}

console.log('\nTypes, lint, format …')
const steps = await Promise.all(
  [
    ['Types', 'tsc', ['--noEmit']],
    ['Lint', 'oxlint', ['--type-aware', '--deny-warnings', 'src', 'tests']],
    ['Format', 'biome', ['format', 'src', 'tests', '.run', 'vite.config.ts']],
  ].map(async ([name, program, args]) => ({ name, ...(await heardOf(program, args)) })),
)
for (const { name, code, said } of steps) console.log(`\n${name}: ${code === 0 ? 'fine' : 'failed'}.\n${said}`)
if (steps.some(({ code }) => code !== 0)) process.exit(1)

console.log('\nTests …')
const report = join(root, 'node_modules/.cache/test-report.json')
mkdirSync(join(root, 'node_modules/.cache'), { recursive: true })
rmSync(report, { force: true })
const code = runInstalled('vitest', ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`])
const {
  numPassedTests: passed,
  numFailedTests: failed,
  numPendingTests: skipped,
  numTotalTests: total,
} = JSON.parse(readFileSync(report, 'utf8'))
console.log(`\n${passed} passed, ${failed} failed, ${skipped} skipped`)
if (total === 0) console.error('No test was run.')
process.exit(code !== 0 || total === 0 ? 1 : 0)
