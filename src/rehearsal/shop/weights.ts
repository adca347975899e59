/** How much the shipped figures weigh against what the shop has seen, from one data file with the reason of each. */
import { z } from 'zod'
import shipped from './weights.json' with { type: 'json' }

const entry = z.strictObject({ value: z.number().positive(), reason: z.string().min(1), source: z.string().min(1) })

export const shopWeights = z
  .strictObject({
    /** Cards that a shipped prior is worth. */
    cards: entry,
    /** Tries that any other shipped share is worth. */
    tries: entry,
    /** Lifts that shipped minutes are worth. */
    lifts: entry,
    /** Cards of one board from which on they count alone. */
    boardCards: entry,
  })
  .parse(shipped)
