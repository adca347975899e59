/** The one price book: rates, prices, minutes and materials, which suspects, plan and record all reckon with. */
import { z } from 'zod'
import { merged, sayData } from '../../base/index.ts'
import shipped from './price-book.json' with { type: 'json' }

const money = z.number().min(0).max(1e6)
const minutes = z.number().min(0).max(1e4)
const factor = z.number().min(0).max(1e6)

/** Sections of the book: what a case may change of them is any part. */
export const bookSections = {
  money: z.strictObject({
    hourlyRate: money,
    valueIfRepaired: money,
    valueAsIs: money,
    valueIfFailed: money,
    priceCore: money,
    priceMemory: money,
    pricePowerStage: money,
    priceOther: money,
    minutesPerComeback: minutes,
    comebackGoodwill: money,
  }),
  minutes: z.strictObject({
    prepare: minutes,
    handleCore: minutes,
    handleMemory: minutes,
    handleOther: minutes,
    handleEachMore: minutes,
    heatUp: minutes,
    removeCornerGlue: minutes,
    removeBond: minutes,
    removeUnderfill: minutes,
    turnOver: minutes,
    cleanSite: minutes,
    cleanPerCm2: minutes,
    cleanCorroded: minutes,
    mendPad: minutes,
    reball: minutes,
    reballPerHundredBalls: minutes,
    replace: minutes,
    inspect: minutes,
    bakeAttention: minutes,
    wash: minutes,
    takeUpMetal: minutes,
    run: minutes,
    repairAround: minutes,
    findShort: minutes,
  }),
  materials: z.strictObject({
    ballsPerThousand: money,
    fluxPerPass: money,
    solventPerSite: money,
    wickPerSite: money,
    tapePerShield: money,
    bondRemoverPerPart: money,
    pastePerPart: money,
  }),
  pace: z.strictObject({ core: factor, memory: factor, other: factor }),
} as const

export interface PriceBook {
  /** In the shop's currency. */
  readonly money: z.infer<typeof bookSections.money>
  readonly minutes: z.infer<typeof bookSections.minutes>
  readonly materials: z.infer<typeof bookSections.materials>
  /** How many times the stated minutes work on a core, a memory package, a smaller part takes in this shop. */
  readonly pace: z.infer<typeof bookSections.pace>
}

/** Only the figures that differ from the shipped ones; the pace follows from what a lift takes in this shop. */
export const priceBookSchema = z.strictObject({
  money: bookSections.money.partial().optional(),
  minutes: bookSections.minutes.partial().optional(),
  materials: bookSections.materials.partial().optional(),
})
export type PriceBookInput = z.infer<typeof priceBookSchema>

const entrySchema = z.strictObject({ value: z.number(), reason: z.string().min(1), source: z.string().min(1) })

/** The shipped figures with the reason and the source of each, for people to read: section, name, entry. */
export const shippedPriceBook = z.record(z.string(), z.record(z.string(), entrySchema)).parse(sayData(shipped))

export const defaultPriceBook: PriceBook = z
  .strictObject(bookSections)
  .parse(
    Object.fromEntries(
      Object.entries(shippedPriceBook).map(([section, entries]) => [
        section,
        Object.fromEntries(Object.entries(entries).map(([name, { value }]) => [name, value])),
      ]),
    ),
  )

/** The shipped book at this pace, with those figures replaced that `over` names. */
export const priceBookAt = (pace: PriceBook['pace'], over: PriceBookInput = {}): PriceBook => ({
  money: merged(defaultPriceBook.money, over.money),
  minutes: merged(defaultPriceBook.minutes, over.minutes),
  materials: merged(defaultPriceBook.materials, over.materials),
  pace,
})
