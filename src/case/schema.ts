/** The case file: everything about one card on one visit, as JSON. The zod schema is the one source of its types. */
import { z } from 'zod'
import { say } from '../base/index.ts'
import { boardSchema, pointSchema, sideSchema } from '../board/index.ts'
import { equipmentSchema } from '../heat/index.ts'
import {
  atLimitSchema,
  goodReadingsSchema,
  leadsSchema,
  measurementSchema,
  powerUpSchema,
  shortHuntSchema,
  supplySchema,
} from '../measure/index.ts'
import { benchMachineSchema } from './bench-machine.ts'
import { binSchema } from './bins.ts'
import { padRepairSchema } from './pad-repairs.ts'
import { followUpsSchema } from './follow-up.ts'
import { intakeSchema } from './intake.ts'
import { invoiceSchema } from './invoice/schema.ts'
import { CASE_VERSION } from './migrate.ts'
import { quoteSchema } from './quote/schema.ts'
import { benchTicksSchema, passLogSchema, plannedRowSchema, shopSettingsSchema } from '../plan/index.ts'
import { causesFoundSchema, foretoldSchema } from '../rehearsal/index.ts'
import { readOutcomeSchema, recipeSchema, tableRowSchema } from '../report/index.ts'
import { markSchema, mountingSchema, substanceSchema } from '../spill/index.ts'
import { assumptionsSchema, checkAnswerSchema } from '../suspects/index.ts'

const ref = z.string().min(1).max(120)

const pathOrInline = {
  path: z.string().min(1).max(1000).describe('relative to the case file'),
}

export const reportEntrySchema = z.strictObject({
  id: z.string().min(1).max(240).optional().describe('by which it is found; given on reading where left out'),
  name: z.string().min(1).max(200),
  path: pathOrInline.path.optional(),
  text: z.string().max(20_000_000).optional().describe('the report itself, carried inside'),
  table: z.array(tableRowSchema).max(100_000).optional().describe('entered by hand'),
  recipe: recipeSchema.optional().describe('guessed where left out'),
  read: readOutcomeSchema.optional(),
  run: z.enum(['first', 'retest']).default('first').describe('of the card as it came, or after the work'),
  testPasses: z.int().min(0).max(1_000_000).optional().describe('complete runs over the memory that it stands for'),
  coversAll: z.boolean().default(false).describe('the test went over the whole memory: what it does not list passed'),
  afterPasses: z.int().min(0).max(1000).optional().describe('so many passes were on the log when it was run'),
  overtaken: z.boolean().optional().describe('work went on after this run: kept for the record, not counted'),
})
export type ReportEntry = z.infer<typeof reportEntrySchema> & { id: string }
/** As it is written: what has a default may be left out. */
export type ReportDraft = z.input<typeof reportEntrySchema>

/** Every report with an id: its own; else its run and name, which stay the same through all steps of an older case. */
function withOwnIds(reports: readonly z.infer<typeof reportEntrySchema>[]): ReportEntry[] {
  const taken = new Set(reports.map(({ id }) => id))
  return reports.map(({ id, ...report }) => {
    if (id !== undefined) return { id, ...report }
    const plain = `${report.run} ${report.name}`
    let own = plain
    for (let n = 2; taken.has(own); n++) own = `${plain} ${n}`
    taken.add(own)
    return { id: own, ...report }
  })
}

const day = z.iso.date()

/** A photo of the board; its bytes are kept apart, under its id. */
export const photoSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9-]{1,80}$/, say('small letters, digits and hyphens')),
  name: z.string().min(1).max(200),
  type: z.enum(['image/jpeg', 'image/png', 'image/webp']),
  bytes: z.int().positive().max(200_000_000),
  widthPx: z.int().positive().max(100_000),
  heightPx: z.int().positive().max(100_000),
  side: sideSchema,
  corners: z
    .array(
      z.strictObject({ px: pointSchema.describe('in the photo, y down'), at: pointSchema.describe('on the board') }),
    )
    .length(4)
    .optional()
    .describe('matched to the board by these; left out until it is'),
  shownPct: z.number().min(0).max(100).default(60).describe('how strongly it shows under the drawing'),
  phase: z.enum(['before', 'after']).default('before'),
  atIntake: z.boolean().optional().describe('taken when the card was handed in'),
  note: z.string().max(2000).optional(),
})
export type Photo = z.infer<typeof photoSchema>

export const outcomes = ['repaired', 'partly repaired', 'not repaired', 'not worth repairing'] as const

export const handBackSchema = z.strictObject({
  on: day.optional(),
  outcome: z.enum(outcomes).optional(),
  done: z.string().max(8000).default('').describe('in the technician’s words'),
  minutes: z.number().nonnegative().max(1_000_000).optional(),
  usedParts: z
    .array(
      z.strictObject({
        what: z.string().min(1).max(200),
        count: z.number().positive(),
        price: z.number().nonnegative(),
        stock: z
          .strictObject({ line: z.string().min(1).max(80), count: z.int().positive() })
          .optional()
          .describe('pieces of a line of the shop’s stock that were used for it'),
      }),
    )
    .max(500)
    .default([]),
  charged: z.number().nonnegative().optional().describe('in the shop’s currency'),
  currency: z.string().max(12).default(''),
  advice: z.string().max(8000).default('').describe('to the owner'),
  causes: causesFoundSchema.optional().describe('what was wrong, for the shop’s own record'),
})
export type HandBack = z.infer<typeof handBackSchema>

