/** Calendar days as `2026-03-14`, counted without clock or time zone. */
import { z } from 'zod'

export const isoDay = z.iso.date()

const MS_PER_DAY = 86_400_000
const at = (day: string): number => Date.parse(`${day}T00:00:00Z`)

/** The day so many days later: `2026-02-27` and 3 give `2026-03-02`. */
export const dayAfter = (day: string, days: number): string =>
  new Date(at(day) + days * MS_PER_DAY).toISOString().slice(0, 'yyyy-mm-dd'.length)

/** Whole days from the one to the other, below nothing where it lies before. */
export const daysBetween = (from: string, to: string): number => Math.round((at(to) - at(from)) / MS_PER_DAY)
