/** Minutes and money of the work around the passes that depend on what was found; all else stands in the price book. */
import type { PlacedPart } from '../board/index.ts'
import { minutesToMoney, priceOf, reballMaterials, reballMinutes, siteMinutes } from '../suspects/index.ts'
import type { Begun } from './input.ts'
import type { ShopSettings } from './settings.ts'

/** What was found under a part decides how much more there is to do at its site. */
export function cleaningMinutes(part: PlacedPart, begun: Begun | undefined, settings: ShopSettings): number {
  const { minutes } = settings
  const corrosion = begun?.corroded.has(part.ref) === true ? minutes.cleanCorroded : 0
  const pads = (begun?.tornPads ?? []).filter((ref) => ref === part.ref).length * minutes.mendPad
  const metal = begun?.metal.has(part.ref) === true ? minutes.takeUpMetal : 0
  return siteMinutes(part, settings) + corrosion + pads + metal
}

/** Money for making the part itself ready again. */
export const reuseMoney = (part: PlacedPart, settings: ShopSettings): number =>
  minutesToMoney(reballMinutes(part, settings), settings) + reballMaterials(part, settings)

/** Money for a new part in place of the old one: its price and the minutes to get it ready. */
export const replaceMoney = (part: PlacedPart, settings: ShopSettings): number =>
  minutesToMoney(settings.minutes.replace, settings) + priceOf(part, settings)
