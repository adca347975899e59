/** Whose owner is to be asked by now whether the card still works. */
import { dueOn } from '../../case/index.ts'
import type { ShelfEntry } from '../shelf/caseShelf.ts'

export type AskedEntry = ShelfEntry & { readonly askAfter: string }

/** Those that went back longest ago first. @param day as `2026-03-14` */
export function dueOf(entries: readonly ShelfEntry[], weeks: number, day: string): AskedEntry[] {
  return entries
    .flatMap((entry) => {
      const { askAfter } = entry
      return askAfter !== undefined && dueOn(askAfter, weeks) <= day ? [{ ...entry, askAfter }] : []
    })
    .toSorted((a, b) => a.askAfter.localeCompare(b.askAfter))
}
