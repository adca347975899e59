/**
 * What a card is expected to cost from here on, if lifts are made one after the other with a run after each: which parts
 * to lift first, whether to put right first what is no part, and whether to do anything at all.
 *
 * With S lifted the run still fails with 1 - P(nothing but S needs lifting, and no rail or track that was not put right
 * yet is at fault), exactly, whatever needs lifting together. So an order of lifts costs Σ P(the run before it failed) ·
 * (its price + a run), and handing back after S the comeback and the later lifts of what was missed. The best order over
 * the likeliest parts is found by going back from all of them (dynamic programming over sets); the rest follow one by
 * one, by chance over cost. What a failing run tells beyond that it fails is not looked ahead to: the next proposal counts
 * it.
 */
import type { LiftQuestion } from '../lift/lift-list.ts'

export interface StepCosts {
  /** A run of the memory test after a lift, in the shop's currency. */
  readonly run: number
  /** Going into what is no part and putting it right, without the run after it. */
  readonly putRight: number
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
/** With less chance that a rail or a track is at fault none is gone into before the first lift. */
const LEAST_OTHER = 0.05

/**
 * The least expected cost from here on, in the shop's currency, and what comes first; parts are indices. The
 * likeliest parts are tried together in every order (dynamic programming over sets, as Held and Karp 1962), the
 * others one by one after them.
 */
export function stepValue(question: LiftQuestion, costs: StepCosts): StepValue {
  const { probability, liftCost } = question
  const all = [...probability.keys()].filter((part) => (probability[part] ?? 0) > 1e-6)
  const doubtful = all
    .filter((part) => (probability[part] ?? 0) >= LEAST)
    .toSorted((a, b) => (probability[b] ?? 0) - (probability[a] ?? 0))
  const tried = doubtful.slice(0, MOST_TOGETHER)
  const full = (1 << tried.length) - 1
  // Lifting several at once saves runs, one by one saves lifts: so prices and costs go by sets.
  const price = Float64Array.from({ length: full + 1 }, (_, set) =>
    membersOf(tried, set).reduce((sum, part) => sum + (liftCost[part] ?? 0), costs.run),
  )
  const others = doubtful.slice(MOST_TOGETHER)
  const ground: Ground = { question, costs, all, tried, price, full, others }
  // Putting right what is no part can be done once: first what follows it, then what goes before.
  const right = onwardsFrom(ground, 'right', undefined)
  const before = onwardsFrom(ground, 'open', right)
  // The card fails as it stands, whether or not a part needs lifting.
  const { handBack } = whenLifted(ground, 'open', [])
  let best: StepValue = { cost: handBack, first: 'hand-back', lift: [] }
  const mended = costs.putRight + costs.run + (right[0] ?? 0)
  if (mended < best.cost && othersAtFault(ground) >= LEAST_OTHER) {
    best = { cost: mended, first: 'put-right', lift: [] }
  }
  for (let lift = 1; lift <= full; lift++) {
    const cost = (price[lift] ?? 0) + (before[lift] ?? 0)
    if (cost < best.cost) best = { cost, first: 'lift', lift: membersOf(tried, lift).toSorted((a, b) => a - b) }
  }
  return best
}

/** Whether what is no part is still as it was, or has been put right. */
type Others = 'open' | 'right'

interface Ground {
  readonly question: LiftQuestion
  readonly costs: StepCosts
  readonly all: readonly number[]
  /** Parts that are tried in every order and together, and those that follow one by one. */
  readonly tried: readonly number[]
  readonly others: readonly number[]
  /** By set of tried parts: lifting them, with a run. */
  readonly price: Float64Array
  readonly full: number
}

/**
 * By set of tried parts that are lifted: what is yet to be paid, times the probability that it comes to that.
 * @param right the same once the rest was put right; undefined where it was
 */
function onwardsFrom(ground: Ground, others: Others, right: Float64Array | undefined): Float64Array {
  const { tried, price, full, costs } = ground
  const onwards = new Float64Array(full + 1)
  for (let set = full; set >= 0; set--) {
    const { fails, handBack } = whenLifted(ground, others, membersOf(tried, set))
    let best = set === full ? oneByOne(ground, others) : handBack
    if (right !== undefined) best = Math.min(best, fails * (costs.putRight + costs.run) + (right[set] ?? 0))
    const open = full & ~set
    for (let lift = open; lift > 0; lift = (lift - 1) & open) {
      best = Math.min(best, fails * (price[lift] ?? 0) + (onwards[set | lift] ?? 0))
    }
    onwards[set] = best
  }
  return onwards
}

const othersAtFault = ({ question, costs }: Ground): number => 1 - question.noneNeeds([costs.other])

const membersOf = (tried: readonly number[], set: number): number[] => tried.filter((_, bit) => (set >> bit) & 1)

/** With these lifted: probability that the run fails, and what handing back costs, not given that it does. */
interface WhenLifted {
  readonly fails: number
  readonly handBack: number
}

const NOTHING: WhenLifted = { fails: 0, handBack: 0 }

function whenLifted({ question, costs, all }: Ground, others: Others, lifted: readonly number[]): WhenLifted {
  const { probability, liftCost, comebackCost, noneNeeds } = question
  const rest = all.filter((part) => !lifted.includes(part))
  const later = rest.reduce((sum, part) => sum + (probability[part] ?? 0) * (liftCost[part] ?? 0), 0)
  const asked = others === 'open' ? [...rest, costs.other] : rest
  const fails = asked.length === 0 ? 0 : Math.max(0, 1 - noneNeeds(asked))
  return { fails, handBack: comebackCost * fails + later }
}

/** After all that were tried together: the others in a fixed order, each with a run, up to where handing back is cheaper. */
function oneByOne(ground: Ground, others: Others): number {
  const { question, costs, tried } = ground
  const { probability, liftCost } = question
  const gain = (part: number): number => (probability[part] ?? 0) / Math.max(1, liftCost[part] ?? 1)
  const order = ground.others.toSorted((a, b) => gain(b) - gain(a)).slice(0, MOST_AFTER)
  const states = Array.from({ length: order.length + 1 }, (_, count) =>
    whenLifted(ground, others, [...tried, ...order.slice(0, count)]),
  )
  let cost = states[order.length]?.handBack ?? 0
  for (let at = order.length - 1; at >= 0; at--) {
    const { fails, handBack } = states[at] ?? NOTHING
    cost = Math.min(handBack, fails * ((liftCost[order[at] ?? 0] ?? 0) + costs.run) + cost)
  }
  return cost
}
