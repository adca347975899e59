/** The quote for the work on a card: what was told the owner, and what the owner answered. Amounts are with tax. */
import { z } from 'zod'
import { isoDay } from '../day.ts'
import { letterheadSchema, percentage } from '../shop-details.ts'

const amount = z.number().nonnegative().max(1e7)
const days = z.int().min(0).max(3650)

export const quoteAnswers = ['open', 'agreed', 'declined'] as const
export const answeredHow = ['in person', 'by phone', 'by message', 'in writing'] as const

export const quoteSchema = z.strictObject({
  on: isoDay.describe('the day it was given'),
  low: amount,
  expected: amount,
  high: amount,
  daysLow: days,
  daysHigh: days,
  works: z.number().min(0).max(1).optional().describe('that the card works in the end'),
  taxPct: percentage.default(0).describe('that the amounts hold'),
  validUntil: isoDay.optional(),
  ifWorse: z.string().max(2000).default('').describe('what happens if it turns out worse'),
  letterhead: letterheadSchema.optional(),
  answer: z.enum(quoteAnswers).default('open'),
  limit: amount.optional().describe('the most that the owner agreed to pay'),
  answeredOn: isoDay.optional(),
  answeredBy: z.string().max(200).default(''),
  how: z.enum(answeredHow).optional(),
  pastLimit: z
    .array(z.strictObject({ limit: amount, spent: amount, on: isoDay, reason: z.string().min(1).max(1000) }))
    .max(50)
    .default([])
    .describe('why work went past the limit that stood then'),
})
export type Quote = z.infer<typeof quoteSchema>
