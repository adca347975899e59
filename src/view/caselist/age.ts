/** How long ago something was, in words: whole days for a card's stay, finer for the last change. */
import { say } from '../../base/index.ts'

const DAY_MS = 86_400_000

/**
 * Whole calendar days from one day to another, both as `2026-03-14`; a day that is longer or shorter by the clock counts as
 * one. @returns undefined where a day is none
 */
export function daysBetween(from: string, to: string): number | undefined {
  const days = (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS
  return Number.isFinite(days) ? Math.round(days) : undefined
}

/** Since the card came: `today`, `1 day`, `17 days`; a day to come is said to be one. */
export function stayWords(arrivedOn: string, today: string): string {
  const days = daysBetween(arrivedOn, today)
  if (days === undefined) return say('not known')
  if (days < 0) return say('in {value, plural, one {# day} other {# days}}', { value: -days })
  return days === 0 ? say('today') : say('{days, plural, one {# day} other {# days}}', { days })
}

const MINUTE_MS = 60_000
const HOUR_MS = 3_600_000

/** Since a moment: `just now`, `5 min ago`, `3 h ago`, then calendar days. Both in milliseconds since 1970. */
export function agoWords(at: number, now: number, dayOf: (at: Date) => string): string {
  const passed = now - at
  if (passed < MINUTE_MS) return say('just now')
  if (passed < HOUR_MS) return say('{value} min ago', { value: Math.floor(passed / MINUTE_MS) })
  const days = daysBetween(dayOf(new Date(at)), dayOf(new Date(now))) ?? 0
  if (days === 0) return say('{value} h ago', { value: Math.floor(passed / HOUR_MS) })
  return days === 1 ? say('yesterday') : say('{days, plural, one {# day} other {# days}} ago', { days })
}
