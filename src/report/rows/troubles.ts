/** The first few rows that could not be read or placed, of each kind some, so that one kind can't hide the other. */
import type { Tally } from '../tally.ts'
import { showLine } from '../text/text.ts'

/** Shown of each kind. */
export const MAX_TROUBLES = 50

type Trouble = Tally['troubles'][number]

export interface Troubles {
  /** Whether one more of the kind would be shown: spares making its text. */
  readonly wantsUnreadable: () => boolean
  readonly wantsUnmapped: () => boolean
  unreadable(line: number, text: string, why: string): void
  unmapped(line: number, text: string, why: string): void
  /** All of them by line. */
  list(): Trouble[]
}

/**
 * An empty list that keeps the first few of each kind; later ones are dropped, so ask `wants…` before a text is made
 * for one.
 */
export function newTroubles(): Troubles {
  const unreadable: Trouble[] = []
  const unmapped: Trouble[] = []
  const put = (list: Trouble[], line: number, text: string, why: string): void => {
    if (list.length < MAX_TROUBLES) list.push({ line, text: showLine(text), why })
  }
  return {
    wantsUnreadable: () => unreadable.length < MAX_TROUBLES,
    wantsUnmapped: () => unmapped.length < MAX_TROUBLES,
    unreadable: (line, text, why) => put(unreadable, line, text, why),
    unmapped: (line, text, why) => put(unmapped, line, text, why),
    list: () => [...unreadable, ...unmapped].toSorted((a, b) => a.line - b.line),
  }
}
