/** The invoice of a case, as it was given: number, day, lines and tax. Prices are without tax. */
import { z } from 'zod'
import { isoDay } from '../day.ts'
import { letterheadSchema, percentage, taxRoundings } from '../shop-details.ts'

export const lineUnits = ['piece', 'minutes'] as const

export const invoiceLineSchema = z.strictObject({
  what: z.string().min(1).max(400),
  unit: z.enum(lineUnits).default('piece'),
  quantity: z.number().positive().max(1e6).describe('pieces, or minutes of work'),
  price: z.number().nonnegative().max(1e7).describe('of one piece, or of an hour; without tax'),
  discountPct: percentage.default(0),
})
export type InvoiceLine = z.infer<typeof invoiceLineSchema>

export const invoiceSchema = z.strictObject({
  number: z.string().min(1).max(60),
  on: isoDay,
  to: z.string().max(1000).default('').describe('who pays, in lines'),
  letterhead: letterheadSchema.prefault({}),
  lines: z.array(invoiceLineSchema).max(500),
  discountPct: percentage.default(0).describe('on all lines together'),
  taxPct: percentage.default(0),
  taxRounding: z.enum(taxRoundings).default('total'),
  warranty: z.string().max(4000).default(''),
  paidOn: isoDay.optional().describe('left out while it is open'),
})
export type Invoice = z.infer<typeof invoiceSchema>
