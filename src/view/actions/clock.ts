/** The day and the time by the clock of this machine: the only place where the screen asks for them. */

const two = (n: number): string => String(n).padStart(2, '0')

/** The local calendar day, as `2026-03-14`. */
export const dayOf = (at: Date): string => `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`

export const today = (): string => dayOf(new Date())

/** So many calendar days after a day, both as `2026-03-14`. */
export const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10)

const DAY_MS = 86_400_000
