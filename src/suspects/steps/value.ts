/**
 * What a card is expected to cost from here on, if lifts are made one after the other with a run after each: which parts
 * to lift first, whether to put right first what is no part, and whether to do anything at all.
 *
 * With S lifted the run still fails with 1 - P(nothing but S needs lifting, and no rail or track that was looked for in vain
 * is at fault), exactly, whatever needs lifting together. So an order of lifts costs Σ P(the run before it failed) · (its price + a run), and handing back after S the comeback
 * and the later lifts of what was missed. The best order over the likeliest parts is found by going back from all of them
 * (dynamic programming over sets); the rest follow one by one, by chance over cost. What a failing run tells beyond that
 * it fails is not looked ahead to: the next proposal counts it.
 */
import type { LiftQuestion } from '../lift/lift-list.ts'

export interface StepCosts {
  /** A run of the memory test after a lift, in the shop's currency. */
  readonly run: number
  /** Finding and putting right what is no part, or finding nothing there, without the run after it; undefined once done. */
  readonly putRight: number | undefined
  /** Index that stands for what no lift puts right (see `NoneNeeds`). */
  readonly other: number
}

export interface StepValue {
  /** Expected cost from here on. */
  readonly cost: number
  readonly first: 'lift' | 'put-right' | 'hand-back'
  /** Parts to lift first, ascending; of `lift` only. */
  readonly lift: readonly number[]
}

/** Parts that are less likely to need lifting are not lifted on a guess. */
const LEAST = 0.02
/** So many of the likeliest are tried in every order and together. */
const MOST_TOGETHER = 6
/** So many more follow one by one. */
const MOST_AFTER = 4
/** With less chance that no part needs lifting nothing else is put right before the first lift. */
const LEAST_OTHER = 0.05

export function stepValue(question: LiftQuestion, costs: StepCosts): StepValue {
  const { probability, liftCost } = question
  const all = [...probability.keys()].filter((part) => (probability[part] ?? 0) > 1e-6)
  const doubtful = all
    .filter((part) => (probability[part] ?? 0) >= LEAST)
    .toSorted((a, b) => (probability[b] ?? 0) - (probability[a] ?? 0))
  const tried = doubtful.slice(0, MOST_TOGETHER)
  const full = (1 << tried.length) - 1
  const sets = Array.from({ length: full + 1 }, (_, set) => whenLifted(question, costs, all, membersOf(tried, set)))
  const price = Float64Array.from(sets, (_, set) =>
    membersOf(tried, set).reduce((sum, part) => sum + (liftCost[part] ?? 0), costs.run),
  )
  const onwards = new Float64Array(full + 1)
  onwards[full] = oneByOne(question, costs, all, tried, doubtful.slice(MOST_TOGETHER))
  for (let set = full - 1; set >= 0; set--) {
    const { fails, handBack } = sets[set] ?? NOTHING
    let best = handBack
    const open = full & ~set
    for (let lift = open; lift > 0; lift = (lift - 1) & open) {
      best = Math.min(best, fails * (price[lift] ?? 0) + (onwards[set | lift] ?? 0))
    }
    onwards[set] = best
  }
  const { fails, handBack } = sets[0] ?? NOTHING
  // The card fails as it stands, whether or not a part needs lifting.
  let best: StepValue = { cost: handBack, first: 'hand-back', lift: [] }
  if (costs.putRight !== undefined && 1 - fails >= LEAST_OTHER && doubtful.length > 0) {
    const cost = costs.putRight + costs.run + (onwards[0] ?? 0)
    if (cost < best.cost) best = { cost, first: 'put-right', lift: [] }
  }
  for (let lift = 1; lift <= full; lift++) {
    const cost = (price[lift] ?? 0) + (onwards[lift] ?? 0)
    if (cost < best.cost) best = { cost, first: 'lift', lift: membersOf(tried, lift).toSorted((a, b) => a - b) }
  }
  return best
}

const membersOf = (tried: readonly number[], set: number): number[] => tried.filter((_, bit) => (set >> bit) & 1)

/** With these lifted: probability that the run fails, and what handing back costs, not given that it does. */
interface WhenLifted {
  readonly fails: number
  readonly handBack: number
}

const NOTHING: WhenLifted = { fails: 0, handBack: 0 }

function whenLifted(
  { probability, liftCost, comebackCost, noneNeeds }: LiftQuestion,
  { putRight, other }: StepCosts,
  all: readonly number[],
  lifted: readonly number[],
): WhenLifted {
  const rest = all.filter((part) => !lifted.includes(part))
  const needs = rest.length === 0 ? 0 : Math.max(0, 1 - noneNeeds(rest))
  const later = rest.reduce((sum, part) => sum + (probability[part] ?? 0) * (liftCost[part] ?? 0), 0)
  // What is no part is mended on the way to the first run; what was not found then goes on failing.
  const fails = putRight === undefined ? Math.max(needs, 1 - noneNeeds([...rest, other])) : needs
  return { fails, handBack: comebackCost * needs + later }
}

/** After all that were tried together: the others in a fixed order, each with a run, up to where handing back is cheaper. */
function oneByOne(
  question: LiftQuestion,
  costs: StepCosts,
  all: readonly number[],
  tried: readonly number[],
  others: readonly number[],
): number {
  const { probability, liftCost } = question
  const gain = (part: number): number => (probability[part] ?? 0) / Math.max(1, liftCost[part] ?? 1)
  const order = others.toSorted((a, b) => gain(b) - gain(a)).slice(0, MOST_AFTER)
  const states = Array.from({ length: order.length + 1 }, (_, count) =>
    whenLifted(question, costs, all, [...tried, ...order.slice(0, count)]),
  )
  let cost = states[order.length]?.handBack ?? 0
  for (let at = order.length - 1; at >= 0; at--) {
    const { fails, handBack } = states[at] ?? NOTHING
    cost = Math.min(handBack, fails * ((liftCost[order[at] ?? 0] ?? 0) + costs.run) + cost)
  }
  return cost
}
