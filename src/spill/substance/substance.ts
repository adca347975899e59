/** What a substance is: the zod schema of its figures, each with where it is from, and which of them a spill needs. */
import { z } from 'zod'
import { bad, type Fault, faultsFromZod, good, type Result, say } from '../../base/index.ts'
import { cleaningSchema } from './cleaning.ts'
import { figureBetween, source } from './figure.ts'

/** How much: a volume, or an area that was seen. */
export const amountSchema = z.union([
  z.strictObject({ volumeMl: z.number().positive().max(2000) }),
  z.strictObject({ smearCm2: z.number().positive().max(5000) }),
])

export const movesSchema = z.enum(['wets', 'pinned', 'crust'])
/** `wets`: flows and wicks. `pinned`: stays where it was smeared until pushed. `crust`: dried, stays. */
export type Moves = z.infer<typeof movesSchema>

const needed = {
  wets: ['densityKgM3', 'surfaceTensionNM', 'viscosityPaS', 'contactAngleMaskDeg'],
  pinned: ['filmThicknessMm'],
  crust: [],
} as const satisfies Record<Moves, readonly string[]>

/** How a substance usually comes onto a board: what a mark takes until somebody says more. */
const usualSchema = z.strictObject({
  amount: amountSchema,
  amountSdLog: z.number().min(0).max(3),
  pressed: z
    .strictObject({
      chance: z.number().min(0).max(1).describe('that a cooler was pressed on it, where nobody knows'),
      pushMm: z.number().positive().max(200).describe('how far that pushes it, the median'),
      pushSdLog: z.number().min(0).max(3),
    })
    .optional(),
  source,
})

export const substanceSchema = z
  .strictObject({
    id: z.string().min(1).max(80),
    name: z.string().min(1).max(120),
    moves: movesSchema,
    densityKgM3: figureBetween(1, 25_000).optional(),
    surfaceTensionNM: figureBetween(1e-4, 5).optional(),
    viscosityPaS: figureBetween(1e-6, 1e6).optional(),
    contactAngleMaskDeg: figureBetween(0.1, 180).optional().describe('on solder mask'),
    contactAngleMetalDeg: figureBetween(0, 180).optional(),
    resistivityOhmM: figureBetween(1e-9, 1e18).optional(),
    meltingC: figureBetween(-273.15, 4000).optional(),
    filmThicknessMm: figureBetween(1e-4, 20).optional().describe('of a smear or crust, with its usual range'),
    usual: usualSchema.optional(),
    attacks: z
      .array(z.strictObject({ what: z.string().min(1).max(200), how: z.string().min(1).max(500), source }))
      .max(50)
      .default([]),
    cautions: z.array(z.string().min(1).max(500)).max(50).default([]),
    cleaning: cleaningSchema.optional().describe('left out: nothing is known of how it comes off'),
  })
  .check((context) => {
    for (const field of needed[context.value.moves]) {
      if (context.value[field] !== undefined) continue
      context.issues.push({
        code: 'custom',
        input: context.value,
        path: [field],
        message: say('a figure with its source: a substance that moves as "{moves}" needs it', {
          moves: context.value.moves,
        }),
      })
    }
  })
export type Substance = z.infer<typeof substanceSchema>

/** A substance from outside, or every fault of it. */
export function parseSubstance(input: unknown): Result<Substance> {
  const parsed = substanceSchema.safeParse(input)
  return parsed.success ? good(parsed.data) : bad(...faultsFromZod(parsed.error, input))
}

/** The substance with that id, or a fault that names the ids that are known. */
export function findSubstance(id: string, known: readonly Substance[], path = '$.substance'): Result<Substance> {
  const found = known.find((substance) => substance.id === id)
  if (found !== undefined) return good(found)
  const fault: Fault = {
    path,
    found: JSON.stringify(id),
    expected: say('one of {known}', { known: known.map((substance) => substance.id).join(', ') }),
    todo: say('Choose a known substance, or add this one with its figures.'),
  }
  return bad(fault)
}
