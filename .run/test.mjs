// `npm test`: installs what is missing, then types, lint, and all tests (Node and a real Chromium), and sums up.
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled, root, runInstalled } from './install.mjs'

ensureInstalled()

const steps = [
  ['Types', () => runInstalled('tsc', ['--noEmit'])],
  ['Lint', () => runInstalled('oxlint', ['--type-aware', '--deny-warnings', 'src', 'tests'])],
  ['Format', () => runInstalled('biome', ['format', 'src', 'tests', '.run', 'vite.config.ts'])],
]
for (const [name, run] of steps) {
  console.log(`\n${name} …`)
  if (run() !== 0) {
    console.error(`${name}: failed.`)
    process.exit(1)
  }
}

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
