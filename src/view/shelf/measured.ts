/** What was measured on a card, read from its record without reading all of it. */
import { z } from 'zod'
import { type CardReadings, outcomes } from '../../case/index.ts'
import { measurementSchema } from '../../measure/index.ts'

const measuredSchema = z.object({
  present: z.object({
    goodCard: z.boolean().catch(false),
    measurements: z.array(measurementSchema).catch([]),
    handBack: z.object({ outcome: z.enum(outcomes).optional().catch(undefined) }).catch({ outcome: undefined }),
  }),
})

/** @returns a card that is not known to be good where the record can't be read */
export function measuredOf(raw: unknown): CardReadings {
  const present = measuredSchema.safeParse(raw).data?.present
  if (present === undefined) return { goodCard: false, measurements: [] }
  const { goodCard, measurements, handBack } = present
  return { goodCard, measurements, ...(handBack.outcome === undefined ? {} : { outcome: handBack.outcome }) }
}
