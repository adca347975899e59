/** What lifting a part costs, and what a comeback costs, in the shop's currency. */
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import type { Assumptions } from '../assumptions.ts'

/** Minutes at the shop's rate, materials, and the risk of losing the part (its price) or its pads. */
export function liftCost(part: PlacedPart, assumptions: Assumptions): number {
  const { cost, risk } = assumptions
  const rate = cost.hourlyRate / 60
  const price = part.description.price
  if (part.kind === 'memory') {
    const fixed = cost.minutesPerMemoryLift * rate + cost.materialsPerMemoryLift
    return fixed + risk.memoryDamage * (price ?? cost.memoryPrice)
  }
  if (part.kind === 'core') {
    const fixed = cost.minutesPerCoreLift * rate + cost.materialsPerCoreLift
    return fixed + risk.coreDamage * (price ?? cost.corePrice)
  }
  const fixed = cost.minutesPerOtherLift * rate + cost.materialsPerOtherLift
  return fixed + risk.otherDamage * (price ?? cost.otherPrice)
}

/** One comeback, whatever was missed: the time for it and the goodwill. */
export const comebackCost = ({ cost }: Assumptions): number =>
  (cost.minutesPerComeback * cost.hourlyRate) / 60 + cost.comebackGoodwill

export function liftCosts(model: BoardModel, parts: readonly string[], assumptions: Assumptions): Float64Array {
  return Float64Array.from(parts, (ref) => {
    const part = model.partByRef.get(ref)
    return part === undefined ? 0 : liftCost(part, assumptions)
  })
}
