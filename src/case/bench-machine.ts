/** What the bench machine shows of a card, before the work and after it: link, outputs, fans, temperatures, cooler, soak. */
import { z } from 'zod'

/**
 * Lanes of a PCI Express link, and its transfer rates in GT/s a lane for revisions 1.x to 5.0 (PCI-SIG, PCI Express Base
 * Specification, revision 5.0, 2019).
 */
export const linkWidths = [1, 2, 4, 8, 16] as const
export const linkRates = [2.5, 5, 8, 16, 32] as const

const lanes = z.union(linkWidths.map((width) => z.literal(width)))
const rate = z.union(linkRates.map((gigatransfers) => z.literal(gigatransfers)))
const words = (most: number) => z.string().max(most)
const celsius = z.number().min(-60).max(300)
const answer = z.enum(['yes', 'no', 'unknown']).default('unknown')

export const benchPhases = ['before', 'after'] as const
/** Before the work, or after it. */
export type BenchPhase = (typeof benchPhases)[number]

export const linkSchema = z.strictObject({
  lanes: lanes.optional().describe('as the host tells'),
  offeredLanes: lanes.optional().describe('that slot and card both offer'),
  rate: rate.optional().describe('in GT/s a lane, as the host tells'),
  offeredRate: rate.optional(),
  readAt: z.enum(['idle', 'load', 'unknown']).default('unknown').describe('many cards lower the rate at idle'),
})

export const displayOutputSchema = z.strictObject({
  name: z.string().min(1).max(80),
  picture: z.enum(['yes', 'disturbed', 'no', 'unknown']).default('unknown'),
})

export const temperaturesSchema = z.strictObject({
  airC: celsius.optional(),
  coreC: celsius.optional(),
  hotSpotC: celsius.optional(),
  memoryC: celsius.optional().describe('the one figure that many cards tell: of the hottest package'),
  packages: z
    .array(z.strictObject({ ref: z.string().min(1).max(120), celsius }))
    .max(200)
    .default([])
    .describe('measured one by one'),
  loadW: z.number().nonnegative().max(2000).optional(),
  minutes: z.number().nonnegative().max(10_000).optional().describe('under that load before they were read'),
})
export type Temperatures = z.infer<typeof temperaturesSchema>

export const coolerSchema = z.strictObject({
  paste: z.enum(['kept', 'new', 'dry', 'none', 'unknown']).default('unknown'),
  pasteWords: words(400).default(''),
  pads: z
    .array(
      z.strictObject({
        where: z.string().min(1).max(120),
        thicknessMm: z.number().positive().max(10).optional(),
        state: z.enum(['kept', 'new', 'torn', 'missing', 'unknown']).default('unknown'),
      }),
    )
    .max(100)
    .default([]),
  clampOrder: z.enum(['crosswise', 'one after the other', 'unknown']).default('unknown'),
  clampWords: words(400).default('').describe('order of the screws, turns, torque'),
})
export type Cooler = z.infer<typeof coolerSchema>

export const lookSchema = z.strictObject({
  detected: answer.describe('after the work; before it stands under `powered`'),
  link: linkSchema.optional(),
  errorWords: words(4000).default('').describe('as the host or the driver words them'),
  outputs: z.array(displayOutputSchema).max(16).default([]),
  fans: z.enum(['all turn', 'some stand', 'none turns', 'no fans', 'unknown']).default('unknown'),
  temperatures: temperaturesSchema.optional(),
  cooler: coolerSchema.optional(),
})
export type Look = z.infer<typeof lookSchema>

export const firmwareSchema = z.strictObject({
  saved: answer.describe('read out and kept before anything is written'),
  where: words(400).default('').describe('file, version, check sum'),
  written: answer,
})
export type Firmware = z.infer<typeof firmwareSchema>

export const soakSchema = z.strictObject({
  load: z.string().min(1).max(200).describe('what loaded it'),
  hours: z.number().positive().max(10_000),
  airC: celsius.optional(),
  hottestC: celsius.optional().describe('the hottest figure told meanwhile'),
  outcome: z.enum(['held', 'errors', 'broke off']),
})
export type Soak = z.infer<typeof soakSchema>

export const benchMachineSchema = z.strictObject({
  before: lookSchema.optional(),
  after: lookSchema.optional(),
  firmware: firmwareSchema.optional(),
  soaks: z.array(soakSchema).max(100).default([]),
})
export type BenchMachine = z.infer<typeof benchMachineSchema>

/** A look at which nothing was entered yet. */
export const emptyLook: Look = lookSchema.parse({})
