/** The shop's stock: what it has, where it lies, what is on order, and donors with what was taken from them. */
import { z } from 'zod'

export const stockKinds = ['core', 'memory', 'power stage', 'other part', 'material'] as const
export type StockKind = (typeof stockKinds)[number]

const words = (most: number) => z.string().max(most).default('')
const count = z.int().min(0).max(1_000_000)

export const stockItemSchema = z.strictObject({
  id: z.string().min(1).max(80),
  kind: z.enum(stockKinds),
  what: z.string().min(1).max(200).describe('value or type; of a material its name as the plan has it'),
  package: words(120),
  count,
  place: words(120).describe('where it lies'),
  price: z.number().nonnegative().max(1e6).optional().describe('of one, in the shop’s currency'),
  source: z.enum(['new', 'donor']).default('new'),
  donor: words(120).describe('number of the donor card'),
  donorRef: words(120).describe('where it sat on the donor'),
  takenOn: z.iso.date().optional(),
  ordered: count.default(0),
  expectedOn: z.iso.date().optional(),
  reserved: z
    .array(z.strictObject({ caseId: z.string().min(1), card: z.string().max(200), count: z.int().positive() }))
    .max(1000)
    .default([])
    .describe('taken for cards whose work goes on'),
  note: words(2000),
  removedOn: z.iso.date().optional().describe('it left the list, and stands only with its donor'),
})
export type StockItem = z.infer<typeof stockItemSchema>
/** As it is typed or read: what has a default may be left out. */
export type StockDraft = z.input<typeof stockItemSchema>
