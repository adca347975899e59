/** One practice card: what is seen of it after some actions, what Liftmap would do, and the end. */
import { bad, good, type Result, say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Measurement } from '../../measure/index.ts'
import type { PartTally } from '../../report/index.ts'
import type { Mark } from '../../spill/index.ts'
import type { LaneState } from '../../suspects/index.ts'
import { type Action, type Asker, createAsker, evidenceOfTally, type Known } from '../scorecard/ask.ts'
import { knownOf } from '../scorecard/score-card.ts'
import { lasting } from '../simulator/draw.ts'
import { tallyOfCard } from '../simulator/read-card.ts'
import { simulateCard } from '../simulator/simulate.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import { accountWords, type SeenReport, seenReport } from './account-words.ts'
import { act, type Bench, freshBench } from './bench.ts'
import { difficultyCalled, mixtureOfDifficulty } from './difficulties.ts'
import type { HandBackWay, PracticeAction, PracticeGame } from './game.ts'
import { groundOfCard, type Offer, offersAt } from './offers.ts'
import { readingWords } from './outcome-words.ts'
import { type Paid, tillOf } from './paying.ts'
import { refusalOf } from './refusals.ts'
import { stepWords } from './step-words.ts'
import { type OnProgress, type PracticeResult, resultOf } from './result.ts'

export interface LogEntry extends Paid {
  readonly action: PracticeAction
  readonly outcome: readonly string[]
}

/** All that the user may see before the end; nothing in it knows the truth. */
export interface PracticeView {
  readonly game: PracticeGame
  readonly account: readonly string[]
  readonly report: SeenReport
  readonly tallyParts: readonly PartTally[]
  /** Lanes of the first run and of the last one. */
  readonly firstRun: ReadonlyMap<string, LaneState>
  readonly lastRun: ReadonlyMap<string, LaneState> | undefined
  /** What was told and seen, as it stands on the map. */
  readonly marks: readonly Mark[]
  /** All cold readings so far. */
  readonly measurements: readonly Measurement[]
  /** Those that were there when the card came, in words. */
  readonly measuredBefore: readonly string[]
  readonly lifted: readonly string[]
  /** Something was worked on since the last run. */
  readonly untested: boolean
  readonly log: readonly LogEntry[]
  readonly minutes: number
  readonly money: number
  readonly offers: readonly Offer[]
  readonly handedBack: HandBackWay | undefined
  /** Actions that could not be done and were passed over. */
  readonly passedOver: number
}

export interface Proposed {
  readonly action: Action
  readonly words: string
}

export interface Practice {
  readonly view: (actions: readonly PracticeAction[]) => PracticeView
  /** What Liftmap would do now. Heavy. */
  readonly propose: (actions: readonly PracticeAction[]) => Proposed
  /** Refuses a card that was not handed back. Heavy. */
  readonly result: (actions: readonly PracticeAction[], onProgress?: OnProgress) => Result<PracticeResult>
}

/** @param asker one for the board, where several cards are played on it */
export async function openPractice(
  model: BoardModel,
  game: PracticeGame,
  asker: () => Asker = () => createAsker(model),
): Promise<Result<Practice>> {
  const difficulty = difficultyCalled(game.difficulty)
  if (difficulty === undefined) return bad(noSuchDifficulty(game.difficulty))
  return practiceOn(simulateCard(model, cardSeed(game), mixtureOfDifficulty(difficulty)), game, asker)
}

/** Practice on a card that is there already, in the name of a game. Refuses a card whose report can't be read. */
export async function practiceOn(
  card: SimulatedCard,
  game: PracticeGame,
  asker: () => Asker,
): Promise<Result<Practice>> {
  const { model } = card
  const tally = await tallyOfCard(card)
  if (!tally.ok) return tally
  const known = knownOf(card, evidenceOfTally(model, tally.value))
  const ground = groundOfCard(card, known)
  const till = tillOf(model)
  const benches = rememberWays(freshBench(known), (bench, action) =>
    refusalOf(ground, bench, action) === undefined ? act(card, bench, action, till) : bench,
  )
  return good({
    view: (actions) => {
      const bench = benches(actions)
      return {
        game,
        account: accountWords(model, card.observations),
        report: seenReport(card.observations.report, tally.value),
        tallyParts: tally.value.parts,
        firstRun: known.lanes,
        lastRun: lastRunOf(bench),
        marks: [...bench.known.spills, ...bench.known.slips, ...bench.known.areas],
        measurements: bench.known.measurements,
        measuredBefore: readingWords(model, known, known.measurements),
        lifted: bench.lifted,
        untested: bench.untested,
        log: bench.done.map(({ action, paid, outcome }) => ({ action, outcome, ...paid })),
        minutes: bench.done.reduce((sum, { paid }) => sum + paid.minutes, 0),
        money: bench.done.reduce((sum, { paid }) => sum + paid.money, 0),
        offers: bench.handedBack === undefined ? offersAt(ground, bench, till) : [],
        handedBack: bench.handedBack,
        passedOver: actions.length - bench.done.length,
      }
    },
    propose: (actions) => {
      const action = proposedAt(benches(actions), asker())
      return { action, words: stepWords(action) }
    },
    result: (actions, onProgress = () => undefined) => {
      const bench = benches(actions)
      if (bench.handedBack === undefined) return bad(notHandedBack)
      return good(resultOf({ card, asker: asker(), till, known }, bench, onProgress))
    },
  })
}

/** The same number at another difficulty is another card. */
const cardSeed = ({ seed, difficulty }: PracticeGame): number => Math.floor(lasting(seed, difficulty) * 2 ** 31)

/** After work comes a run, as for the technician in steps; a check that was just made is not proposed again. */
function proposedAt(bench: Bench, asker: Asker): Action {
  if (bench.untested) return { kind: 'run-again' }
  const proposed = asker.propose(bench.known)
  const isDone = (action: Action): boolean =>
    action.kind === 'check' &&
    bench.done.some(
      (done) => done.action.kind === 'check' && done.action.check === action.check && done.action.at === action.at,
    )
  return isDone(proposed) ? asker.proposeWithoutChecks(bench.known) : proposed
}

function lastRunOf({ known }: Bench): Known['lanes'] | undefined {
  return known.rounds.findLast(({ lanes }) => lanes.size > 0)?.lanes
}

/** The same beginning is not played twice: a game grows by one action at a time. */
function rememberWays(begun: Bench, step: (bench: Bench, action: PracticeAction) => Bench) {
  const kept = new Map<string, Bench>([['', begun]])
  return (actions: readonly PracticeAction[]): Bench => {
    let bench = begun
    let way = ''
    for (const action of actions) {
      way += `\n${JSON.stringify(action)}`
      const known = kept.get(way)
      bench = known ?? step(bench, action)
      if (known === undefined) kept.set(way, bench)
    }
    return bench
  }
}

const noSuchDifficulty = (id: string) => ({
  path: 'difficulty',
  found: id,
  expected: say('a difficulty that there is'),
  todo: say('Choose another one.'),
})

const notHandedBack = {
  path: 'actions',
  found: say('a card that was not handed back'),
  expected: say('a card that was handed back'),
  todo: say('Hand it back first.'),
}
