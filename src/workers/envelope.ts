/** The messages that carry calls between screen and worker, parsed on both sides. */
import { z } from 'zod'
import { mannerSchema } from '../base/index.ts'

/** The first message to a worker: what `speak` is told there. */
export const speechMessageSchema = z.strictObject({
  kind: z.literal('speech'),
  language: z.string(),
  catalogue: z.record(z.string(), z.string()),
  manner: mannerSchema,
})
export type SpeechMessage = Readonly<z.infer<typeof speechMessageSchema>>

export const requestSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('call'), id: z.int(), name: z.string(), input: z.unknown() }),
  z.strictObject({ kind: z.literal('cancel'), id: z.int() }),
])
export type Request = z.infer<typeof requestSchema>

export const progressSchema = z.strictObject({
  /** Share done, 0 to 1; undefined where nobody knows the whole. */
  share: z.number().min(0).max(1).optional(),
  words: z.string(),
})
export type Progress = z.infer<typeof progressSchema>

export const replySchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('progress'), id: z.int(), progress: progressSchema }),
  z.strictObject({ kind: z.literal('done'), id: z.int(), value: z.unknown() }),
  z.strictObject({ kind: z.literal('failed'), id: z.int(), message: z.string() }),
  z.strictObject({ kind: z.literal('cancelled'), id: z.int() }),
])
export type Reply = z.infer<typeof replySchema>
