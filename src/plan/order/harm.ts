/** What heating a part in passing is likely to cost: its price times the chance that it is spoiled. */
import { partKinds, type PlacedPart, type Side } from '../../board/index.ts'
import type { PartHeat } from '../../heat/index.ts'
import { priceOf } from '../../suspects/index.ts'
import type { ShopSettings } from '../settings.ts'

/** A part that is on the board while something else is heated. */
export interface Passing {
  readonly part: PlacedPart
  readonly heat: PartHeat
  /** The side that the air acts on. */
  readonly side: Side
  /** Melts so far, taken at the start of the plan so that harm adds up over passes in any order. */
  readonly heatCount: number
}

/**
 * Chance that the pass spoils it; it never falls when the part gets hotter.
 * Chance = [no chip part] · near · clamp((joint − limit) / span) + [melts] · melt · (1 + growth · heat count)
 * + over · (body − body limit) / full, each from the settings; at most 1. A body's class (J-STD-020) is one of packages: a
 * chip part is harmed by its melt alone. The chance of a melt is that of `meltChance`.
 */
export function harmChanceOf({ part, heat, side, heatCount }: Passing, settings: ShopSettings): number {
  const { exposure } = settings
  const limitC = neighbourLimitC(part, settings)
  const near = isChip(part) ? 0 : Math.min(1, Math.max(0, (heat.jointPeakC - limitC) / exposure.nearSpanK))
  const melt = heat.melts ? meltChance(part, side, settings) * (1 + exposure.perHeatCount * heatCount) : 0
  const overK = Math.max(0, heat.bodyPeakC - heat.bodyLimitC)
  const over = heat.overLimit && !isChip(part) ? exposure.overLimitRisk * (1 + overK / exposure.overLimitFullK) : 0
  return Math.min(1, exposure.nearRisk * near + melt + over)
}

/** What spoiling it costs at least: finding it and changing it, whatever it costs itself. */
export const priceAtRisk = (part: PlacedPart, settings: ShopSettings): number =>
  Math.max(settings.exposure.leastPrice, priceOf(part, settings))

/** Expected harm in money: that chance times that price. */
export const harmOf = (passing: Passing, settings: ShopSettings): number =>
  harmChanceOf(passing, settings) * priceAtRisk(passing.part, settings)

/** A part so light that its molten joints hold it. */
export const isChip = (part: PlacedPart): boolean => partKinds[part.kind].heldByJoints

/** Chip parts stay where they are when they melt; others may shift, and fall from the side away from the pass. */
function meltChance(part: PlacedPart, passSide: Side, { exposure }: ShopSettings): number {
  if (isChip(part)) return exposure.chipMeltRisk
  return part.side === passSide ? exposure.meltRisk : exposure.meltRisk * exposure.hangingFactor
}

/** What the joints of a neighbour should stay below, °C. */
export function neighbourLimitC(part: PlacedPart, { exposure }: ShopSettings): number {
  const alloy = part.description.jointAlloy ?? ''
  if (alloy.includes('Bi')) return exposure.neighbourBismuthC
  return alloy.includes('Pb') ? exposure.neighbourLeadC : exposure.neighbourC
}

/**
 * How often the part's joints have been molten so far: what the case counted, else the board file, else the shop's
 * figure for an unknown count.
 */
export const heatCountOf = (
  part: PlacedPart,
  counts: ReadonlyMap<string, number> | undefined,
  { heat }: ShopSettings,
): number => counts?.get(part.ref) ?? part.description.heatCount ?? heat.unknownHeatCount
