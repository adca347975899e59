/** The chance that no part is spoiled in passing by any pass of an order: the chances behind the harm in money. */
import { priceAtRisk } from './harm.ts'
import type { CheckedInput } from '../input.ts'
import { ON, REFITTED } from './problem.ts'
import type { Walk } from './walk.ts'

/** Π of 1 − chance over passes, over listed parts that are on the board then and over all that are not listed. */
export function unharmedOf({ settings, targets }: CheckedInput, { passes }: Walk): number {
  let unharmed = 1
  for (const { pass, detail, states } of passes) {
    unharmed *= detail.soundElsewhere
    for (const [index, { part }] of targets.entries()) {
      const state = states[index]
      const money = state === ON ? pass.harmOn[index] : state === REFITTED ? pass.harmRefitted[index] : 0
      unharmed *= 1 - (money ?? 0) / priceAtRisk(part, settings)
    }
  }
  return unharmed
}
