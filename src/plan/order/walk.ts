/** Walks through an order: the states and heat counts along the way, and what becomes of each part. */
import type { Built, PassDetail } from './build.ts'
import { heatCountOf } from './harm.ts'
import type { CheckedInput } from '../input.ts'
import { LIFTED, ON, type Order, type Pass, REFITTED } from './problem.ts'

/** One pass of an order, with what is known of it and the states of the listed parts just before it. */
export interface WalkedPass {
  readonly pass: Pass
  readonly detail: PassDetail
  readonly states: Uint8Array
}

export interface Walk {
  readonly passes: readonly WalkedPass[]
  /** Listed parts that are replaced, as indices. */
  readonly replaced: ReadonlySet<number>
  /** After the plan, by ref: listed parts and every neighbour that was molten. */
  readonly heatCounts: ReadonlyMap<string, { readonly before: number; readonly after: number }>
  /** Harm to listed parts in passing, in money. */
  readonly harmToListed: number
}

/**
 * A pass adds 1 to the heat count of each of them that
 * is on the board, reballing adds 1, a new part starts at 0. A part is replaced when, on being lifted, it was molten
 * more often than it can spare.
 */
export function walkOrder(checked: CheckedInput, { problem, details }: Built, order: Order): Walk {
  const { input, settings, targets } = checked
  const states = problem.start.states.slice()
  const passes: WalkedPass[] = []
  const replaced = new Set<number>()
  const molten = new Uint8Array(problem.partCount)
  const counts = new Map<string, number>()
  const before = new Map<string, number>()
  const count = (ref: string): number => {
    const known = counts.get(ref)
    if (known !== undefined) return known
    const part = input.model.partByRef.get(ref)
    const start = part === undefined ? 0 : heatCountOf(part, input.heatCounts, settings)
    before.set(ref, start)
    return start
  }
  const decide = (part: number): void => {
    const ref = targets[part]?.ref ?? ''
    const isReplaced = (molten[part] ?? 0) > (problem.spareMelts[part] ?? -1)
    if (isReplaced) replaced.add(part)
    counts.set(ref, isReplaced ? 0 : count(ref) + 1)
  }
  for (const { ref } of targets) counts.set(ref, count(ref))
  for (const [part, state] of states.entries()) if (state === LIFTED) decide(part)
  let harmToListed = 0
  for (const pass of order.passes) {
    const detail = details.get(pass)
    if (detail === undefined) continue
    passes.push({ pass, detail, states: states.slice() })
    for (const [part, state] of states.entries()) {
      if (state === ON) harmToListed += pass.harmOn[part] ?? 0
      if (state === REFITTED) harmToListed += pass.harmRefitted[part] ?? 0
    }
    for (const { ref, melts } of detail.heat.neighbours) {
      if (!melts) continue
      const index = targets.findIndex((target) => target.ref === ref)
      if (index >= 0 && (states[index] === LIFTED || pass.members.includes(index))) continue
      if (index >= 0 && states[index] === ON) molten[index] = (molten[index] ?? 0) + 1
      if (input.begun?.leftOff.has(ref) !== true) counts.set(ref, count(ref) + 1)
    }
    for (const member of pass.members) {
      const ref = targets[member]?.ref ?? ''
      counts.set(ref, count(ref) + 1)
      states[member] = (states[member] ?? 0) + 1
      if (pass.action === 'lift') decide(member)
    }
  }
  const heatCounts = new Map(
    [...counts].map(([ref, after]) => [ref, { before: before.get(ref) ?? after, after }] as const),
  )
  return { passes, replaced, heatCounts, harmToListed }
}
