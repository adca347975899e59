/** What to do first: the check or the lift after which the card is expected to cost least, or handing it back. */
import { joined, percent, minutesWords, roughMoney, say } from '../../base/index.ts'
import type { RankedCheck, RankedChecks } from '../checks/rank-checks.ts'
import type { Findings } from '../result.ts'
import { lastLanes } from './last-lanes.ts'
import type { StepValue } from './value.ts'
import { placeSaid } from '../causes/places.ts'

export type StepAction =
  | { readonly kind: 'check'; readonly check: string; readonly at: string }
  | { readonly kind: 'lift'; readonly refs: readonly string[] }
  /** What is no part: rails, tracks, what a tool hit; with a run after it. */
  | { readonly kind: 'put-right'; readonly names: readonly string[] }
  /** The memory test once more, on the card as it is. */
  | { readonly kind: 'run-again' }
  | { readonly kind: 'hand-back' }

export interface Proposal {
  readonly action: StepAction
  /** Expected cost from here on, in the shop's currency, when it is done first; undefined where nothing was reckoned. */
  readonly expectedCost: number | undefined
  readonly because: string
}

export interface ProposeInput {
  readonly now: StepValue
  readonly ranked: RankedChecks
  /** Refs by index of a part. */
  readonly parts: readonly string[]
  /** Of one minute at the bench. */
  readonly minuteCost: number
}

/** What is plain without any reckoning: a card that passes after the work goes back, one that never failed is run again. */
export function plainProposal(findings: Findings): Proposal | undefined {
  if (allPassNow(findings)) {
    return {
      action: { kind: 'hand-back' },
      expectedCost: 0,
      because: say('Before it goes back: finish the inspection, read every rail, run it warm and from cold.'),
    }
  }
  if (!nothingFails(findings) || (findings.rounds ?? []).length > 0) return undefined
  const because = say('No lane fails in this run: let the test run once more, longer, before the card goes back.')
  return { action: { kind: 'run-again' }, expectedCost: undefined, because }
}

/**
 * The check that saves most after its minutes, else the first step of the value reckoned now. `minuteCost` is money a
 * minute; the expected cost is that of the card from here on.
 */
export function proposeStep({ now, ranked, parts, minuteCost }: ProposeInput): Proposal {
  const best = bestCheck(ranked.checks, minuteCost)
  if (best !== undefined) {
    const { check, at, minutes, saves = 0 } = best
    const gain = saves - minutes * minuteCost
    return {
      action: { kind: 'check', check, at },
      expectedCost: now.cost - gain,
      because: say('It takes {minutes} and is expected to save about {saves}.', {
        minutes: minutesWords(minutes),
        saves: roughMoney(saves),
      }),
    }
  }
  if (now.first === 'put-right' && ranked.others.length > 0) {
    const places = ranked.others.map(({ at, probability }) => `${placeSaid(at.at)} (${percent(probability)})`)
    const because = say('Perhaps no part is bad: look at {places} first, put it right and run the test again.', {
      places: joined(places),
    })
    return {
      action: { kind: 'put-right', names: ranked.others.map(({ name }) => name) },
      expectedCost: now.cost,
      because,
    }
  }
  if (now.lift.length === 0) {
    return { action: { kind: 'hand-back' }, expectedCost: now.cost, because: say('No lift pays by what is known.') }
  }
  const refs = now.lift.map((part) => parts[part] ?? '')
  const because = say('No check saves more than it costs; a run after it tells whether that was all.')
  return { action: { kind: 'lift', refs }, expectedCost: now.cost, because }
}

/** A saving counts from so many times what the check costs: it is reckoned with a rule of thumb for what follows. */
const WORTH = 1.5

/** The check that is expected to save most per minute, where one pays. */
export function bestCheck(checks: readonly RankedCheck[], minuteCost: number): RankedCheck | undefined {
  const gain = ({ saves = 0, minutes }: RankedCheck): number => saves - minutes * minuteCost
  const paying = checks.filter(({ saves = 0, minutes }) => saves > WORTH * minutes * minuteCost)
  return paying.toSorted((a, b) => gain(b) / b.minutes - gain(a) / a.minutes)[0]
}

const nothingFails = ({ lanes }: Findings): boolean => ![...lanes.values()].includes('fail')

/** True once something was worked on and the last run of every lane that was run again passed. */
const allPassNow = (findings: Findings): boolean =>
  (findings.rounds ?? []).length > 0 && ![...lastLanes(findings).values()].includes('fail')
