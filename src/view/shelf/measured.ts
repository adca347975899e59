/** What was measured on a card, read from its record without reading all of it. */
import { z } from 'zod'
import type { Case } from '../../case/index.ts'
import { measurementSchema } from '../../measure/index.ts'

const measuredSchema = z.object({
  present: z.object({
    goodCard: z.boolean().catch(false),
    measurements: z.array(measurementSchema).catch([]),
  }),
})

/** @returns a card that is not known to be good where the record can't be read */
export function measuredOf(raw: unknown): Pick<Case, 'goodCard' | 'measurements'> {
  return measuredSchema.safeParse(raw).data?.present ?? { goodCard: false, measurements: [] }
}
