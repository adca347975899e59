/** The catalogue of checks: what each asks, costs and finds; from one data file, every figure with its reason. */
import { z } from 'zod'
import { sayData } from '../../base/index.ts'
import { placeSaid } from '../causes/places.ts'
import shipped from './checks.json' with { type: 'json' }

/** Noisy-OR figures: below one, so that no outcome is impossible. */
const sureness = z.number().gt(0).max(0.99)
const words = z.string().min(1).max(400)

/** What a check can be made for; an edge is a place beside a body, on the side of the board where it stands. */
export const checkTargets = ['rail', 'stage', 'memory', 'core', 'lane', 'corridor', 'edge', 'side'] as const
export type CheckTarget = (typeof checkTargets)[number]

/** Kinds of cause that a check can find. A spill counts per region that it reaches, reported or not; all others once. */
const findable = [
  'die',
  'joints',
  'command-joints',
  'corridor',
  'rail',
  'rail-branch',
  'power-stage',
  'core',
  'core-patch',
  'spill',
  'slip',
] as const

const common = {
  id: z.string().regex(/^[a-z][a-z-]{1,78}$/),
  question: words.describe('to be answered by yes (found) or no; {at} stands for what is checked'),
  targets: z.array(z.enum(checkTargets)).min(1),
  minutes: z.strictObject({ setup: z.number().nonnegative(), each: z.number().positive() }),
  found: words.describe('the outcome yes as a sentence'),
  notFound: words,
  powered: z.boolean().default(false).describe('the card is under power while it is done'),
  proposed: z.boolean().default(true).describe('as a next check; else it is known from what is entered elsewhere'),
  entry: z.enum(['measuring sheet', 'inspection mark', 'check']).describe('where its outcome is entered'),
  caution: words.optional().describe('where it can hurt somebody or the card'),
  reason: words,
  source: words,
}

const checkEntrySchema = z.discriminatedUnion('evidence', [
  /** Evidence of its own: found with `finds` where such a cause is there, with `falseAlarm` where none is. */
  z.strictObject({
    ...common,
    evidence: z.literal('check'),
    finds: z.partialRecord(z.enum(findable), sureness),
    falseAlarm: z.number().min(0.001).max(0.5),
  }),
  /** Measurements and marks that the reasoning knows anyway: their figures stand with the assumptions. */
  z.strictObject({ ...common, evidence: z.enum(['rail', 'stage', 'area']) }),
])
export type CheckEntry = z.infer<typeof checkEntrySchema>
export type OwnCheck = Extract<CheckEntry, { evidence: 'check' }>

const catalogueSchema = z
  .array(checkEntrySchema)
  .refine((list) => new Set(list.map(({ id }) => id)).size === list.length)

export const checkCatalogue: readonly CheckEntry[] = catalogueSchema.parse(sayData(shipped))

const byId = new Map(checkCatalogue.map((entry) => [entry.id, entry]))

/** The entry of a check; undefined for an id that the catalogue does not have, as an old case may. */
export const checkById = (id: string): CheckEntry | undefined => byId.get(id)

/** A check's own words with the place filled in, as it is said. */
export const checkWords = (text: string, at: string): string => text.replaceAll('{at}', placeSaid(at))
