/**
 * Next checks, ranked by what they are expected to save per minute; which of them are worth that reckoning is told by what
 * they are expected to tell about the lift decision.
 *
 * The decision variable is the set of parts that need lifting, jointly, of those parts that are most in doubt: what a
 * list of parts to lift is right or wrong about. Its states, not the list's, because the list itself is known at any
 * time; jointly, because one comeback serves all that was missed, so that parts don't stand alone. A part that is known
 * to be fine or bad adds next to nothing, and a function of the whole set can't be told more about than the whole set
 * (data processing), so that leaving parts out never promises too much.
 *
 * I(needs; outcome) = Σ P(n, o) log2(P(n, o) / (P(n) P(o))), summed over all causes and places as the judge sums them:
 * P(no part of A needs lifting, nothing found) is the judge's own sum with every cause weighed by Π (1 - q), and the
 * sets follow from it by inclusion and exclusion over A.
 */
import { say } from '../../base/index.ts'
import { checkWords } from './check-catalogue.ts'
import type { CheckInstance, LookPlace } from './check-instances.ts'
import { type StepValue, stepValue } from '../steps/value.ts'
import { questionFor, type Told, type TellingGround, tellOutcomes, withSomeCause } from './check-telling.ts'
import { informationOf } from './information.ts'
import { type Other, othersOf } from './others.ts'
import type { Findings } from '../result.ts'
import type { Card, ReportedSpill } from '../sum/card.ts'
import type { NoneNeeds } from '../sum/need.ts'
import type { Posterior } from '../sum/posterior.ts'
import { type Outcomes, outcomeModel } from './outcomes.ts'

export interface RankedCheck extends Partial<Told> {
  readonly check: string
  readonly at: string
  readonly question: string
  readonly minutes: number
  /** Expected information about the lift decision. */
  readonly bits: number
  readonly bitsPerMinute: number
  /** Probability that it finds something. */
  readonly finds: number
  readonly entry: CheckInstance['check']['entry']
  readonly caution: string | undefined
  /** The card is under power while it is done. */
  readonly powered: boolean
  readonly refs: readonly string[]
  readonly lanes: readonly string[]
  readonly look: LookPlace | undefined
}

export interface RankedChecks {
  /** Most expected saving per minute first, then by information per minute; those that tell nothing are not among them. */
  readonly checks: readonly RankedCheck[]
  /** What the card is expected to cost without any check, and what to lift first then. */
  readonly now: StepValue
  /** What may be wrong beside the parts, likeliest first: rails, tracks, what a tool hit. */
  readonly others: readonly Other[]
  /** Entropy of the decision as the card is known now. */
  readonly decisionBits: number
  /** The parts that the decision is about, most in doubt first. */
  readonly about: readonly string[]
  readonly leftOut: readonly string[]
  /** Of checks that wait for something else, in a sentence. */
  readonly waiting?: string
}

export interface RankingInput {
  readonly card: Card
  readonly posterior: Posterior
  readonly spills: readonly ReportedSpill[]
  readonly instances: readonly CheckInstance[]
  readonly places: readonly LookPlace[]
  readonly ground: TellingGround
  readonly findings: Findings
  /** At most so many parts make up the decision. */
  readonly mostParts: number
  /** For so many of the best it is told what each outcome would change. */
  readonly told: number
}

/** Below this a check tells nothing that could be told from rounding. */
const LEAST_BITS = 1e-9

/**
 * All checks that tell at least a trace, the most saved first. Only the first `told` by bits a minute are reckoned
 * through to what they save, in the shop's currency; bits are of the joint need of the parts in `about`.
 */
export function rankChecks(input: RankingInput): RankedChecks {
  const { card, posterior, spills, places, instances } = input
  const model = outcomeModel(card, posterior, spills, places)
  const refs = card.parts
  const { about, doubtful } = mostInDoubt(model.now, refs.length, input.mostParts)
  const now = byNeeds(model.now, about)
  const bitsAbout = (asked: readonly number[], needs: Float64Array, { found, notFound }: Outcomes): number =>
    informationOf(jointOf(needs, byNeeds(found, asked), byNeeds(notFound, asked)), 3).information
  const ranked = instances.flatMap((instance) => {
    const outcomes = model.of(instance)
    if (outcomes === undefined) return []
    // What is checked may be one of many parts in a little doubt each: then it is asked about by itself.
    const own = instance.refs.map((ref) => refs.indexOf(ref)).filter((part) => part >= 0 && !about.includes(part))
    const [alone] = own.length === 1 ? own : []
    const bits = Math.max(
      bitsAbout(about, now, outcomes),
      alone === undefined ? 0 : bitsAbout([alone], byNeeds(model.now, [alone]), outcomes),
    )
    return bits < LEAST_BITS ? [] : [{ instance, outcomes, bits, perMinute: bits / minutesOf(instance) }]
  })
  const today = withSomeCause(model.now, refs.length)
  const byBits = manyKindsFirst(ranked.toSorted((a, b) => b.perMinute - a.perMinute))
  const unheard = doubtful - about.length
  return {
    checks: mostSavedFirst(
      byBits.map(({ instance, outcomes, bits }, at) => ({
        ...spoken(instance, bits, outcomes.found([])),
        ...(at < input.told ? tellOutcomes(input.ground, model.now, outcomes) : {}),
      })),
    ),
    now: stepValue(questionFor(input.ground, today), input.ground.steps),
    others: othersOf(card, posterior, input.findings),
    decisionBits: informationOf(now, 1).entropyBefore,
    about: about.map((part) => refs[part] ?? ''),
    leftOut:
      unheard > 0 ? [say('{unheard} more parts in some doubt, in what a check is expected to tell', { unheard })] : [],
  }
}

