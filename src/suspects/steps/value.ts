/**
 * What a card is expected to cost from here on, if lifts are made one after the other with a run after each: which parts
 * to lift first, and whether to lift any. Fixed after a first lift L with P(nothing but L needs lifting); else the parts that
 * are left are lifted by chance over cost, highest first, each time with a run, until hardly any doubt is left. For one
 * fault that order is optimal (sequential search: Black, Management Science 1965, from memory); for several it is a guess.
 */
import type { LiftQuestion } from '../lift/lift-list.ts'

export interface StepCosts {
  /** A run of the memory test after a lift, in the shop's currency. */
  readonly run: number
}

export interface StepValue {
  /** Expected cost from here on. */
  readonly cost: number
  /** Parts to lift first, ascending; empty: hand it back. */
  readonly lift: readonly number[]
}

/** Parts that are less likely to need lifting are not lifted on a guess. */
const LEAST = 0.02
const MOST_SINGLE = 6
/** Doubt below this is left. */
const LEFT = 0.01

export function stepValue(question: LiftQuestion, { run }: StepCosts): StepValue {
  const { probability, liftCost, comebackCost, noneNeeds } = question
  const all = [...probability.keys()].filter((part) => (probability[part] ?? 0) > 1e-6)
  const doubtful = all
    .filter((part) => (probability[part] ?? 0) >= LEAST)
    .toSorted((a, b) => (probability[b] ?? 0) - (probability[a] ?? 0))
  const later = all.reduce((sum, part) => sum + (probability[part] ?? 0) * (liftCost[part] ?? 0), 0)
  const anyNeeds = all.length === 0 ? 0 : 1 - noneNeeds(all)
  let best: StepValue = { cost: comebackCost * Math.max(0, anyNeeds) + later, lift: [] }
  for (const lift of candidates(question, doubtful)) {
    const price = lift.reduce((sum, part) => sum + (liftCost[part] ?? 0), run)
    if (price >= best.cost) continue
    const rest = all.filter((part) => !lift.includes(part))
    const fixed = rest.length === 0 ? 1 : noneNeeds(rest)
    const cost = price + goOn(question, rest, Math.max(0, 1 - fixed), run)
    if (cost < best.cost) best = { cost, lift: lift.toSorted((a, b) => a - b) }
  }
  return best
}

/** First lifts that are worth a thought: each of the likeliest alone, the likeliest together, and those by chance over cost. */
function candidates({ probability, liftCost }: LiftQuestion, doubtful: readonly number[]): number[][] {
  const gain = (part: number): number => (probability[part] ?? 0) / Math.max(1, liftCost[part] ?? 1)
  const cheap = doubtful.toSorted((a, b) => gain(b) - gain(a))
  const sets = [
    ...doubtful.slice(0, MOST_SINGLE).map((part) => [part]),
    ...doubtful.slice(1, MOST_SINGLE).map((_, at) => doubtful.slice(0, at + 2)),
    ...cheap.slice(1, MOST_SINGLE).map((_, at) => cheap.slice(0, at + 2)),
  ]
  return [...new Map(sets.map((set) => [set.toSorted((a, b) => a - b).join(), set])).values()]
}

/** Expected cost of what follows when the first lift has not fixed it, times the probability that it has not. */
function goOn(
  { probability, liftCost, comebackCost }: LiftQuestion,
  rest: readonly number[],
  notFixed: number,
  run: number,
): number {
  if (notFixed <= 0) return 0
  const left = rest.map((part) => ({
    cost: liftCost[part] ?? 0,
    needs: Math.min(1, (probability[part] ?? 0) / notFixed),
  }))
  const order = left.toSorted((a, b) => b.needs / Math.max(1, b.cost) - a.needs / Math.max(1, a.cost))
  let open = 1
  let cost = 0
  for (const { cost: own, needs } of order) {
    const worth = open * needs * (comebackCost + own)
    if (open * notFixed < LEFT || worth < open * (own + run)) break
    cost += open * (own + run)
    open *= 1 - needs
  }
  return notFixed * (cost + open * comebackCost)
}
