/** Torn pads, lost balls, cut tracks and vias, what was done about each, and where its wire or track runs. */
import { z } from 'zod'
import { pointSchema, sideSchema } from '../board/index.ts'

export const padHurts = ['pad torn', 'ball lost', 'track cut', 'via'] as const
export const padRemedies = ['none', 'jumper', 'track', 'new pad'] as const

export const padRepairSchema = z.strictObject({
  id: z.string().min(1).max(80),
  ref: z.string().min(1).max(120),
  pad: z.string().max(40).default('').describe('ball or pad of the part; empty where a track or via is meant'),
  hurt: z.enum(padHurts),
  remedy: z.enum([...padRemedies, 'not yet']).default('not yet'),
  via: z.enum(['untouched', 'drilled', 'plugged']).default('untouched'),
  side: sideSchema.describe('on which its wire or track runs'),
  path: z.array(pointSchema).max(200).default([]).describe('of the wire or track, in mm of the board'),
  ohm: z.number().nonnegative().max(1e9).optional().describe('measured from end to end after the repair'),
  note: z.string().max(2000).default(''),
})
export type PadRepair = z.infer<typeof padRepairSchema>
