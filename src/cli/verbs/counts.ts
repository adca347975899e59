/** `liftmap counts CASE…`: the counts of closed case files, as the small file that shops pool. */
import { bad, decimals, type Fault, good, type Result, say } from '../../base/index.ts'
import { type Case, closedCardOf, failingLanes } from '../../case/index.ts'
import {
  type BoardCounts,
  type ClosedCard,
  countCards,
  type CountsFile,
  countsFileOf,
  countsFileSchema,
  learntFigures,
} from '../../rehearsal/index.ts'
import { EXIT, printAnswer, whenGood } from '../answer.ts'
import { openCaseFile } from '../files.ts'
import type { Io } from '../io.ts'

export interface CountsOptions {
  readonly boards?: boolean | undefined
  readonly text?: boolean | undefined
}

/**
 * Prints the counts of all files together, or the faults of those that can not be read. Boards are named only with
 * `boards`. Returns the exit code.
 */
export async function runCounts(io: Io, files: readonly string[], options: CountsOptions): Promise<number> {
  return await whenGood(io, await closedCards(io, files), (cards) => {
    const counts = countCards(cards)
    const answer = countsFileOf(counts, options.boards === true ? 'with boards' : 'without boards')
    printAnswer(io, countsFileSchema, answer, options.text === true ? (file) => sayCounts(file, counts) : undefined)
    return EXIT.fine
  })
}

/** Cases that don't count are named on standard error, each with its reason; faults of any case end it. */
async function closedCards(io: Io, files: readonly string[]): Promise<Result<ClosedCard[]>> {
  const cards: ClosedCard[] = []
  const faults: Fault[] = []
  for (const file of files) {
    const opened = await openCaseFile(io, file)
    if (!opened.ok) {
      faults.push(...opened.faults)
      continue
    }
    const { caseFile, model, tally } = opened.value
    const card = closedCardOf(caseFile, model, failingLanes(tally))
    if (card === undefined) io.err(say('{file} is not counted: {caseFile}.\n', { file, caseFile: whyNot(caseFile) }))
    else cards.push(card)
  }
  return faults.length > 0 ? bad(...faults) : good(cards)
}

function whyNot({ demo, goodCard, handBack }: Case): string {
  if (demo) return say('it is an invented case')
  if (goodCard) return say('it is a good card that was only measured')
  return handBack.outcome === undefined ? say('it has no outcome yet') : say('what was wrong with it is not confirmed')
}

function sayCounts({ all }: CountsFile, counts: BoardCounts): string {
  const figures = learntFigures(counts.all).map(({ figure, learnt, seen }) => {
    const was = say('{hits} of {tries}', { hits: seen.hits, tries: seen.tries })
    const noted = say('{hits} min in {tries} {tries, plural, one {lift} other {lifts}}', {
      hits: seen.hits,
      tries: seen.tries,
    })
    return say('  {value} {value2}   {shipped} becomes {learnt}', {
      value: figure.id.padEnd(44),
      value2: (figure.section === 'cost' ? noted : was).padStart(20),
      shipped: shown(figure.shipped),
      learnt: shown(learnt),
    })
  })
  return [
    say('{cards} closed {cards, plural, one {card} other {cards}} with the cause confirmed.', { cards: all.cards }),
    ...figures,
  ].join('\n')
}

const shown = (value: number): string => (value >= 1 ? decimals(value, 1) : value.toPrecision(3))
