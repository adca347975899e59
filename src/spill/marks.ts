/** Marks: what the user puts on the sheet. The zod schemas are the one source of their types. */
import { z } from 'zod'
import { pointSchema, sideSchema } from '../board/index.ts'
import { amountSchema } from './substance/substance.ts'

const id = z.string().min(1).max(80)
const radiusMm = z.number().positive().max(500)

export const spillMarkSchema = z.strictObject({
  kind: z.literal('spill'),
  id,
  side: sideSchema,
  at: pointSchema,
  sdMm: z.number().min(0).max(200).describe('how sure the point is: standard deviation'),
  substance: z.string().min(1).max(80).describe('id of a substance'),
  amount: amountSchema,
  /** Standard deviation of the logarithm of the amount: 0.4 means "within about half to one and a half times". */
  amountSdLog: z.number().min(0).max(3).default(0.4),
  /** Direction that was down while the card was mounted, degrees counter-clockwise from x; left out: it lay flat. */
  downDeg: z.number().min(-360).max(360).optional(),
  /** Of a card that lay or hung level: which way its core side faced; left out: not said, taken as lying below the spill. */
  lay: z.enum(['core-up', 'core-down']).optional(),
  /** Whether a cooler was pressed on it, or it was shaken or wiped; not said: spread over, unless `pushMm` states how far. */
  pressed: z.enum(['yes', 'no', 'unknown']).default('unknown'),
  /** How far it was pushed, as far as that was seen; 0: as far as is usual. */
  pushMm: z.number().min(0).max(200).default(0),
  reachesOtherSide: z.boolean().default(false).describe('through holes and over edges'),
})
export type SpillMark = z.infer<typeof spillMarkSchema>

export const areaMarkSchema = z.strictObject({
  kind: z.enum(['residue', 'film', 'corrosion', 'clean']),
  id,
  side: sideSchema,
  at: pointSchema,
  radiusMm,
  /** Painted by brush: the circle swept along the path, which starts at `at`. */
  path: z.array(pointSchema).min(2).max(2000).optional(),
  /** Drawn by lasso: this polygon in place of the circle; `at` lies within its box. */
  outline: z.array(pointSchema).min(3).max(2000).optional(),
  /** Where it was seen: a photo of the case. */
  photo: z.string().min(1).max(80).optional(),
  note: z.string().max(2000).optional(),
})
export type AreaMark = z.infer<typeof areaMarkSchema>

export const damMarkSchema = z.strictObject({
  kind: z.literal('dam'),
  id,
  side: sideSchema,
  path: z.array(pointSchema).min(2).max(1000).describe('what stopped the flow: a gasket, a frame, tape'),
})
export type DamMark = z.infer<typeof damMarkSchema>

/** A tool slipped or something was dropped here: mechanical damage, nothing flowed. */
export const slipMarkSchema = z.strictObject({
  kind: z.literal('slip'),
  id,
  side: sideSchema,
  at: pointSchema,
  radiusMm,
  note: z.string().max(2000).optional(),
})
export type SlipMark = z.infer<typeof slipMarkSchema>

export const noteMarkSchema = z.strictObject({
  kind: z.literal('note'),
  id,
  side: sideSchema,
  at: pointSchema,
  text: z.string().min(1).max(2000),
})
export type NoteMark = z.infer<typeof noteMarkSchema>

export const markSchema = z.discriminatedUnion('kind', [
  spillMarkSchema,
  areaMarkSchema,
  damMarkSchema,
  slipMarkSchema,
  noteMarkSchema,
])
export type Mark = z.infer<typeof markSchema>
