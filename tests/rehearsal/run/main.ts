/** `npm run scorecard`: makes up cards, has them judged by several processes, and says how right it was. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { type CardScore, scorecardOf, scorecardPage } from '../../../src/rehearsal/index.ts'
import { CACHE, keptScores } from './kept.ts'
import { readOptions, USAGE } from './options.ts'
import { scoreInWorkers } from './pool.ts'
import { sayScorecard } from './say.ts'
import { mixtureOf, taskOf } from './task.ts'

type Line = (CardScore | { readonly failed: string; readonly seed: number }) & { readonly number: number }

const options = readOptions(process.argv.slice(2))
if (typeof options === 'string') {
  console.error(options === USAGE ? USAGE : `${options}\n${USAGE}`)
  process.exit(options === USAGE ? 0 : 2)
}

const task = taskOf(options)
const kept = keptScores(task)
const numbers = Array.from({ length: options.cards }, (_, number) => number)
const byNumber = new Map(
  numbers.flatMap((number) => {
    const line = kept.lines.get(number)
    return line === undefined ? [] : [[number, line] as const]
  }),
)
const missing = numbers.filter((number) => !byNumber.has(number))
if (byNumber.size > 0) console.error(`${byNumber.size} of ${options.cards} cards are kept from a run before.`)

const started = performance.now()
let done = 0
await scoreInWorkers(task, missing, options.workers, (line) => {
  const parsed: Line = JSON.parse(line)
  byNumber.set(parsed.number, line)
  if (!('failed' in parsed)) kept.add(line)
  done++
  if (done % 25 === 0 || done === missing.length) {
    const seconds = (performance.now() - started) / 1000
    const left = (seconds / done) * (missing.length - done)
    console.error(`${done} of ${missing.length} cards, ${seconds.toFixed(0)} s, about ${left.toFixed(0)} s left`)
  }
})

const lines = numbers.map((number): Line => JSON.parse(byNumber.get(number) ?? ''))
const failed = lines.flatMap((line) => ('failed' in line ? [line] : []))
const cards = lines.flatMap((line) => ('failed' in line ? [] : [line]))
for (const { seed, failed: why } of failed.slice(0, 5)) console.error(`card ${seed}: ${why}`)
const mixture = mixtureOf(task)
const scorecard = scorecardOf({ seed: options.seed, mixture: mixture.name, weights: mixture.weights }, cards)
if (options.dump !== undefined) writeFileSync(options.dump, cards.map((card) => `${JSON.stringify(card)}\n`).join(''))
const page = options.page ?? join(CACHE, 'index.html')
writeFileSync(page, scorecardPage(scorecard))
console.error(`Plots: ${page}`)
if (options.json) console.log(JSON.stringify({ ...scorecard, failed: failed.length }, null, 2))
else console.log(sayScorecard(scorecard, failed.length))
process.exit(failed.length === 0 ? 0 : 1)
