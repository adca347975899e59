/** The day and the time by the clock of this machine: the only place where the screen asks for them. */
import { dayWords, say } from '../../base/index.ts'

const two = (n: number): string => String(n).padStart(2, '0')

/** The local calendar day, as `2026-03-14`. */
export const dayOf = (at: Date): string => `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`

/** The local calendar day now. */
export const today = (): string => dayOf(new Date())

/** This moment, as cases keep it. */
export const now = (): string => new Date().toISOString()

/** `14:32`, and the day before it where that is not today. */
export function momentWords(on: string): string {
  const at = new Date(on)
  const time = `${two(at.getHours())}:${two(at.getMinutes())}`
  return dayOf(at) === today() ? time : say('{day}, {time}', { day: dayWords(dayOf(at)), time })
}

/** So many calendar days after a day, both as `2026-03-14`. */
export const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10)

const DAY_MS = 86_400_000
