// `npm run mutants -- --rooms plan,spill --ranges 12 --seed 1`: changes the cores in small ways, a place at a time, and counts
// how many of the changes their room's own tests notice. Places are drawn from a seed, so many stretches of a few lines a
// room; `--file src/plan/worth.ts` takes whole files instead. Prints JSON: per room caught, survived, and what survived.
// Ends with 1 where fewer than --least percent were caught.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { ensureInstalled, root } from './install.mjs'

const ROOMS = ['base', 'board', 'trace', 'report', 'measure', 'spill', 'suspects', 'heat', 'plan', 'rehearsal', 'case']
const STRETCH_LINES = 4
const { values } = parseArgs({
  options: {
    rooms: { type: 'string', default: ROOMS.join(',') },
    ranges: { type: 'string', default: '12' },
    seed: { type: 'string', default: '1' },
    file: { type: 'string', multiple: true },
    least: { type: 'string', default: '85' },
    workers: { type: 'string', default: '2' },
  },
})

ensureInstalled()
const cache = join(root, 'node_modules/.cache/mutants')
mkdirSync(cache, { recursive: true })
const rooms =
  values.file === undefined ? values.rooms.split(',') : [...new Set(values.file.map((file) => file.split('/')[1]))]
const answers = rooms.map(answerOf)
const caught = sum(answers, ({ caught: n }) => n)
const all = sum(answers, ({ mutants }) => mutants)
console.log(
  JSON.stringify(
    { seed: Number(values.seed), mutants: all, caught, caughtPct: percent(caught, all), rooms: answers },
    null,
    1,
  ),
)
process.exit(all > 0 && (100 * caught) / all >= Number(values.least) ? 0 : 1)

function answerOf(room) {
  const places = values.file?.filter((file) => file.split('/')[1] === room) ?? stretchesOf(room)
  const report = join(cache, `${room}.json`)
  rmSync(report, { force: true })
  const options = ['--mutate', places.join(','), '--concurrency', values.workers, '.run/mutants/stryker.mjs']
  spawnSync('npx', ['stryker', 'run', ...options], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, LIFTMAP_ROOM: room },
  })
  if (!existsSync(report))
    return { room, mutants: 0, caught: 0, caughtPct: 0, survived: ['no answer: a test fails without any change'] }
  const { files, testFiles = {} } = JSON.parse(readFileSync(report, 'utf8'))
  const allTests = sum(Object.values(testFiles), ({ tests }) => tests.length)
  const mutants = Object.entries(files).flatMap(([file, told]) => told.mutants.map((mutant) => ({ file, ...mutant })))
  const counted = mutants.filter(({ status }) => ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(status))
  // where a change keeps a whole file of tests from being loaded, the others pass and it is told as survived: fewer ran than are due
  const isLoaded = (mutant) => mutant.testsCompleted >= (mutant.static ? allTests : mutant.coveredBy.length)
  const survived = counted.filter(
    (mutant) => mutant.status === 'NoCoverage' || (mutant.status === 'Survived' && isLoaded(mutant)),
  )
  const answer = {
    room,
    mutants: counted.length,
    caught: counted.length - survived.length,
    caughtPct: percent(counted.length - survived.length, counted.length),
    // among the caught; on a busy machine some of these are only slow
    timedOut: counted.filter(({ status }) => status === 'Timeout').length,
    survived: survived.map(
      ({ file, location, mutatorName, replacement, status }) =>
        `${file}:${location.start.line}:${location.start.column} ${mutatorName} ${status === 'NoCoverage' ? '(no test comes here) ' : ''}${JSON.stringify(replacement ?? '').slice(0, 120)}`,
    ),
  }
  console.error([`${room}: ${answer.caught} of ${answer.mutants} caught`, ...answer.survived].join('\n  '))
  return answer
}

/** Stretches of lines, drawn evenly over the lines of a room. */
function stretchesOf(room) {
  const lines = readdirSync(join(root, 'src', room), { recursive: true })
    .filter((file) => file.endsWith('.ts') && !file.endsWith('index.ts'))
    .map((file) => `src/${room}/${file}`)
    .toSorted()
    .flatMap((file) =>
      readFileSync(join(root, file), 'utf8')
        .split('\n')
        .map((_, i) => ({ file, line: i + 1 })),
    )
  const random = randomFrom(Number(values.seed))
  return Array.from({ length: Number(values.ranges) }, () => {
    const { file, line } = lines[Math.floor(random() * lines.length)]
    return `${file}:${line}-${line + STRETCH_LINES - 1}`
  })
}

/** Numbers from 0 to below 1 (Park and Miller, Random number generators: good ones are hard to find, 1988). */
function randomFrom(seed) {
  let state = (seed % 2147483646) + 1
  return () => (state = (state * 48271) % 2147483647) / 2147483647
}

function sum(all, of) {
  return all.reduce((total, one) => total + of(one), 0)
}

function percent(part, whole) {
  return whole === 0 ? 0 : Math.round((1000 * part) / whole) / 10
}
