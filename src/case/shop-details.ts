/** A shop's own words and numbers for quotes and invoices; what stands on a page travels in the case with it. */
import { z } from 'zod'

const text = (most: number) => z.string().max(most).default('')

/** Who writes: printed at the head of a quote or an invoice. */
export const letterheadSchema = z.strictObject({
  name: text(200),
  address: text(1000).describe('in lines'),
  contact: text(400).describe('phone, mail'),
  taxNumber: text(80),
})
export type Letterhead = z.infer<typeof letterheadSchema>

export const taxRoundings = ['total', 'line'] as const

/** In per cent, to a hundredth. */
export const percentage = z.number().min(0).max(100)

export const shopDetailsSchema = z.strictObject({
  letterhead: letterheadSchema.prefault({}),
  currency: z.string().max(12).default(''),
  taxPct: percentage.default(0),
  taxRounding: z.enum(taxRoundings).default('total').describe('rounded once, or line by line'),
  hoursADay: z.number().min(0.5).max(24).default(6).describe('at the bench, of two people together'),
  partsDays: z.int().min(0).max(365).default(5).describe('until an ordered part is there'),
  quoteDays: z.int().min(1).max(365).default(14).describe('that a quote holds'),
  followUpWeeks: z.int().min(1).max(104).default(6).describe('after hand-back until the owner is asked'),
  warranty: text(4000).describe('in the shop’s own words'),
  decimalComma: z.boolean().default(false).describe('in tables for a spreadsheet'),
  lastInvoice: z
    .strictObject({ year: z.int().min(1970).max(9999), number: z.int().min(0).max(999_999) })
    .optional()
    .describe('numbers begin anew each year'),
})
export type ShopDetails = z.infer<typeof shopDetailsSchema>

/** A shop of which nothing was entered. */
export const plainShop: ShopDetails = shopDetailsSchema.parse({})

/** The number after the last one: `2026-0017` after `2026-0016`, `2026-0001` for the first of a year. */
export function nextInvoiceNumber({ lastInvoice }: Pick<ShopDetails, 'lastInvoice'>, today: string): string {
  const { year, number } = nextInvoice(lastInvoice, today)
  return `${year}-${String(number).padStart(4, '0')}`
}

/** What the last number is, once the next one is given. @param today as `YYYY-MM-DD` */
export function nextInvoice(last: ShopDetails['lastInvoice'], today: string): NonNullable<ShopDetails['lastInvoice']> {
  const year = Number(today.slice(0, 'yyyy'.length))
  return { year, number: last?.year === year ? last.number + 1 : 1 }
}
