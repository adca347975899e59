/** The best order of a clearly different kind: singles for groups, another rhythm of lifting and refitting, another first part. */
import { joined, say } from '../../base/index.ts'
import { sameRhythm } from './rhythm.ts'
import type { Target } from '../input.ts'
import type { Order, OrderProblem } from './problem.ts'

export interface Variant {
  readonly order: Order
  readonly problem: OrderProblem
  readonly differsIn: string
}

/**
 * @param solve the search to use
 * @returns the cheapest of the variants that there are, or undefined; another first part counts only where no other kind is left
 */
export function cheapestVariant(
  problem: OrderProblem,
  targets: readonly Target[],
  best: Order,
  solve: (problem: OrderProblem, mostCost: number) => Order | undefined,
): Variant | undefined {
  const kinds = cheapestOf(problem, best, solve, kindsOf(problem, targets, best))
  return kinds ?? cheapestOf(problem, best, solve, anotherFirst(targets, best))
}

function cheapestOf(
  problem: OrderProblem,
  best: Order,
  solve: (problem: OrderProblem, mostCost: number) => Order | undefined,
  changes: readonly Change[],
): Variant | undefined {
  let cheapest: Variant | undefined
  for (const { differsIn, change } of changes) {
    const changed = { ...problem, ...change }
    const order = solve(changed, cheapest?.order.cost ?? Number.POSITIVE_INFINITY)
    if (order === undefined || sameOrder(order, best)) continue
    if (cheapest === undefined || order.cost < cheapest.order.cost) cheapest = { order, problem: changed, differsIn }
  }
  return cheapest
}

interface Change {
  readonly differsIn: string
  readonly change: Partial<OrderProblem>
}

function kindsOf(problem: OrderProblem, targets: readonly Target[], best: Order): Change[] {
  const changes: Change[] = []
  if (!sameRhythm(best, 'off-first'))
    changes.push({ differsIn: say('everything off first, then everything back on'), change: { rule: 'off-first' } })
  if (!sameRhythm(best, 'at-once'))
    changes.push({
      differsIn: say('each part refitted as soon as its site may be cleaned'),
      change: { rule: 'at-once' },
    })
  const group = best.passes.find(({ members }) => members.length > 1)
  if (group !== undefined) {
    const passes = problem.passes.filter(({ members }) => members.length === 1)
    const names = joined(group.members.map((part) => targets[part]?.ref ?? ''))
    changes.push({
      differsIn: say('every part by itself instead of {names} under one nozzle', { names }),
      change: { passes },
    })
  }
  return changes
}

function anotherFirst(targets: readonly Target[], best: Order): Change[] {
  const first = best.passes[0]
  if (first === undefined) return []
  const names = joined(first.members.map((part) => targets[part]?.ref ?? ''))
  return [{ differsIn: say('another part first instead of {names}', { names }), change: { notFirst: first.members } }]
}

const sameOrder = (a: Order, b: Order): boolean =>
  a.passes.length === b.passes.length && a.passes.every((pass, index) => pass === b.passes[index])
