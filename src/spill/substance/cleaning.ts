/** How a substance comes off a board: the zod schema of its cleaning, each statement and figure with where it is from. */
import { z } from 'zod'
import { figureBetween, source } from './figure.ts'

const words = z.string().min(1).max(600)
const said = z.strictObject({ words, source })
const material = z.string().min(1).max(120)

/** One wet step: `with` lies on the table, `how` is a clause in the imperative, without a full stop. */
const rinseSchema = z.strictObject({ with: material, how: words, source })
export type Rinse = z.infer<typeof rinseSchema>

export const cleaningSchema = z.strictObject({
  takeUp: rinseSchema.optional().describe('by hand and before anything wet'),
  where: z.enum(['card', 'spots']).describe('whether the whole card is rinsed, or only the spots, by swab'),
  dissolvesIn: z.array(said).min(1).max(10),
  notIn: z.array(said).min(1).max(10),
  rinses: z.array(rinseSchema).min(1).max(6).describe('in the order in which they are done'),
  driveOut: said.describe('how it is got out from under bodies'),
  leftByDrying: said.describe('what an oven alone leaves on the board'),
  dryC: figureBetween(15, 125),
  dryMinutes: figureBetween(1, 2880),
  howKnown: said.describe('how one knows that it is clean'),
  destroys: z.array(said).min(1).max(10).describe('what is not used again'),
  cooler: said.describe('what is looked for on the cooler'),
  joints: said.optional().describe('what becomes of joints that have taken it up'),
})
/** The sentences end with a full stop, but for `dissolvesIn`, `notIn`, `leftByDrying` and the clauses of the rinses. */
export type Cleaning = z.infer<typeof cleaningSchema>
