/** The chance that no part is spoiled in passing by any pass of an order, by the same chances as harm in money. */
import type { Built } from './build.ts'
import { harmChanceOf, heatCountOf } from './harm.ts'
import type { CheckedInput } from './input.ts'
import { LIFTED, type Order } from './problem.ts'
import type { Walk } from './walk.ts'

/** Π over passes and over the parts that are on the board then, those of the pass left out, of 1 − chance. */
export function unharmedOf({ input, settings, targets }: CheckedInput, built: Built, order: Order, walk: Walk): number {
  const indexByRef = new Map(targets.map(({ ref }, index) => [ref, index]))
  let unharmed = 1
  for (const [at, pass] of order.passes.entries()) {
    const exposure = built.details.get(pass)?.exposure
    const states = walk.statesBefore[at]
    for (const heat of exposure?.neighbours ?? []) {
      const part = input.model.partByRef.get(heat.ref)
      const index = indexByRef.get(heat.ref) ?? -1
      if (part === undefined || exposure === undefined || input.begun?.leftOff.has(heat.ref) === true) continue
      if (pass.members.includes(index) || states?.[index] === LIFTED) continue
      const count = heatCountOf(part, input.heatCounts, settings)
      unharmed *= 1 - harmChanceOf(part, heat, exposure.setting.side, count, settings)
    }
  }
  return unharmed
}
