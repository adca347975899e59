/** The case file: everything about one card on one visit, as JSON. The zod schema is the one source of its types. */
import { z } from 'zod'
import { boardSchema } from '../board/index.ts'
import { equipmentSchema } from '../heat/index.ts'
import { passLogSchema, shopSettingsSchema } from '../plan/index.ts'
import { recipeSchema, tableRowSchema } from '../report/index.ts'
import { markSchema, substanceSchema } from '../spill/index.ts'
import { assumptionsSchema } from '../suspects/index.ts'

const ref = z.string().min(1).max(120)

const pathOrInline = {
  path: z.string().min(1).max(1000).describe('relative to the case file'),
}

export const reportEntrySchema = z.strictObject({
  name: z.string().min(1).max(200),
  path: pathOrInline.path.optional(),
  text: z.string().max(20_000_000).optional().describe('the report itself, carried inside'),
  table: z.array(tableRowSchema).max(100_000).optional().describe('entered by hand'),
  recipe: recipeSchema.optional().describe('guessed where left out'),
})
export type ReportEntry = z.infer<typeof reportEntrySchema>

export const caseSchema = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal('liftmap-case'),
  version: z.literal(1),
  title: z.string().min(1).max(200),
  card: z.string().max(120).optional().describe('the shop’s own number for the card'),
  demo: z.boolean().default(false),
  board: z.union([z.strictObject(pathOrInline), z.strictObject({ inline: boardSchema })]),
  arrival: z
    .strictObject({
      accident: z.enum(['spill', 'flux', 'slip', 'none', 'unknown']).default('unknown'),
      account: z.string().max(4000).default('').describe('what the owner says happened'),
      mounted: z.enum(['flat', 'upright', 'unknown']).default('unknown'),
      poweredSince: z.enum(['yes', 'no', 'unknown']).default('unknown'),
    })
    .default({ accident: 'unknown', account: '', mounted: 'unknown', poweredSince: 'unknown' }),
  reports: z.array(reportEntrySchema).max(50).default([]),
  marks: z.array(markSchema).max(2000).default([]),
  substances: z.array(substanceSchema).max(100).default([]).describe('added by the user'),
  equipment: equipmentSchema.optional().describe('what the preheater and the hot-air station can do'),
  shop: shopSettingsSchema.optional().describe('prices and minutes that differ from the shipped ones'),
  passes: passLogSchema.default([]).describe('what was done at the bench, in order'),
  floorLife: z
    .array(z.strictObject({ ref, state: z.enum(['within', 'over by at most 72 h', 'over by more or unknown']) }))
    .max(1000)
    .default([])
    .describe('parts that have been out of the dry bag'),
  shields: z
    .array(z.strictObject({ target: ref, ref, kind: z.enum(['tape', 'heat-sink']) }))
    .max(1000)
    .default([])
    .describe('what the user covers while a target is heated'),
  assumptions: assumptionsSchema.optional().describe('priors and costs that differ from the shipped ones'),
})
export type Case = z.infer<typeof caseSchema>
