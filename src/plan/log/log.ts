/** The log of a job at the bench: what was done at each pass and what was found. The zod schema is the one source of its types. */
import { z } from 'zod'

const ref = z.string().min(1).max(120)
const peakC = z.number().min(0).max(600)

export const foundSchema = z.enum(['clean', 'wet', 'metal', 'corroded', 'torn-pad'])
export type Found = z.infer<typeof foundSchema>

export const passEntrySchema = z.strictObject({
  action: z.enum(['lift', 'refit']),
  refs: z.array(ref).min(1).max(8),
  outcome: z.enum(['done', 'failed', 'skipped']),
  peakC: peakC.optional().describe('real peak at a joint of the target'),
  measured: z
    .array(z.strictObject({ ref, peakC }))
    .max(200)
    .default([])
    .describe('real peaks at the joints of other parts; they stand for the modelled ones'),
  found: z
    .array(z.strictObject({ ref, what: z.array(foundSchema).min(1).max(5) }))
    .max(8)
    .default([])
    .describe('what lay under each part'),
  replaced: z.boolean().default(false).describe('a new part was refitted'),
  note: z.string().max(2000).optional(),
  on: z.iso.datetime().optional().describe('when it was noted'),
})
export type PassEntry = z.infer<typeof passEntrySchema>

export const passLogSchema = z.array(passEntrySchema).max(1000)
export type PassLog = z.infer<typeof passLogSchema>

/** Bench work beside the passes that can be ticked off. */
export const benchTickSchema = z.strictObject({
  action: z.enum([
    'take-up',
    'wash',
    'dry',
    'test',
    'bake',
    'prepare',
    'unglue',
    'clean',
    'reball',
    'replace',
    'inspect',
  ]),
  refs: z.array(ref).min(1).max(200),
  outcome: z.enum(['done', 'skipped']),
  minutes: z.number().min(0).max(10_000).describe('that the plan had for it'),
  marks: z
    .array(z.string().min(1).max(80))
    .max(2000)
    .optional()
    .describe('ids of the marks that a cleaning took care of'),
  afterPasses: z.int().min(0).max(1000).describe('so many passes were on the log when it was ticked'),
  on: z.iso.datetime().optional().describe('when it was ticked'),
})
export type BenchTick = z.infer<typeof benchTickSchema>

export const benchTicksSchema = z.array(benchTickSchema).max(1000)
