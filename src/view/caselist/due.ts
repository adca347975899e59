/** How near the day is by which a card was promised. */
import { say } from '../../base/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { daysBetween } from './age.ts'

export interface Due {
  readonly state: 'overdue' | 'soon' | 'later'
  /** To go; under 0 where it is past. */
  readonly days: number
}

/** Days ahead in which a promise is told as near; common practice, no source. */
const SOON_DAYS = 3

/** @returns undefined where no day was promised, and for a card that was handed back */
export function dueOf({ dueOn, visit }: Pick<ShelfEntry, 'dueOn' | 'visit'>, today: string): Due | undefined {
  const days = dueOn === undefined || visit === 'handed back' ? undefined : daysBetween(today, dueOn)
  if (days === undefined) return undefined
  return { state: days < 0 ? 'overdue' : days <= SOON_DAYS ? 'soon' : 'later', days }
}

/** `overdue 2 days`, `today`, `tomorrow`, `in 9 days`. */
export function dueWords({ days }: Due): string {
  if (days < 0) return say('overdue {value, plural, one {# day} other {# days}}', { value: -days })
  if (days === 0) return say('today')
  return days === 1 ? say('tomorrow') : say('in {days, plural, one {# day} other {# days}}', { days })
}
