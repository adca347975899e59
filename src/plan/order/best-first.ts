/**
 * Best-first search (A*, Hart, Nilsson and Raphael 1968) for long lists: a beam finds a good order first, then nodes are opened in
 * order of cost so far plus a lower bound of the rest, until the order is proved best or the given number of nodes is spent.
 * What is then the least of the open nodes' sums bounds every order that could still be found, so the gap is proved too.
 */
import { type Bound, pairBound } from './bound.ts'
import { OrderHeap } from './order-heap.ts'
import {
  allowed,
  benchCost,
  costAtStart,
  finished,
  ON,
  type Order,
  type OrderProblem,
  type Pass,
  passCost,
} from './problem.ts'

const BEAM_WIDTH = 60
/** Sums of the same costs in another order differ in the last bits. */
const RELATIVE_SLACK = 1e-12

interface Node {
  readonly states: Uint8Array
  /** How often each part was molten while on, up to one more than it can spare. */
  readonly melts: Uint8Array
  readonly side: 0 | 1 | -1
  readonly cost: number
  readonly rest: number
  /** Part of the bound that the side decides. */
  readonly turn: number
  readonly depth: number
  readonly pass: Pass | undefined
  readonly parent: Node | undefined
}

/** @param mostNodes how many nodes may be opened. @returns undefined where the rules leave no order. */
export function bestFirstOrder(problem: OrderProblem, mostNodes: number): Order | undefined {
  const bound = pairBound(problem)
  const root = rootOf(problem, bound)
  // A good order first: nothing dearer is ever opened, and it is the answer if the nodes are spent.
  let best = beam(problem, bound, root)
  const nodes: Node[] = [root]
  const open = new OrderHeap()
  const seen = new Map<string, number>([[keyOf(root), root.cost]])
  open.push(root.cost + root.rest, 0, 0)
  let expanded = 0
  while (open.size > 0 && expanded < mostNodes) {
    // The least sum among open nodes bounds every order yet to be found; once it reaches the best, that is proved.
    if (best !== undefined && open.leastKey >= best.cost * (1 - RELATIVE_SLACK)) break
    const node = nodes[open.pop() ?? -1]
    // Reached more cheaply since it was queued: the better one stands further on in the heap or was opened already.
    if (node === undefined || node.cost > (seen.get(keyOf(node)) ?? 0)) continue
    if (finished(node.states)) {
      best = node
      break
    }
    expanded++
    for (const next of followers(problem, bound, node)) {
      const key = keyOf(next)
      if (promise(next) >= (best?.cost ?? Number.POSITIVE_INFINITY)) continue
      // Same parts, melts and side: only the cheapest way to it can lead to the best order.
      if (next.cost >= (seen.get(key) ?? Number.POSITIVE_INFINITY)) continue
      seen.set(key, next.cost)
      open.push(promise(next), next.depth, nodes.push(next) - 1)
    }
  }
  if (best === undefined) return undefined
  return { passes: passesOf(best), cost: best.cost, bound: Math.min(best.cost, open.leastKey) }
}

function rootOf(problem: OrderProblem, bound: Bound): Node {
  const { states, side } = problem.start
  const melts = new Uint8Array(problem.partCount)
  const cost = costAtStart(problem)
  return { states, melts, side, cost, rest: bound.rest(states), turn: 0, depth: 0, pass: undefined, parent: undefined }
}

/** A good order in short time, not proved to be the best; undefined where the rules leave none. */
export function beamOrder(problem: OrderProblem, bound: Bound): Order | undefined {
  const best = beam(problem, bound, rootOf(problem, bound))
  return best && { passes: passesOf(best), cost: best.cost, bound: 0 }
}

/** Keeps the most promising nodes of each depth; ends with a whole order that need not be the best. */
function beam(problem: OrderProblem, bound: Bound, root: Node): Node | undefined {
  let best: Node | undefined
  for (let layer = [root]; layer.length > 0; ) {
    const next = new Map<string, Node>()
    for (const node of layer) {
      if (finished(node.states)) {
        if (best === undefined || node.cost < best.cost) best = node
        continue
      }
      for (const follower of followers(problem, bound, node)) {
        const key = keyOf(follower)
        // Of equal nodes a layer keeps the cheapest, so that its width is not spent on one set of parts in many
        // orders.
        const other = next.get(key)
        if (other === undefined || follower.cost < other.cost) next.set(key, follower)
      }
    }
    layer = [...next.values()].toSorted((a, b) => promise(a) - promise(b)).slice(0, BEAM_WIDTH)
  }
  return best
}

const promise = (node: Node): number => node.cost + node.rest + node.turn

function followers(problem: OrderProblem, bound: Bound, node: Node): Node[] {
  const found: Node[] = []
  for (const pass of problem.passes) {
    if (allowed(problem, node.states, pass, node.parent === undefined)) found.push(follow(problem, bound, node, pass))
  }
  return found
}

function follow(problem: OrderProblem, bound: Bound, node: Node, pass: Pass): Node {
  const states = node.states.slice()
  const melts = node.melts.slice()
  let cost = node.cost + passCost(problem, states, pass)
  if (node.side !== -1 && node.side !== pass.side) cost += problem.flipCost
  for (const part of pass.melts) {
    const spare = problem.spareMelts[part] ?? -1
    if (states[part] === ON && spare >= 0) melts[part] = Math.min(spare + 1, (melts[part] ?? 0) + 1)
  }
  let rest = node.rest
  for (const member of pass.members) {
    rest += bound.change(states, member)
    states[member] = (states[member] ?? 0) + 1
    if (pass.action !== 'lift') continue
    cost += benchCost(problem, member, melts[member] ?? 0)
    melts[member] = 0
  }
  return {
    states,
    melts,
    side: pass.side,
    cost,
    rest,
    turn: bound.turn(states, pass.side),
    depth: node.depth + 1,
    pass,
    parent: node,
  }
}

const keyOf = ({ states, melts, side }: Node): string => `${states.join('')}${melts.join('')}${side}`

function passesOf(node: Node): Pass[] {
  const passes: Pass[] = []
  for (let at: Node | undefined = node; at !== undefined; at = at.parent)
    if (at.pass !== undefined) passes.push(at.pass)
  return passes.toReversed()
}
