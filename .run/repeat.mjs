// `npm run repeat -- --times 10 --project browser --load`: runs the tests of a project several times in a row, if wanted
// under a busy loop on each core, and counts: how many runs passed, how many failed, and what failed in them. Paths or parts
// of names after the options choose some test files. Ends with 1 when any run failed.
import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism, loadavg } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { ensureInstalled, root } from './install.mjs'

const usage = 'npm run repeat -- [--times 10] [--project node|browser] [--load] [test files …]'
const { values, positionals } = readWords()
const times = Number(values.times)
if (!Number.isInteger(times) || times < 1) stop(`Found --times ${values.times}, expected a whole number from 1.`)

ensureInstalled()
const cache = join(root, 'node_modules/.cache')
mkdirSync(cache, { recursive: true })
const report = join(cache, `repeat-${process.pid}.json`)
const busy = values.load ? Array.from({ length: availableParallelism() }, startBusyLoop) : []
process.on('exit', () => {
  for (const loop of busy) loop.kill('SIGKILL')
  rmSync(report, { force: true })
})
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1))

const runs = []
for (let n = 1; n <= times; n++) {
  const run = runOnce()
  runs.push(run)
  const said = run.passed ? 'passed' : `FAILED: ${run.names.join('; ') || run.trouble}`
  console.log(`run ${n} of ${times}: ${said} (${run.tests} tests, ${run.seconds} s, load ${loadavg()[0].toFixed(1)})`)
}
sumUp()

function readWords() {
  const options = { times: { type: 'string', default: '10' }, project: { type: 'string' }, load: { type: 'boolean' } }
  try {
    return parseArgs({ options, allowPositionals: true })
  } catch (reason) {
    return stop(reason.message)
  }
}

function stop(why) {
  console.error(`${why}\n${usage}`)
  process.exit(2)
}

function startBusyLoop() {
  return spawn(process.execPath, ['-e', 'while (true) {}'], { stdio: 'ignore' })
}

function runOnce() {
  rmSync(report, { force: true })
  const began = Date.now()
  const project = values.project === undefined ? [] : ['--project', values.project]
  const vitest = join(root, 'node_modules/vitest/vitest.mjs')
  const words = [vitest, 'run', ...project, '--reporter=json', `--outputFile=${report}`, ...positionals]
  const done = spawnSync(process.execPath, words, { cwd: root, encoding: 'utf8', maxBuffer: 1e9 })
  const { names, tests } = readReport()
  const passed = done.status === 0 && names.length === 0 && tests > 0
  const trouble = `ended with ${done.status ?? done.signal}: ${`${done.stdout}${done.stderr}`.trim().slice(-2000)}`
  return { passed, names, tests, trouble, seconds: Math.round((Date.now() - began) / 1000) }
}

/** Names of tests that failed, and of files that failed before a test of theirs ran. */
function readReport() {
  try {
    const { testResults, numTotalTests } = JSON.parse(readFileSync(report, 'utf8'))
    const names = testResults.flatMap(({ name, status, assertionResults }) => {
      const file = name.slice(root.length + 1)
      const failed = assertionResults.filter((test) => test.status === 'failed')
      if (failed.length === 0) return status === 'failed' ? [`${file} (before its tests)`] : []
      return failed.map(({ fullName }) => `${file}: ${fullName.trim()}`)
    })
    return { names, tests: numTotalTests }
  } catch {
    return { names: [], tests: 0 }
  }
}

function sumUp() {
  const failed = runs.filter((run) => !run.passed)
  const under = values.load ? `, under a busy loop on each of ${busy.length} cores` : ''
  console.log(`\n${runs.length - failed.length} of ${runs.length} runs passed, ${failed.length} failed${under}`)
  const counts = new Map()
  for (const { names } of failed) for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1)
  for (const [name, count] of [...counts].toSorted((a, b) => b[1] - a[1])) console.log(`${count} × ${name}`)
  process.exit(failed.length === 0 ? 0 : 1)
}
