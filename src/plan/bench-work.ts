/** Minutes and materials of the work around the passes, per part: handling, cleaning, reballing, replacing. */
import { ballsOf, type PlacedPart, packageOutlines } from '../board/index.ts'
import { priceOf } from './harm.ts'
import type { Begun } from './input.ts'
import type { ShopSettings } from './settings.ts'

export interface BallSet {
  readonly count: number
  readonly diameterMm: number
  readonly pitchMm: number
}

/** The balls of a part by its package outline; undefined where it names none. */
export function ballSetOf(part: PlacedPart): BallSet | undefined {
  const outline = packageOutlines.get(part.description.package ?? '')
  if (outline === undefined) return undefined
  const pitchMm = Math.min(outline.grid.pitchXMm, outline.grid.pitchYMm)
  return { count: ballsOf(outline).length, diameterMm: outline.ballDiameterMm, pitchMm }
}

/** At each pass, beside the heating itself: the slowest part, and a little for each further one under the same nozzle. */
export function handlingMinutes(parts: readonly PlacedPart[], { minutes }: ShopSettings): number {
  const slowest = Math.max(
    ...parts.map(({ kind }) => {
      if (kind === 'core') return minutes.handleCore
      return kind === 'memory' ? minutes.handleMemory : minutes.handleOther
    }),
  )
  return slowest + (parts.length - 1) * minutes.handleEachMore
}

export const bondMinutes = (parts: readonly PlacedPart[], { minutes }: ShopSettings): number =>
  parts.filter(isBonded).length * minutes.removeBond

export const isBonded = (part: PlacedPart): boolean => part.description.bonding !== 'none'

/** What was found under a part decides how much more there is to do at its site. */
export function cleaningMinutes(part: PlacedPart, begun: Begun | undefined, { minutes }: ShopSettings): number {
  const areaCm2 = (part.widthMm * part.lengthMm) / 100
  const corrosion = begun?.corroded.has(part.ref) === true ? minutes.cleanCorroded : 0
  const pads = begun?.tornPads.includes(part.ref) === true ? minutes.mendPad : 0
  const metal = begun?.metal.has(part.ref) === true ? minutes.takeUpMetal : 0
  return minutes.cleanSite + minutes.cleanPerCm2 * areaCm2 + corrosion + pads + metal
}

export const reballMinutes = (part: PlacedPart, { minutes }: ShopSettings): number =>
  minutes.reball + (minutes.reballPerHundredBalls * (ballSetOf(part)?.count ?? 0)) / 100

export function reballMaterials(part: PlacedPart, { materials }: ShopSettings): number {
  const balls = ballSetOf(part)
  return balls === undefined ? materials.pastePerPart : (materials.ballsPerThousand * balls.count) / 1000
}

const perMinute = ({ money }: ShopSettings): number => money.hourlyRate / 60

/** Money for making the part itself ready again. */
export const reuseMoney = (part: PlacedPart, settings: ShopSettings): number =>
  reballMinutes(part, settings) * perMinute(settings) + reballMaterials(part, settings)

export const replaceMoney = (part: PlacedPart, settings: ShopSettings): number =>
  settings.minutes.replace * perMinute(settings) + priceOf(part, settings)

export const minutesToMoney = (minutes: number, settings: ShopSettings): number => minutes * perMinute(settings)
