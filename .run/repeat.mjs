// `npm run repeat -- --times 10 --project browser --load`: runs the tests of a project several times in a row, if wanted
// under a busy loop on each core, and counts: how many runs passed, how many failed, and what failed in them. Paths or parts
// of names after the options choose some test files. A run that somebody ended is no run that failed and is counted apart.
// Ends with 1 unless every run passed.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism, loadavg } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { ensureInstalled, root } from './install.mjs'

const usage = 'npm run repeat -- [--times 10] [--project node|system|browser] [--load] [test files …]'
/** 128 and the number of the signal: hang-up, interrupt, kill, terminate. */
const ENDED_BY_SIGNAL = new Set([129, 130, 137, 143])
const { values, positionals } = readWords()
const times = Number(values.times)
if (!Number.isInteger(times) || times < 1) stop(`Found --times ${values.times}, expected a whole number from 1.`)

ensureInstalled()
const cache = join(root, 'node_modules/.cache')
mkdirSync(cache, { recursive: true })
const report = join(cache, `repeat-${process.pid}.json`)
const busy = values.load ? Array.from({ length: availableParallelism() }, startBusyLoop) : []
let running
process.on('exit', () => {
  running?.kill()
  for (const loop of busy) loop.kill('SIGKILL')
  rmSync(report, { force: true })
})
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1))

const runs = []
for (let n = 1; n <= times; n++) {
  const run = await runOnce()
  runs.push(run)
  const why = run.outcome === 'passed' ? '' : `: ${run.names.join('; ') || run.trouble}`
  console.log(
    `run ${n} of ${times}: ${run.outcome}${why} (${run.tests} tests, ${run.seconds} s, load ${loadavg()[0].toFixed(1)})`,
  )
  for (const reason of run.reasons) console.log(reason.replaceAll(/^/gm, '    '))
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

async function runOnce() {
  rmSync(report, { force: true })
  const began = Date.now()
  const project = values.project === undefined ? [] : ['--project', values.project]
  const vitest = join(root, 'node_modules/vitest/vitest.mjs')
  const words = [vitest, 'run', ...project, '--reporter=json', `--outputFile=${report}`, ...positionals]
  running = spawn(process.execPath, words, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] })
  let said = ''
  for (const stream of [running.stdout, running.stderr]) stream.setEncoding('utf8').on('data', (text) => (said += text))
  const [status, signal] = await once(running, 'close')
  const { names, reasons, tests } = readReport()
  const passed = status === 0 && names.length === 0 && tests > 0
  const ended = tests === 0 && (signal !== null || ENDED_BY_SIGNAL.has(status))
  const outcome = passed ? 'passed' : ended ? 'broken off' : 'failed'
  const trouble = `ended with ${status ?? signal}: ${said.trim().slice(-2000)}`
  return { outcome, names, reasons, tests, trouble, seconds: Math.round((Date.now() - began) / 1000) }
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
    const reasons = testResults.flatMap(({ assertionResults }) =>
      assertionResults.flatMap(({ failureMessages }) => failureMessages.map((message) => message.slice(0, 1500))),
    )
    return { names, reasons, tests: numTotalTests }
  } catch {
    return { names: [], reasons: [], tests: 0 }
  }
}

function sumUp() {
  const countOf = (outcome) => runs.filter((run) => run.outcome === outcome).length
  const failed = runs.filter((run) => run.outcome === 'failed')
  const broken = countOf('broken off')
  const under = values.load ? `, under a busy loop on each of ${busy.length} cores` : ''
  const apart = broken === 0 ? '' : `, ${broken} broken off`
  console.log(`\n${countOf('passed')} of ${runs.length} runs passed, ${failed.length} failed${apart}${under}`)
  const counts = new Map()
  for (const { names } of failed) for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1)
  for (const [name, count] of [...counts].toSorted((a, b) => b[1] - a[1])) console.log(`${count} × ${name}`)
  process.exit(countOf('passed') === runs.length ? 0 : 1)
}
