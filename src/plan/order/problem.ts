/**
 * The ordering question in numbers. Parts on the list are 0 … n−1; each is on, lifted or refitted. A pass lifts or
 * refits its members at once. Costs add up: a pass costs its base (minutes × rate and harm to parts that are not on the
 * list) plus its harm to every listed part that is on the board at that moment, so an order's cost is a sum over passes.
 */
export const ON = 0
export const LIFTED = 1
export const REFITTED = 2
export type PartState = typeof ON | typeof LIFTED | typeof REFITTED

export interface Pass {
  readonly action: 'lift' | 'refit'
  /** Ascending indices of the parts under the nozzle. */
  readonly members: readonly number[]
  /** 0 top, 1 bottom. */
  readonly side: 0 | 1
  readonly base: number
  /** Harm to part j, in money, while it is still on, and after it was refitted; 0 for members. */
  readonly harmOn: Float64Array
  readonly harmRefitted: Float64Array
  /** Listed parts whose joints melt by this pass, members left out. */
  readonly melts: readonly number[]
}

export interface OrderProblem {
  readonly partCount: number
  readonly passes: readonly Pass[]
  /** For part i: parts that must not be on when i's site is cleaned, hence before i is refitted. */
  readonly offBeforeRefit: readonly (readonly number[])[]
  /** Money for the bench work and parts when part i is reused, and when it is replaced. */
  readonly reuseCost: Float64Array
  readonly replaceCost: Float64Array
  /** How often part i may yet be molten as a neighbour and still be reused, 0 … 6; −1: it is replaced anyway. */
  readonly spareMelts: Int8Array
  /** Turning the board over between two passes. */
  readonly flipCost: number
  readonly start: { readonly states: Uint8Array; readonly side: 0 | 1 | -1 }
  /** `off-first`: nothing is refitted while a part is on. `at-once`: nothing is lifted while a lifted part may go back. */
  readonly rule: 'free' | 'off-first' | 'at-once'
  /** Parts that may not be in the very first pass. */
  readonly notFirst: readonly number[]
}

/** An order with its cost. `bound` is a lower bound of every order's cost; equal to `cost` where the order is proved best. */
export interface Order {
  readonly passes: readonly Pass[]
  readonly cost: number
  readonly bound: number
}

export const MOST_SPARE_MELTS = 6

/** True where every part is refitted. */
export const finished = (states: Uint8Array): boolean => states.every((state) => state === REFITTED)

/** Whether the rules of the bench allow a pass in this state. `first`: nothing was done since the start. */
export function allowed(problem: OrderProblem, states: Uint8Array, pass: Pass, first: boolean): boolean {
  const from = pass.action === 'lift' ? ON : LIFTED
  for (const member of pass.members) if (states[member] !== from) return false
  if (first && pass.members.some((member) => problem.notFirst.includes(member))) return false
  if (pass.action === 'lift') return problem.rule !== 'at-once' || !anyMayGoBack(problem, states)
  if (problem.rule === 'off-first' && states.includes(ON)) return false
  return pass.members.every((member) => mayGoBack(problem, states, member))
}

function mayGoBack(problem: OrderProblem, states: Uint8Array, part: number): boolean {
  for (const other of problem.offBeforeRefit[part] ?? []) if (states[other] === ON) return false
  return true
}

function anyMayGoBack(problem: OrderProblem, states: Uint8Array): boolean {
  for (let part = 0; part < problem.partCount; part++)
    if (states[part] === LIFTED && mayGoBack(problem, states, part)) return true
  return false
}

/** Base and harm of a pass in a state; turning the board and bench work are not in it. */
export function passCost(problem: OrderProblem, states: Uint8Array, pass: Pass): number {
  let cost = pass.base
  for (let part = 0; part < problem.partCount; part++) {
    const state = states[part]
    if (state === ON) cost += pass.harmOn[part] ?? 0
    else if (state === REFITTED) cost += pass.harmRefitted[part] ?? 0
  }
  return cost
}

/** Money for what becomes of a part that comes off after so many melts as a neighbour. */
export function benchCost(problem: OrderProblem, part: number, meltsAsNeighbour: number): number {
  const replaced = meltsAsNeighbour > (problem.spareMelts[part] ?? -1)
  return (replaced ? problem.replaceCost[part] : problem.reuseCost[part]) ?? 0
}

/** Bench work for parts that were off before the start; it is part of every order's cost. */
export function costAtStart(problem: OrderProblem): number {
  let cost = 0
  for (let part = 0; part < problem.partCount; part++)
    if (problem.start.states[part] === LIFTED) cost += benchCost(problem, part, 0)
  return cost
}
