/** What lifting a part costs, and what a comeback costs, in the shop's currency. */
import type { BoardModel, PlacedPart } from '../../board/index.ts'
import type { Assumptions } from '../assumptions.ts'

/** Minutes at the shop's rate, materials, and the risk of losing the part (its price) or its pads. */
export function liftCost(part: PlacedPart, assumptions: Assumptions): number {
  const { cost, risk } = assumptions
  const rate = cost.hourlyRate / 60
  const price = partPrice(part, assumptions)
  if (part.kind === 'memory')
    return cost.minutesPerMemoryLift * rate + cost.materialsPerMemoryLift + risk.memoryDamage * price
  if (part.kind === 'core') return cost.minutesPerCoreLift * rate + cost.materialsPerCoreLift + risk.coreDamage * price
  return cost.minutesPerOtherLift * rate + cost.materialsPerOtherLift + risk.otherDamage * price
}

/** A new one: as the board's file says, else as its kind commonly costs. */
export function partPrice(part: PlacedPart | undefined, { cost }: Assumptions): number {
  const known = part?.description.price
  if (known !== undefined) return known
  if (part?.kind === 'core') return cost.corePrice
  return part?.kind === 'memory' ? cost.memoryPrice : cost.otherPrice
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
