/**
 * The slow reference: every order and every grouping, one after the other, each with its whole history written out. It shares no code
 * with the search: melts are counted from the list of passes done, not kept in a state.
 */
import type { OrderProblem, Pass } from '../../src/plan/index.ts'

export interface SlowAnswer {
  readonly cost: number
  readonly ordersTried: number
}

export function cheapestByTryingAll(problem: OrderProblem): SlowAnswer {
  let cheapest = Number.POSITIVE_INFINITY
  let ordersTried = 0
  const visit = (done: readonly Pass[]): void => {
    const states = statesAfter(problem, done)
    if (states.every((state) => state === 2)) {
      ordersTried++
      cheapest = Math.min(cheapest, costOfOrder(problem, done))
      return
    }
    for (const pass of problem.passes) if (fits(problem, states, pass, done.length)) visit([...done, pass])
  }
  visit([])
  return { cost: cheapest, ordersTried }
}

function statesAfter(problem: OrderProblem, done: readonly Pass[]): number[] {
  const states = [...problem.start.states]
  for (const { members } of done) for (const member of members) states[member] = (states[member] ?? 0) + 1
  return states
}

function fits(problem: OrderProblem, states: readonly number[], pass: Pass, doneCount: number): boolean {
  const lifts = pass.action === 'lift'
  if (!pass.members.every((member) => states[member] === (lifts ? 0 : 1))) return false
  if (doneCount === 0 && problem.notFirst.some((part) => pass.members.includes(part))) return false
  const clear = (part: number): boolean => (problem.offBeforeRefit[part] ?? []).every((other) => states[other] !== 0)
  if (lifts) return problem.rule !== 'at-once' || !states.some((state, part) => state === 1 && clear(part))
  return pass.members.every(clear) && (problem.rule !== 'off-first' || !states.includes(0))
}

/** The whole cost of a complete order. */
export function costOfOrder(problem: OrderProblem, order: readonly Pass[]): number {
  let cost = 0
  for (const [step, pass] of order.entries()) {
    const states = statesAfter(problem, order.slice(0, step))
    const sideBefore = order[step - 1]?.side ?? problem.start.side
    cost += pass.base
    if (sideBefore !== -1 && sideBefore !== pass.side) cost += problem.flipCost
    for (const [part, state] of states.entries()) {
      if (state === 0) cost += pass.harmOn[part] ?? 0
      if (state === 2) cost += pass.harmRefitted[part] ?? 0
    }
  }
  for (let part = 0; part < problem.partCount; part++) {
    if (problem.start.states[part] === 2) continue
    const liftedAt = order.findIndex(({ action, members }) => action === 'lift' && members.includes(part))
    const molten = order.slice(0, Math.max(0, liftedAt)).filter(({ melts }) => melts.includes(part)).length
    const reused = molten <= (problem.spareMelts[part] ?? -1)
    cost += (reused ? problem.reuseCost[part] : problem.replaceCost[part]) ?? 0
  }
  return cost
}
