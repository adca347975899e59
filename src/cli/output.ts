/** What each verb prints, as zod schemas: the fields of `liftmap VERB` that can be counted on. */
import { z } from 'zod'

const probability = z.number().min(0).max(1)
const count = z.int().nonnegative()

export const faultOutput = z.object({
  path: z.string(),
  found: z.string(),
  expected: z.string(),
  todo: z.string().optional(),
})

export const boardOutput = z
  .object({
    ok: z.boolean(),
    name: z.string().optional(),
    parts: z.record(z.string(), count).describe('how many of each kind'),
    channels: count,
    lanes: count,
    rails: count,
    faults: z.array(faultOutput),
    untold: z.array(z.string()).describe('what the file does not tell, and remarks'),
  })
  .describe('liftmap board')

export const whereOutput = z
  .array(
    z.object({
      address: z.string(),
      channel: z.string().nullable().describe('null: the address is not mapped to memory'),
      part: z.string().nullable(),
      row: count.optional(),
      bank: count.optional(),
      column: count.optional(),
    }),
  )
  .describe('liftmap where')

export const tallyOutput = z
  .object({
    rows: z.object({ read: count, unreadable: count, unmapped: count, skipped: count }),
    troubles: z.array(z.object({ line: count, text: z.string(), why: z.string() })),
    level: z.enum(['words', 'labels', 'table']),
    recipe: z.unknown(),
    parts: z.array(
      z.object({
        ref: z.string(),
        errors: count,
        signature: z.string(),
        sentence: z.string(),
        channels: z.array(
          z.object({
            id: z.string(),
            lanes: z.array(
              z.object({
                id: z.string(),
                errors: count,
                state: z.enum(['fail', 'pass', 'untested']),
                bits: z.array(count),
              }),
            ),
          }),
        ),
      }),
    ),
  })
  .describe('liftmap tally')

export const reachOutput = z
  .object({
    spills: z.array(
      z.object({
        mark: z.string(),
        radiusMm: z.number().nonnegative(),
        areaMm2: z.number().nonnegative(),
        parts: z.array(z.object({ ref: z.string(), probability })),
        notes: z.array(z.string()),
      }),
    ),
    radiusMm: z.number().nonnegative().describe('of the first spill'),
    areaMm2: z.number().nonnegative(),
    parts: z.array(z.object({ ref: z.string(), probability })).describe('the highest over all spills'),
  })
  .describe('liftmap reach')

export const suspectsOutput = z
  .object({
    stories: z.array(
      z.object({ causes: z.array(z.object({ kind: z.string(), at: z.string() })), probability, sentence: z.string() }),
    ),
    remainder: probability,
    lift: z.array(z.string()),
    parts: z.array(z.object({ ref: z.string(), probability, lift: z.boolean(), why: z.array(z.string()) })),
    spill: z.object({ at: z.object({ x: z.number(), y: z.number() }), sdMm: z.number(), probability }).nullable(),
    leftOut: z.array(z.string()),
    cautions: z.array(z.string()),
  })
  .describe('liftmap suspects')

export const outputSchemas = {
  board: boardOutput,
  where: whereOutput,
  tally: tallyOutput,
  reach: reachOutput,
  suspects: suspectsOutput,
}
