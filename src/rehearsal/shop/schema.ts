/** What a closed case keeps for the shop's own record: what was wrong with the card, and what had been foretold. */
import { z } from 'zod'

const ref = z.string().min(1).max(120)
const probability = z.number().min(0).max(1)

/** What a part turned out to be; `under`: neither it nor its joints, but what lay under it. */
export const partTruths = ['bad', 'joints', 'under', 'fine', 'unknown'] as const
export type PartTruth = (typeof partTruths)[number]

/** Causes that are no parts. */
export const otherTruths = ['rail', 'track', 'slip', 'liquid'] as const
export type OtherTruth = (typeof otherTruths)[number]

/** Whether that is all: only then can the card be counted. */
export const settledWords = ['all', 'some', 'nothing-wrong'] as const

export const causesFoundSchema = z.strictObject({
  settled: z.enum(settledWords).optional().describe('confirmed by hand: all of it, only some of it, or a sound card'),
  parts: z
    .array(
      z.strictObject({
        ref,
        was: z.enum(partTruths),
        harmed: z.boolean().default(false).describe('by the work itself'),
        minutes: z.number().nonnegative().max(100_000).optional().describe('to lift, clean and refit it'),
      }),
    )
    .max(200)
    .default([]),
  others: z
    .array(
      z.strictObject({
        what: z.enum(otherTruths),
        at: z.string().min(1).max(200).optional().describe('the rail or the lane, as the board calls it'),
      }),
    )
    .max(50)
    .default([]),
})
export type CausesFound = z.infer<typeof causesFoundSchema>

/** How things stood when the lift list was acted on. */
export const foretoldSchema = z.strictObject({
  lift: z.array(ref).max(200),
  stories: z
    .array(
      z.strictObject({
        probability,
        causes: z
          .array(
            z.strictObject({ kind: z.string().min(1).max(80), at: z.string().max(200), refs: z.array(ref).max(200) }),
          )
          .max(50),
      }),
    )
    .max(3)
    .describe('the likeliest first'),
  parts: z.array(z.strictObject({ ref, probability })).max(1000).describe('that it needed lifting'),
  failing: z.array(z.string().min(1).max(200)).max(2000).describe('lanes'),
})
export type Foretold = z.infer<typeof foretoldSchema>
