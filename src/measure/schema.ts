/** What is measured on a card and kept in its case: readings at rails and stages, power given, a hunt for a short. */
import { say } from '../base/index.ts'
import { z } from 'zod'
import { pointSchema, sideSchema } from '../board/index.ts'

const name = z.string().min(1).max(120)
const instant = z.iso.datetime().describe('when, in UTC')

export const phaseSchema = z.enum(['before', 'after']).describe('before the work on the card or after it')
export type Phase = z.infer<typeof phaseSchema>

export const stagePointSchema = z
  .enum(['input', 'switch', 'driver', 'enable', 'pwm'])
  .describe('of a stage: input to switch node, switch node to ground, its driver’s supply, its enable pin, its PWM pin')
export type StagePoint = z.infer<typeof stagePointSchema>

/** A line of the measuring sheet: a rail of the board, a supply of an input rail, or a point of a power stage. */
export const lineSchema = z.strictObject({
  kind: z.enum(['rail', 'supply', 'stage']),
  name: name.describe('name of the rail or the supply, or ref of the stage'),
  point: stagePointSchema
    .optional()
    .describe('of a stage; left out in older readings at its inductor, which are kept and not counted'),
})
export type LineName = z.infer<typeof lineSchema>

/** A supply that the user reads apart from its rail: the slot, a connector, before a fuse. */
export const supplySchema = z.strictObject({
  name: name.describe('such as slot 12 V'),
  rail: name.describe('the input rail that it goes to'),
  joined: z.boolean().default(true).describe('a fuse joins it to the rail, so that both read alike'),
})
export type Supply = z.infer<typeof supplySchema>

export const quantitySchema = z
  .enum(['ohms', 'diode', 'volts'])
  .describe('cold resistance to ground, cold diode mode with red on ground, or voltage under power')
export type Quantity = z.infer<typeof quantitySchema>

export const readingSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('value'),
    value: z.number().describe('ohms, or volts under power and in diode mode'),
  }),
  z.strictObject({ kind: z.literal('open').describe('beyond the range of the meter') }),
  z.strictObject({ kind: z.literal('short').describe('said to be a short without a figure') }),
])
export type Reading = z.infer<typeof readingSchema>

export const poweredStateSchema = z.enum(['idle', 'load']).describe('what the card does under power')
export type PoweredState = z.infer<typeof poweredStateSchema>

export const measurementSchema = z.strictObject({
  line: lineSchema,
  quantity: quantitySchema,
  phase: phaseSchema.default('before'),
  reading: readingSchema,
  state: poweredStateSchema.optional().describe('of a voltage: what the card did meanwhile'),
  typed: z.string().max(80).describe('as it was entered'),
  meter: z.string().max(200).optional().describe('what the bench meter called itself, where it filled the field'),
  at: instant.optional(),
})
export type Measurement = z.infer<typeof measurementSchema>

/** Whether the bench supply ran into its current limit. */
export const atLimitSchema = z.enum(['never', 'for a moment', 'stays', 'unknown'])
export type AtLimit = z.infer<typeof atLimitSchema>

export const powerVerdictSchema = z.enum(['safe', 'not-safe', 'not-known'])

export const leadsSchema = z.strictObject({
  kind: z
    .enum(['two-wire', 'zeroed', 'four-wire'])
    .describe('two wires as they are, with the meter set to zero on touching probes, or four wires'),
  ohm: z.number().min(0).max(10).optional().describe('what two touching probes read; taken off every cold reading'),
})
/** How the leads count in a cold reading. */
export type Leads = z.infer<typeof leadsSchema>

/** Somebody gave the card power: what the verdict was then, and why it was done against it. */
export const powerUpSchema = z
  .strictObject({
    at: instant.optional(),
    verdict: powerVerdictSchema,
    reasons: z.array(z.string().max(500)).max(200).describe('of the verdict, as they stood then'),
    keys: z.array(z.string().max(500)).max(200).optional().describe('of the reasons, alike in every language'),
    against: z.string().trim().min(1).max(2000).optional().describe('why power was given against the verdict'),
  })
  .refine((power) => power.verdict === 'safe' || power.against !== undefined, {
    message: say('a typed reason where power was given against the verdict'),
    path: ['against'],
  })
export type PowerUp = z.infer<typeof powerUpSchema>

export const probeReadingSchema = z.strictObject({
  at: pointSchema,
  millivolt: z.number().min(-100_000).max(100_000),
})

/** A known current goes into a shorted rail at one point; millivolts are read at others. */
export const shortHuntSchema = z.strictObject({
  id: name,
  rail: name,
  side: sideSchema,
  currentA: z.number().positive().max(100),
  sourceAt: pointSchema.describe('where the current goes in'),
  readings: z.array(probeReadingSchema).max(500).default([]),
  noiseMillivolt: z.number().positive().max(1000).default(0.02).describe('standard deviation of one reading'),
  sheetMilliohm: z.number().positive().max(1000).optional().describe('of the copper, per square; else from its weight'),
})
export type ShortHunt = z.infer<typeof shortHuntSchema>

/** Resistances of one line on the shop's own good cards of a board. */
export const goodReadingsSchema = z.strictObject({
  line: lineSchema,
  quantity: quantitySchema,
  values: z.array(z.number().nonnegative()).min(1).max(1000).describe('one value a card'),
})
export type GoodReadings = z.infer<typeof goodReadingsSchema>
