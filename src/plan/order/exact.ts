/**
 * The best order by dynamic programming. A state is one base-3 digit per part (on, lifted, refitted), 3^n in all. Every pass
 * raises digits, so states in ascending number are in order of time and each is settled when its turn comes (Bellman's
 * principle; Held and Karp use the same scheme over subsets). Whether a part is reused depends on how often it was molten while
 * on, so a state keeps every way that another does not beat in both cost and melts: the optimum stays exact. Ways whose cost
 * plus a lower bound of the rest is above an order that is known already are dropped; none of them could be the best.
 */
import { beamOrder } from './best-first.ts'
import { type Bound, pairBound } from './bound.ts'
import { Labels, NIBBLES_PER_WORD, NO_LABEL } from './labels.ts'
import { allowed, benchCost, costAtStart, LIFTED, ON, type Order, type OrderProblem, type Pass } from './problem.ts'

export const MOST_PARTS_EXACTLY = 12

/**
 * @param mostCost dearer orders are of no interest
 * @returns the best order, or undefined where the rules leave none. Refuses more than 12 parts: undefined.
 */
export function exactOrder(problem: OrderProblem, mostCost = Number.POSITIVE_INFINITY): Order | undefined {
  const { partCount } = problem
  if (partCount > MOST_PARTS_EXACTLY) return undefined
  const powers = Array.from({ length: partCount }, (_, part) => 3 ** part)
  const stateCount = 3 ** partCount
  const start = powers.reduce((sum, power, part) => sum + power * (problem.start.states[part] ?? 0), 0)
  const labels = new Labels(stateCount)
  labels.offer(start, costAtStart(problem), 0, 0, problem.start.side < 0 ? 2 : problem.start.side, NO_LABEL, 0)
  const bound = pairBound(problem)
  if (bound.rest(problem.start.states) > mostCost) return undefined
  // An order is known before the search begins: whatever can't beat it even with the cheapest rest is never stored.
  const ceiling = Math.min(mostCost, knownCost(problem, bound)) * (1 + CEILING_SLACK)
  const rests = new Float64Array(2 * stateCount).fill(Number.NaN)
  const moves = problem.passes.map((pass) => moveOf(pass, powers))
  const states = new Uint8Array(partCount)
  // One ascending run settles all: a pass only raises digits, so every way into a state stands when its turn comes.
  for (let code = start; code < stateCount - 1; code++) {
    if (labels.first[code] === NO_LABEL) continue
    for (let part = 0, rest = code; part < partCount; part++, rest = Math.floor(rest / 3)) states[part] = rest % 3
    for (let index = 0; index < moves.length; index++) {
      const move = moves[index]
      if (move === undefined || !allowed(problem, states, move.pass, code === start)) continue
      // What is left to pay hangs on the state after the pass and the side that is up then, so it is reckoned once
      // for both.
      const slot = 2 * (code + move.step) + move.pass.side
      if (Number.isNaN(rests[slot])) rests[slot] = restAfter(bound, states, move.pass)
      extend(problem, labels, states, code, move, index, ceiling - (rests[slot] ?? 0))
    }
  }
  return bestOf(problem, labels, stateCount - 1)
}

/** Sums of the same costs in another order differ in the last bits. */
const CEILING_SLACK = 1e-9

/** The least cost among orders that are soon found: the beam's, and the best of either plain rhythm, which has few states. */
function knownCost(problem: OrderProblem, bound: Bound): number {
  if (problem.rule !== 'free') return Number.POSITIVE_INFINITY
  const beam = beamOrder(problem, bound)?.cost ?? Number.POSITIVE_INFINITY
  const rhythms = (['off-first', 'at-once'] as const).map(
    (rule) => exactOrder({ ...problem, rule }, beam)?.cost ?? beam,
  )
  return Math.min(beam, ...rhythms)
}

function restAfter(bound: Bound, states: Uint8Array, pass: Pass): number {
  const after = states.slice()
  for (const member of pass.members) after[member] = (after[member] ?? 0) + 1
  return bound.rest(after) + bound.turn(after, pass.side)
}

interface Move {
  readonly pass: Pass
  /** What the pass adds to a state's number. */
  readonly step: number
}

const moveOf = (pass: Pass, powers: readonly number[]): Move => ({
  pass,
  step: pass.members.reduce((sum, member) => sum + (powers[member] ?? 0), 0),
})

function extend(
  problem: OrderProblem,
  labels: Labels,
  states: Uint8Array,
  code: number,
  move: Move,
  index: number,
  most: number,
) {
  const { pass, step } = move
  // Harm hangs on the state and not on how it was reached: summed once for all its labels.
  let cost = pass.base
  for (let part = 0; part < problem.partCount; part++) {
    const state = states[part]
    if (state === LIFTED) continue
    cost += (state === ON ? pass.harmOn[part] : pass.harmRefitted[part]) ?? 0
  }
  for (let label = labels.first[code] ?? NO_LABEL; label !== NO_LABEL; label = labels.next[label] ?? NO_LABEL) {
    let low = labels.lowMelts[label] ?? 0
    let high = labels.highMelts[label] ?? 0
    let total = (labels.cost[label] ?? 0) + cost
    const side = labels.side[label] ?? 2
    if (side !== 2 && side !== pass.side) total += problem.flipCost
    // Melts count only while a part is on and may yet be reused; all other parts would keep equal labels apart for
    // nothing.
    for (const part of pass.melts) {
      const spare = problem.spareMelts[part] ?? -1
      if (states[part] !== ON || spare < 0) continue
      if (part < NIBBLES_PER_WORD) low = raised(low, part, spare)
      else high = raised(high, part - NIBBLES_PER_WORD, spare)
    }
    // With the lift it is decided whether a part is reused, and paid. Its count is cleared, so that ways that
    // differed in it alone can beat each other from here on.
    if (pass.action === 'lift') {
      for (const part of pass.members) {
        const inLow = part < NIBBLES_PER_WORD
        const shift = 4 * (inLow ? part : part - NIBBLES_PER_WORD)
        total += benchCost(problem, part, ((inLow ? low : high) >> shift) & 15)
        if (inLow) low &= ~(15 << shift)
        else high &= ~(15 << shift)
      }
    }
    if (total <= most) labels.offer(code + step, total, low, high, pass.side, label, index)
  }
}

/** One more melt in a part's field; one beyond what it can spare says all there is to say. */
function raised(word: number, field: number, spare: number): number {
  const shift = 4 * field
  return ((word >> shift) & 15) > spare ? word : word + (1 << shift)
}

function bestOf(problem: OrderProblem, labels: Labels, goal: number): Order | undefined {
  let best = labels.first[goal] ?? NO_LABEL
  if (best === NO_LABEL) return undefined
  for (let at = best; at !== NO_LABEL; at = labels.next[at] ?? NO_LABEL)
    if ((labels.cost[at] ?? 0) < (labels.cost[best] ?? 0)) best = at
  const cost = labels.cost[best] ?? 0
  const passes: Pass[] = []
  // Labels name the one that they came from: the order is read back from its end; the start came from none.
  for (
    let at = best, from = labels.parent[at] ?? NO_LABEL;
    from !== NO_LABEL;
    at = from, from = labels.parent[at] ?? NO_LABEL
  ) {
    const pass = problem.passes[labels.pass[at] ?? 0]
    if (pass !== undefined) passes.push(pass)
  }
  return { passes: passes.toReversed(), cost, bound: cost }
}
