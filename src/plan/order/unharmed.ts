/** The chance that no part is spoiled in passing by any pass of an order: the chances behind the harm in money. */
import type { Built } from './build.ts'
import { priceAtRisk } from './harm.ts'
import type { CheckedInput } from '../input.ts'
import { ON, type Order, REFITTED } from './problem.ts'
import type { Walk } from './walk.ts'

/** Π of 1 − chance over passes, over listed parts that are on the board then and over all that are not listed. */
export function unharmedOf({ settings, targets }: CheckedInput, built: Built, order: Order, walk: Walk): number {
  let unharmed = 1
  for (const [at, pass] of order.passes.entries()) {
    unharmed *= built.details.get(pass)?.soundElsewhere ?? 1
    for (const [index, { part }] of targets.entries()) {
      const state = walk.statesBefore[at]?.[index]
      const money = state === ON ? pass.harmOn[index] : state === REFITTED ? pass.harmRefitted[index] : 0
      unharmed *= 1 - (money ?? 0) / priceAtRisk(part, settings)
    }
  }
  return unharmed
}
