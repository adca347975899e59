/** Counts of closed cards: whole numbers only, so that they add up in any order, and nothing by which a card is known. */
import { z } from 'zod'
import { say } from '../../base/index.ts'
import type { Share } from './shares.ts'

const whole = z.int().min(0).max(1_000_000_000)

const shareSchema = z
  .strictObject({ hits: whole, tries: whole })
  .refine(({ hits, tries }) => hits <= tries, { message: say('at most as many hits as tries') })

const figureId = z.string().regex(/^[a-z]+(\.[a-zA-Z-]{1,80}){1,3}$/, say('the name of a figure'))

export const countsSchema = z.strictObject({
  cards: whole.describe('closed cards whose cause was confirmed'),
  shares: z.record(figureId, shareSchema).describe('by the figure that they teach'),
  minutes: z.record(figureId, z.strictObject({ lifts: whole, minutes: whole })).describe('noted lifts and their sum'),
})
export type Counts = z.infer<typeof countsSchema>

/** Counts of no card: the neutral element of adding. */
export const noCounts = (): Counts => ({ cards: 0, shares: {}, minutes: {} })

/** Whether nothing was counted at all. */
export const isEmpty = ({ cards, shares, minutes }: Counts): boolean =>
  cards === 0 && Object.keys(shares).length === 0 && Object.keys(minutes).length === 0

/** What both count together, figure by figure. */
export function addCounts(a: Counts, b: Counts): Counts {
  const shares = { ...a.shares }
  for (const [id, { hits, tries }] of Object.entries(b.shares)) {
    const known = shares[id]
    shares[id] = { hits: hits + (known?.hits ?? 0), tries: tries + (known?.tries ?? 0) }
  }
  const minutes = { ...a.minutes }
  for (const [id, noted] of Object.entries(b.minutes)) {
    const known = minutes[id]
    minutes[id] = { lifts: noted.lifts + (known?.lifts ?? 0), minutes: noted.minutes + (known?.minutes ?? 0) }
  }
  return { cards: a.cards + b.cards, shares, minutes }
}

/** The same counts give the same text, in whatever order they were met. */
export const textOfCounts = ({ cards, shares, minutes }: Counts): string =>
  JSON.stringify([
    cards,
    byId(shares).map(([id, { hits, tries }]) => [id, hits, tries]),
    byId(minutes).map(([id, noted]) => [id, noted.lifts, noted.minutes]),
  ])

const byId = <T>(record: Readonly<Record<string, T>>): [string, T][] =>
  Object.entries(record).toSorted(([a], [b]) => (a < b ? -1 : 1))

/** Everything of `part` is in `more` too: it may be an older count of the same cards. */
export function isWithin(part: Counts, more: Counts): boolean {
  const within = (a: Share, b: Share | undefined): boolean =>
    b !== undefined && a.hits <= b.hits && a.tries <= b.tries && a.tries - a.hits <= b.tries - b.hits
  return (
    part.cards <= more.cards &&
    Object.entries(part.shares).every(([id, share]) => within(share, more.shares[id])) &&
    Object.entries(part.minutes).every(([id, { lifts, minutes }]) => {
      const noted = more.minutes[id]
      return noted !== undefined && lifts <= noted.lifts && minutes <= noted.minutes
    })
  )
}

/** Adds tries of a figure to counts that are being made. */
export function count(counts: Counts, id: string, hits: number, tries: number): void {
  if (tries <= 0) return
  const known = counts.shares[id]
  counts.shares[id] = { hits: Math.min(hits, tries) + (known?.hits ?? 0), tries: tries + (known?.tries ?? 0) }
}