/** Of one check at many places so many come first, then the others: a dozen lanes alike would leave no room for another. */
const OF_ONE_CHECK = 3

function manyKindsFirst<T extends { readonly instance: CheckInstance }>(ranked: readonly T[]): T[] {
  const seen = new Map<string, number>()
  const isEarly = ranked.map(({ instance: { check } }) => {
    const count = (seen.get(check.id) ?? 0) + 1
    seen.set(check.id, count)
    return count <= OF_ONE_CHECK
  })
  return [...ranked.filter((_, at) => isEarly[at]), ...ranked.filter((_, at) => !isEarly[at])]
}

function mostSavedFirst(checks: RankedCheck[]): RankedCheck[] {
  const perMinute = ({ saves = 0, minutes }: RankedCheck): number => saves / minutes
  return checks.toSorted((a, b) => perMinute(b) - perMinute(a) || b.bitsPerMinute - a.bitsPerMinute)
}

const minutesOf = ({ check }: CheckInstance): number => check.minutes.setup + check.minutes.each

function spoken(instance: CheckInstance, bits: number, finds: number): RankedCheck {
  const { check, at, refs, lanes, look } = instance
  const minutes = minutesOf(instance)
  return {
    check: check.id,
    at,
    question: checkWords(check.question, at),
    minutes,
    bits,
    bitsPerMinute: bits / minutes,
    finds,
    entry: check.entry,
    caution: check.caution,
    powered: check.powered,
    refs,
    lanes,
    look,
  }
}

/** Parts by the entropy of whether they need lifting, most first; `doubtful` counts those above a hundredth of a bit. */
function mostInDoubt(now: NoneNeeds, count: number, most: number): { about: number[]; doubtful: number } {
  const doubt = Float64Array.from({ length: count }, (_, part) => {
    const none = Math.min(1, Math.max(0, now([part])))
    return informationOf(Float64Array.of(none, 1 - none), 1).entropyBefore
  })
  const all = [...doubt.keys()].filter((part) => (doubt[part] ?? 0) > 0)
  const about = all.toSorted((a, b) => (doubt[b] ?? 0) - (doubt[a] ?? 0)).slice(0, most)
  return { about, doubtful: Math.max(about.length, all.filter((part) => (doubt[part] ?? 0) > 0.01).length) }
}

/**
 * P(exactly this set of the parts needs lifting), by bit mask over `about`, from P(none of A needs lifting): the part
 * bit by bit as the difference between "none of A" and "none of A and it".
 */
function byNeeds(noneNeeds: NoneNeeds, about: readonly number[]): Float64Array {
  const size = 1 << about.length
  const values = new Float64Array(size)
  for (let set = 0; set < size; set++) {
    const spared = about.filter((_, bit) => !((set >> bit) & 1)).toSorted((a, b) => a - b)
    values[set] = noneNeeds(spared)
  }
  for (let bit = 1; bit < size; bit <<= 1) {
    for (let set = 0; set < size; set++) if (set & bit) values[set] = (values[set] ?? 0) - (values[set ^ bit] ?? 0)
  }
  return values.map((value) => Math.max(0, value))
}

/** Row by set of parts; columns: something found, nothing found, nobody could tell. */
function jointOf(now: Float64Array, found: Float64Array, notFound: Float64Array): Float64Array {
  const joint = new Float64Array(now.length * 3)
  for (let set = 0; set < now.length; set++) {
    const yes = found[set] ?? 0
    const no = notFound[set] ?? 0
    joint[set * 3] = yes
    joint[set * 3 + 1] = no
    const open = (now[set] ?? 0) - yes - no
    joint[set * 3 + 2] = open > ROUNDING ? open : 0
  }
  return joint
}

const ROUNDING = 1e-13
