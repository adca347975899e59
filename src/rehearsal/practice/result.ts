/** The end of a game: the truth, what it came to cost beside others on the same card, what each piece of evidence was worth. */
import { joined, percent, say, someOf } from '../../base/index.ts'
import { causeNoun, defaultPriceBook, type SuspectsResult } from '../../suspects/index.ts'
import { isTrueStory, liftsTheSame, trueStories } from '../scorecard/matching.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import { type Bench, type Done, mendedRails } from './bench.ts'
import { besideProof, type Split, splitOf } from './reckoning.ts'
import { type Contest, type InSteps, liftmapInSteps, plainRivals, type Rival, type Step } from './rivals.ts'
import { stepEvidenceWords, stepWords } from './step-words.ts'
import { type TruthWords, truthWords } from './truth-words.ts'
import { createValuer, type Valuer, type Worth } from './worth.ts'

export interface PracticeEvidence extends Worth {
  readonly by: 'you' | 'liftmap'
  readonly words: string
  readonly minutes: number
  readonly money: number
}

export interface PracticeResult {
  readonly truth: TruthWords
  readonly you: {
    readonly split: Split
    /** Without the last run. */
    readonly cost: number
    readonly minutes: number
    readonly lifted: readonly string[]
    readonly needless: readonly string[]
    readonly missed: readonly string[]
    readonly givenUp: boolean
    /** How often Liftmap was asked. */
    readonly asked: number
  }
  readonly rivals: readonly Rival[]
  /** What was needed, for the columns of everybody. */
  readonly needs: readonly string[]
  /** In the order in which it came: first the user's, then what Liftmap bought in steps and the user did not. */
  readonly evidence: readonly PracticeEvidence[]
  /** What Liftmap did in steps, in order. */
  readonly liftmapDid: readonly string[]
  /** What Liftmap had said first, and what nothing on the card tells apart. */
  readonly firstStory: { readonly words: string; readonly right: 'cause' | 'parts' | 'no' }
  readonly alike: string | undefined
}

export type OnProgress = (share: number, words: string) => void

/**
 * Reckons the end of a game; takes seconds, as Liftmap works on the same card for comparison. `onProgress` gets the
 * share done from 0 to 1, with words.
 */
export function resultOf(contest: Contest, bench: Bench, onProgress: OnProgress): PracticeResult {
  const { card, asker, known } = contest
  const { truth, model } = card
  onProgress(0.05, say('Liftmap judges the card as it came'))
  const first = asker.ask(known)
  const inSteps = liftmapInSteps(contest, (count) =>
    onProgress(Math.min(0.55, 0.1 + 0.05 * count), say('Liftmap works on the same card: step {count}', { count })),
  )
  return {
    truth: truthWords(model, truth),
    you: yours(contest, bench),
    rivals: [inSteps.rival, ...plainRivals(contest, first.lift)],
    needs: truth.needs,
    evidence: evidenceOf(contest, bench, inSteps, onProgress),
    liftmapDid: inSteps.steps.map(({ action }) => stepWords(action)),
    firstStory: firstStory(card, first),
    alike: alikeWords(card, first),
  }
}

function yours({ card, till }: Contest, bench: Bench): PracticeResult['you'] {
  const paidFor = (...kinds: readonly Done['action']['kind'][]): number =>
    bench.done.reduce((sum, { action, paid }) => sum + (kinds.includes(action.kind) ? paid.money : 0), 0)
  const split = splitOf(
    card,
    {
      checks: paidFor('check'),
      runs: paidFor('run'),
      puttingRight: paidFor('put-right'),
      lifted: bench.lifted,
      mendedRails: mendedRails(bench),
      givenUp: bench.handedBack === 'not-worth-it',
    },
    till.prices,
  )
  const { needs } = card.truth
  return {
    split,
    cost: besideProof(split, till.prices),
    minutes: bench.done.reduce((sum, { paid }) => sum + paid.minutes, 0),
    lifted: bench.lifted,
    needless: bench.lifted.filter((ref) => !needs.includes(ref)),
    missed: needs.filter((ref) => !bench.lifted.includes(ref)),
    givenUp: bench.handedBack === 'not-worth-it',
    asked: bench.done.filter(({ action }) => action.kind === 'ask').length,
  }
}

