/**
 * A lower bound of what is left to pay, for best-first search. Harm adds up over pairs of parts, so each pair can be ordered by
 * itself as if the others were not there: the sum of the pairs' own minima, plus for each pass still due its cheapest share
 * of a base, is never above the true rest. A pass of several parts is shared out evenly among them.
 */
import { LIFTED, ON, type OrderProblem, REFITTED } from './problem.ts'

type Action = 'lift' | 'refit'

export interface Bound {
  /** Lower bound of the cost from these states to the end, bench work included. */
  rest(states: Uint8Array): number
  /** By how much that changes when one part goes one state up; `states` are those before. */
  change(states: Uint8Array, part: number): number
  /** One turning of the board where a part of the other side is unfinished; beside `rest`. */
  turn(states: Uint8Array, side: 0 | 1): number
}

/**
 * Tables from which the bound of any state is read: one of 3 entries a part for passes and bench work still due, one
 * of 9 a pair for harm. In money; never above the true rest.
 */
export function pairBound(problem: OrderProblem): Bound {
  const n = problem.partCount
  const liftShare = shares(problem, 'lift')
  const refitShare = shares(problem, 'refit')
  const single = new Float64Array(3 * n)
  for (let part = 0; part < n; part++) {
    const spare = problem.spareMelts[part] ?? -1
    const reuse = problem.reuseCost[part] ?? 0
    const replace = problem.replaceCost[part] ?? 0
    const bench = spare < 0 ? replace : Math.min(reuse, replace)
    single[part * 3 + LIFTED] = refitShare[part] ?? 0
    single[part * 3 + ON] = (liftShare[part] ?? 0) + (refitShare[part] ?? 0) + bench
  }
  const pairs = pairTable(problem)
  const sides = new Uint8Array(n)
  for (const { members, side } of problem.passes) for (const member of members) sides[member] = side
  return {
    rest(states) {
      let sum = 0
      for (let i = 0; i < n; i++) {
        const a = states[i] ?? 0
        sum += single[i * 3 + a] ?? 0
        for (let j = i + 1; j < n; j++) sum += pairs[(i * n + j) * 9 + a * 3 + (states[j] ?? 0)] ?? 0
      }
      return sum
    },
    turn(states, side) {
      for (let part = 0; part < n; part++)
        if (states[part] !== REFITTED && sides[part] !== side) return problem.flipCost
      return 0
    },
    change(states, part) {
      const from = states[part] ?? 0
      let sum = (single[part * 3 + from + 1] ?? 0) - (single[part * 3 + from] ?? 0)
      for (let other = 0; other < part; other++) {
        const at = (other * n + part) * 9 + (states[other] ?? 0) * 3 + from
        sum += (pairs[at + 1] ?? 0) - (pairs[at] ?? 0)
      }
      for (let other = part + 1; other < n; other++) {
        const at = (part * n + other) * 9 + from * 3 + (states[other] ?? 0)
        sum += (pairs[at + 3] ?? 0) - (pairs[at] ?? 0)
      }
      return sum
    },
  }
}

/** For each part the least share of a base among the passes of this kind that hold it. */
function shares(problem: OrderProblem, action: Action): Float64Array {
  const least = new Float64Array(problem.partCount).fill(Number.POSITIVE_INFINITY)
  for (const pass of problem.passes) {
    if (pass.action !== action) continue
    for (const member of pass.members)
      least[member] = Math.min(least[member] ?? Number.POSITIVE_INFINITY, pass.base / pass.members.length)
  }
  return least
}

/** Entry (i·n + j)·9 + state of i · 3 + state of j: the pair's own cheapest rest. */
function pairTable(problem: OrderProblem): Float64Array {
  const n = problem.partCount
  const table = new Float64Array(n * n * 9)
  const harm = leastHarm(problem)
  const together = new Set<string>()
  for (const { action, members } of problem.passes)
    for (const i of members) for (const j of members) if (i !== j) together.add(`${action} ${i} ${j}`)
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const rest = (a: number, b: number): number => table[(i * n + j) * 9 + a * 3 + b] ?? 0
      const step = (actor: number, other: number, action: Action, otherState: number): number => {
        // A site that solvent would reach from has to be open first: such a refit never comes, whatever it would
        // cost.
        const blocked = action === 'refit' && otherState === ON && problem.offBeforeRefit[actor]?.includes(other)
        return blocked === true ? Number.POSITIVE_INFINITY : harm(actor, other, action, otherState)
      }
      // Backwards from both refitted, where nothing is left: each entry rests on states further on, which stand by
      // then.
      for (let a = REFITTED; a >= ON; a--) {
        for (let b = REFITTED; b >= ON; b--) {
          if (a === REFITTED && b === REFITTED) continue
          let least = Number.POSITIVE_INFINITY
          if (a < REFITTED) least = Math.min(least, step(i, j, actionFrom(a), b) + rest(a + 1, b))
          if (b < REFITTED) least = Math.min(least, step(j, i, actionFrom(b), a) + rest(a, b + 1))
          // A pass that holds both does neither any harm.
          if (a === b && together.has(`${actionFrom(a)} ${i} ${j}`)) least = Math.min(least, rest(a + 1, b + 1))
          table[(i * n + j) * 9 + a * 3 + b] = least
        }
      }
    }
  }
  return table
}

const actionFrom = (state: number): Action => (state === ON ? 'lift' : 'refit')

/** Least harm that a pass with `actor` but without `other` does to `other`, shared out among the pass's members. */
function leastHarm(problem: OrderProblem) {
  const n = problem.partCount
  const least = new Float64Array(n * n * 4).fill(Number.POSITIVE_INFINITY)
  const slot = (actor: number, other: number, action: Action, refitted: boolean): number =>
    ((actor * n + other) * 2 + (action === 'lift' ? 0 : 1)) * 2 + (refitted ? 1 : 0)
  for (const pass of problem.passes) {
    const share = 1 / pass.members.length
    for (const actor of pass.members) {
      for (let other = 0; other < n; other++) {
        if (pass.members.includes(other)) continue
        const on = slot(actor, other, pass.action, false)
        const back = slot(actor, other, pass.action, true)
        least[on] = Math.min(least[on] ?? 0, (pass.harmOn[other] ?? 0) * share)
        least[back] = Math.min(least[back] ?? 0, (pass.harmRefitted[other] ?? 0) * share)
      }
    }
  }
  return (actor: number, other: number, action: Action, otherState: number): number =>
    otherState === LIFTED ? 0 : (least[slot(actor, other, action, otherState === REFITTED)] ?? 0)
}
