/** Minutes and money of work on one part: handling, cleaning, reballing, replacing, and all of it from lift to inspection. */
import { ballsOf, type PartKind, packageOutlines, partKinds, type PlacedPart } from '../../board/index.ts'
import type { PriceBook } from './book.ts'

export interface BallSet {
  readonly count: number
  readonly diameterMm: number
  readonly pitchMm: number
}

/** The balls of a part by its package outline; undefined where it names none. */
export function ballSetOf(part: PlacedPart): BallSet | undefined {
  const outline = packageOutlines.get(part.description.package ?? '')
  if (outline === undefined || outline.joints !== 'balls') return undefined
  const pitchMm = Math.min(outline.grid.pitchXMm, outline.grid.pitchYMm)
  return { count: ballsOf(outline).length, diameterMm: outline.ballDiameterMm, pitchMm }
}

/** Price of a new one in the shop's currency: the board file's, else the book's for its kind. */
export function priceOf(part: PlacedPart, { money }: Pick<PriceBook, 'money'>): number {
  if (part.description.price !== undefined) return part.description.price
  return money[PRICE_OF[part.kind]]
}

const PRICE_OF = {
  core: 'priceCore',
  memory: 'priceMemory',
  'power-stage': 'pricePowerStage',
  controller: 'priceOther',
  connector: 'priceOther',
  inductor: 'priceOther',
  other: 'priceOther',
  capacitor: 'priceOther',
} as const satisfies Record<PartKind, keyof PriceBook['money']>

/** How many times the stated minutes work on this part takes in this shop. */
export const paceOf = ({ kind }: PlacedPart, { pace }: Pick<PriceBook, 'pace'>): number =>
  pace[partKinds[kind].workedAs]

/** At each pass, beside the heating itself: the slowest part, and a little for each further one under the same nozzle. */
export function handlingMinutes(parts: readonly PlacedPart[], book: Pick<PriceBook, 'minutes' | 'pace'>): number {
  const { minutes } = book
  const each = parts.map((part) => {
    const handle = { core: minutes.handleCore, memory: minutes.handleMemory, other: minutes.handleOther }
    return handle[partKinds[part.kind].workedAs] * paceOf(part, book)
  })
  return Math.max(...each) + (parts.length - 1) * minutes.handleEachMore
}

/** Whether anything but solder holds it: glue at its corners, edge bond or underfill. */
export const isBonded = (part: PlacedPart): boolean => part.description.bonding !== 'none'

/** Minutes for removing bonds, by what holds each part and whatever its size. */
export const bondMinutes = (parts: readonly PlacedPart[], { minutes }: Pick<PriceBook, 'minutes'>): number => {
  const each = {
    none: 0,
    corner: minutes.removeCornerGlue,
    edge: minutes.removeBond,
    underfill: minutes.removeUnderfill,
  }
  return parts.reduce((sum, { description }) => sum + each[description.bonding], 0)
}

/** Wicking and washing the site of a part that is off, where nothing out of the ordinary lay there. */
export function siteMinutes(part: PlacedPart, book: Pick<PriceBook, 'minutes' | 'pace'>): number {
  const areaCm2 = (part.widthMm * part.lengthMm) / 100
  return (book.minutes.cleanSite + book.minutes.cleanPerCm2 * areaCm2) * paceOf(part, book)
}

/** Minutes for one part, by its ball count and the shop's pace; without a ball grid the fixed share alone. */
export function reballMinutes(part: PlacedPart, book: Pick<PriceBook, 'minutes' | 'pace'>): number {
  const { reball, reballPerHundredBalls } = book.minutes
  return (reball + (reballPerHundredBalls * (ballSetOf(part)?.count ?? 0)) / 100) * paceOf(part, book)
}

/** Money for balls, by their count; for paste where the part has no ball grid. */
export function reballMaterials(part: PlacedPart, { materials }: Pick<PriceBook, 'materials'>): number {
  const balls = ballSetOf(part)
  return balls === undefined ? materials.pastePerPart : (materials.ballsPerThousand * balls.count) / 1000
}

/** What bench time costs at the shop's hourly rate. */
export const minutesToMoney = (minutes: number, { money }: Pick<PriceBook, 'money'>): number =>
  (minutes * money.hourlyRate) / 60

export interface Work {
  readonly minutes: number
  /** Minutes at the shop's rate, and materials; a new part's price apart. */
  readonly money: number
}

const worked = (minutes: number, materials: number, book: PriceBook): Work => ({
  minutes,
  money: minutesToMoney(minutes, book) + materials,
})

/** Taking a part off. */
export function liftWork(part: PlacedPart, book: PriceBook): Work {
  const { minutes, materials } = book
  const pass = minutes.heatUp + handlingMinutes([part], book) + bondMinutes([part], book)
  const bond = isBonded(part) ? materials.bondRemoverPerPart : 0
  return worked(pass, materials.fluxPerPass + bond, book)
}

/** Cleaning its site, putting it or a new one back, looking the joints over. */
export function refitWork(part: PlacedPart, action: 'reball' | 'replace', book: PriceBook): Work {
  const { minutes, materials } = book
  const ready = action === 'reball' ? reballMinutes(part, book) : minutes.replace
  const pass = minutes.heatUp + handlingMinutes([part], book)
  const site = materials.solventPerSite + materials.wickPerSite + materials.fluxPerPass
  const balls = action === 'reball' ? reballMaterials(part, book) : 0
  return worked(siteMinutes(part, book) + ready + pass + minutes.inspect, site + balls, book)
}