function evidenceOf(contest: Contest, bench: Bench, inSteps: InSteps, onProgress: OnProgress): PracticeEvidence[] {
  const valuer = createValuer(contest.asker)
  const mine = bench.done.filter(tellsSomething)
  const bought = new Set(mine.map(({ action }) => (action.kind === 'check' ? `${action.check} ${action.at}` : '')))
  const others = inSteps.steps.filter(
    ({ action }) => action.kind !== 'check' || !bought.has(`${action.check} ${action.at}`),
  )
  const count = mine.length + others.length
  let at = 0
  const step = (): void =>
    onProgress(0.55 + (0.45 * at++) / Math.max(1, count), say('Each piece of evidence is weighed'))
  return [
    ...mine.map((done) => {
      step()
      return ownEvidence(valuer, done)
    }),
    ...others.map((other) => {
      step()
      return liftmapEvidence(contest, valuer, other)
    }),
  ]
}

const tellsSomething = ({ action, before, after }: Done): boolean =>
  before !== after && (action.kind !== 'lift' || after.areas.length > before.areas.length)

/** A look under a part that is off costs nothing beside the lift. */
function ownEvidence(valuer: Valuer, done: Done): PracticeEvidence {
  const { action, paid, before, after } = done
  const { minutes, money } = action.kind === 'lift' ? { minutes: 0, money: 0 } : paid
  return { by: 'you', words: doneWords(done), minutes, money, ...valuer.worthOf(before, after) }
}

/** What lay under the parts and the run after them came together, and count as one. */
function liftmapEvidence({ card, till }: Contest, valuer: Valuer, step: Step): PracticeEvidence {
  const { action, before, after } = step
  const words = stepEvidenceWords(card.model, step)
  if (action.kind === 'check') {
    const lines = Math.max(1, after.measurements.length - before.measurements.length)
    return { by: 'liftmap', words, ...till.of(action, lines), ...valuer.worthOf(before, after) }
  }
  const { minute } = till.prices
  const paid = { minutes: defaultPriceBook.minutes.run, money: defaultPriceBook.minutes.run * minute }
  const round = after.rounds.at(-1)
  const unseen =
    round?.putRight === undefined ? before : { ...before, rounds: [...before.rounds, { ...round, lanes: new Map() }] }
  return { by: 'liftmap', words, ...paid, ...valuer.worthOf(unseen, after) }
}

function doneWords({ action, outcome }: Done): string {
  if (action.kind === 'lift') return say('What lay under {ref}', { ref: action.ref })
  return action.kind === 'run' ? say('A run: {outcome}', { outcome: outcome.join(' ') }) : outcome.join(' ')
}

function firstStory({ model, truth }: SimulatedCard, { stories }: SuspectsResult): PracticeResult['firstStory'] {
  const [story] = stories
  if (story === undefined) return { words: say('none'), right: 'no' }
  const isRight = isTrueStory(model, story, trueStories(model, truth))
  const right = isRight ? 'cause' : liftsTheSame(story, truth.needs) ? 'parts' : 'no'
  return { words: story.sentence, right }
}

/** Stories that have the very same parts off can't be told apart by the list, whichever of them is true. */
function alikeWords({ truth }: SimulatedCard, { stories }: SuspectsResult): string | undefined {
  const alike = stories.filter((story) => truth.needs.length > 0 && liftsTheSame(story, truth.needs))
  if (alike.length < 2) return undefined
  const names = alike.slice(0, 4).map(({ causes }) => joined(causes.map(causeNoun)))
  const share = alike.reduce((sum, { probability }) => sum + probability, 0)
  return say(
    '{count} stories have the same parts come off ({names}; together {share}). Which of them is true makes no difference to the list, and counts as right.',
    { count: alike.length, names: someOf(names, 4), share: percent(share) },
  )
}
