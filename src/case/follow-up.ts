/** Asking after a card some weeks after it went back: whom to ask, and what the owner answered. */
import { z } from 'zod'
import { dayAfter, daysBetween, isoDay } from './day.ts'
import type { Case } from './schema.ts'

export const followUpAnswers = ['works', 'same fault back', 'other fault', 'not reached'] as const

export const followUpsSchema = z
  .array(
    z.strictObject({
      on: isoDay,
      answer: z.enum(followUpAnswers),
      note: z.string().max(1000).default(''),
    }),
  )
  .max(50)
export type FollowUp = z.infer<typeof followUpsSchema>[number]

type AskedCase = Pick<Case, 'handBack' | 'followUps'>

/** The last answer that says something; undefined while nobody was reached. */
export const lastAnswer = ({ followUps = [] }: Pick<Case, 'followUps'>): FollowUp | undefined =>
  followUps.findLast(({ answer }) => answer !== 'not reached')

/** The day a mended card went back, while its owner has still to be asked; undefined where there is nothing to ask. */
export function askAfter({ handBack, followUps }: AskedCase): string | undefined {
  const { outcome, on } = handBack
  const mended = outcome === 'repaired' || outcome === 'partly repaired'
  return mended && lastAnswer({ followUps }) === undefined ? on : undefined
}

const DAYS_PER_WEEK = 7

/** From which day on the owner is asked. @param backOn the day the card went back */
export const dueOn = (backOn: string, weeks: number): string => dayAfter(backOn, weeks * DAYS_PER_WEEK)

/** Whole weeks since the card went back. */
export const weeksSince = (backOn: string, today: string): number =>
  Math.floor(daysBetween(backOn, today) / DAYS_PER_WEEK)