export const caseSchema = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal('liftmap-case'),
  version: z.literal(CASE_VERSION),
  title: z.string().min(1).max(200),
  card: z.string().max(120).optional().describe('the shop’s own number for the card'),
  demo: z.boolean().default(false),
  board: z.union([z.strictObject(pathOrInline), z.strictObject({ inline: boardSchema })]),
  arrival: z
    .strictObject({
      on: day.optional().describe('the day it came'),
      owner: z.string().max(400).default(''),
      seen: z.string().max(2000).default('').describe('what the card does and does not do'),
      accident: z.enum(['spill', 'flux', 'slip', 'none', 'unknown']).default('unknown'),
      account: z.string().max(4000).default('').describe('what the owner says happened'),
      mounted: z.enum([...mountingSchema.options, 'unknown']).default('unknown'),
      poweredSince: z.enum(['yes', 'no', 'unknown']).default('unknown'),
    })
    .prefault({}),
  intake: intakeSchema.optional().describe('what the intake desk took down, the owner’s contact too'),
  measurements: z
    .array(measurementSchema)
    .max(5000)
    .default([])
    .describe('the last reading of a line is the one that counts'),
  leads: leadsSchema.optional(),
  supplies: z.array(supplySchema).max(40).default([]).describe('that are read apart from their rail'),
  shorts: z.array(shortHuntSchema).max(50).default([]),
  powerUps: z.array(powerUpSchema).max(1000).default([]),
  cleaned: z
    .strictObject({
      at: z.iso.datetime().optional(),
      marks: z.array(z.string().min(1).max(80)).max(2000).describe('ids of the marks that it took care of'),
      note: z.string().max(2000).default('').describe('with what, and how it was dried'),
    })
    .optional()
    .describe('the board was cleaned and dried; a mark made since counts again'),
  powered: z
    .strictObject({
      enumerates: z.enum(['yes', 'no', 'unknown']).default('unknown').describe('the host sees the card'),
      picture: z.enum(['yes', 'no', 'disturbed', 'unknown']).default('unknown'),
      otherOutput: z.enum(['yes', 'no', 'unknown']).default('unknown').describe('booted from another display output'),
      state: z.enum(['idle', 'load', 'unknown']).default('unknown').describe('of the voltages that are entered next'),
      limitA: z.number().positive().max(200).optional().describe('current limit of the bench supply'),
      atLimit: atLimitSchema.default('unknown').describe('whether the supply ran into its limit'),
      inputCurrentA: z.number().nonnegative().max(200).optional().describe('on the limited supply'),
      note: z.string().max(4000).default(''),
    })
    .prefault({}),
  goodCard: z.boolean().default(false).describe('a card known to be good, measured for its figures'),
  goodReadings: z.array(goodReadingsSchema).max(5000).default([]).describe('of the shop’s good cards, as last known'),
  photos: z.array(photoSchema).max(500).default([]),
  checks: z.array(checkAnswerSchema).max(1000).default([]).describe('checks that were done, and what they found'),
  bins: z.array(binSchema).max(1000).optional().describe('where lifted parts lie'),
  padRepairs: z.array(padRepairSchema).max(1000).optional().describe('torn pads, cut tracks, vias'),
  benchMachine: benchMachineSchema
    .optional()
    .describe('link, outputs, fans, temperatures, cooler, firmware, soak tests'),
  proofNote: z.string().max(4000).default('').describe('how it was tested: temperature, hours, load'),
  handBack: handBackSchema.prefault({}),
  quote: quoteSchema.optional().describe('as it was given and answered, with the limit that was agreed'),
  invoice: invoiceSchema.optional().describe('as it was written'),
  followUps: followUpsSchema.optional().describe('what the owner said weeks after the card went back'),
  reports: z.array(reportEntrySchema).max(50).default([]).transform(withOwnIds),
  marks: z.array(markSchema).max(2000).default([]),
  substances: z.array(substanceSchema).max(100).default([]).describe('added by the user'),
  equipment: equipmentSchema.optional().describe('what the preheater and the hot-air station can do'),
  shop: shopSettingsSchema.optional().describe('prices and minutes that differ from the shipped ones'),
  passes: passLogSchema.default([]).describe('what was done at the bench, in order'),
  planned: z
    .array(plannedRowSchema)
    .max(1000)
    .optional()
    .describe('steps of the plan with their numbers, as they stood when something was last noted'),
  ticks: benchTicksSchema.default([]).describe('washing, cleaning and the like that were ticked off, in order'),
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
  ownRecord: z
    .strictObject({
      cards: z.int().min(0).max(1_000_000_000).describe('that they were learnt from'),
      boardAlone: z.boolean().describe('from cards of this board alone'),
      figures: assumptionsSchema,
    })
    .optional()
    .describe('figures of the shop’s own record, as last known, where it is used; the case’s own come before them'),
  foretold: foretoldSchema.optional().describe('what was said when the lift list was acted on'),
})
export type Case = z.infer<typeof caseSchema>
