/** The very same card in other hands: Liftmap in steps, Liftmap's first list, plain rules, one who knows everything. */
import type { Action, Asker, Known } from '../scorecard/ask.ts'
import { plainLists } from '../scorecard/rules.ts'
import { defaultPriceBook } from '../../suspects/index.ts'
import { type StepsScore, workInSteps } from '../scorecard/technician.ts'
import type { SimulatedCard } from '../simulator/types.ts'
import type { Till } from './paying.ts'
import { besideProof, leftInPlace, type Split, splitOf, type Worked } from './reckoning.ts'

export interface Rival {
  readonly id: 'steps' | 'first-list' | 'named' | 'named-and-core' | 'ring' | 'all-knowing'
  readonly split: Split
  /** Without the last run. */
  readonly cost: number
  readonly lifted: readonly string[]
}

/** One thing that was done in steps, with what was known before and after. */
export interface Step {
  readonly action: Exclude<Action, { kind: 'hand-back' }>
  readonly before: Known
  readonly after: Known
}

export interface InSteps {
  readonly rival: Rival
  readonly score: StepsScore
  readonly steps: readonly Step[]
}

export interface Contest {
  readonly card: SimulatedCard
  readonly asker: Asker
  readonly till: Till
  /** As the card came. */
  readonly known: Known
}

/** @param onStep told how many steps were taken so far */
export function liftmapInSteps(contest: Contest, onStep: (count: number) => void): InSteps {
  const { card, asker, till, known } = contest
  const asked: { known: Known; action: Action }[] = []
  const watched =
    (propose: (known: Known) => Action) =>
    (now: Known): Action => {
      const action = propose(now)
      const last = asked.at(-1)
      // asked otherwise about the same: the second answer is what is done
      if (last?.known === now) asked.pop()
      asked.push({ known: now, action })
      onStep(asked.length)
      return action
    }
  const { propose, proposeWithoutChecks } = asker
  const score = workInSteps(card, known, watched(propose), till.prices, watched(proposeWithoutChecks))
  const steps = asked.flatMap(({ known: before, action }, at): Step[] => {
    const after = asked[at + 1]?.known
    return action.kind === 'hand-back' || after === undefined ? [] : [{ action, before, after }]
  })
  return { rival: rivalOf(contest, 'steps', workedInSteps(score, steps, till)), score, steps }
}

function workedInSteps({ lifted, minutesOfChecks, rounds }: StepsScore, steps: readonly Step[], till: Till): Worked {
  const names = steps.flatMap(({ action }) => (action.kind === 'put-right' ? action.names : []))
  const isWorkedOn = lifted.length > 0 || names.length > 0
  return {
    checks: minutesOfChecks * till.prices.minute,
    runs: rounds * defaultPriceBook.minutes.run * till.prices.minute,
    puttingRight: names.length * defaultPriceBook.minutes.repairAround * till.prices.minute,
    lifted,
    mendedRails: isWorkedOn ? names.filter((name) => name.startsWith('rail ')) : undefined,
    givenUp: false,
  }
}

function rivalOf({ card, till }: Contest, id: Rival['id'], worked: Worked): Rival {
  const split = splitOf(card, worked, till.prices)
  return { id, split, cost: besideProof(split, till.prices), lifted: worked.lifted }
}

/** One list at once, without a check; who lifts nothing mends nothing. */
export function plainRivals(contest: Contest, firstList: readonly string[]): Rival[] {
  const { card, known } = contest
  const { named, namedAndCore, ring } = plainLists(card.model, known.lanes)
  const atOnce = (id: Rival['id'], lifted: readonly string[]): Rival =>
    rivalOf(contest, id, { ...FREE, lifted, mendedRails: lifted.length > 0 ? [] : undefined })
  return [
    atOnce('first-list', firstList),
    atOnce('named', named),
    atOnce('named-and-core', namedAndCore),
    atOnce('ring', ring),
    allKnowing(contest),
  ]
}

const FREE = { checks: 0, runs: 0, puttingRight: 0, givenUp: false } as const

/** Lifts what must come off, and goes into what is not mended in passing. */
function allKnowing(contest: Contest): Rival {
  const { card, till } = contest
  const { needs } = card.truth
  const left = new Set(leftInPlace(card.truth, needs, needs.length > 0 ? [] : undefined).map(({ at }) => at))
  const puttingRight = left.size * defaultPriceBook.minutes.repairAround * till.prices.minute
  return rivalOf(contest, 'all-knowing', { ...FREE, puttingRight, lifted: needs, mendedRails: [...left].map(railOf) })
}

/** `rail VMEM` of the rail and of its branches. */
const railOf = (at: string): string => at.replace(/^branch .* of /, '')
