/** Lines with a name that is not on the board: rows of another board if they look as the rows do, else no rows at all. */
import { say } from '../../base/index.ts'
import type { Row } from '../rows/row.ts'
import { shapeOf } from '../text/shapes.ts'
import type { Troubles } from '../rows/troubles.ts'

export interface Strangers {
  /** A line whose name is on the board. */
  known(text: string): void
  take(row: Row, line: number, text: string): void
  /** @param read rows whose names are on the board; without any, all strangers are rows */
  settle(read: number): { unmapped: number; skipped: number }
}

const MAX_SHAPES = 500
const ROWS_LOOKED_AT = 1000

interface Group {
  count: number
  readonly shown: { readonly line: number; readonly text: string; readonly why: string }[]
}

/** @param delimiter where cells stand between marks, lines with as many marks look alike */
export function newStrangers(troubles: Troubles, delimiter?: string): Strangers {
  const look = (text: string): string =>
    delimiter === undefined ? shapeOf(text).key : String(text.split(delimiter).length)
  const shapes = new Set<string>()
  const groups = new Map<string, Group>()
  let lookedAt = 0
  let more = 0
  return {
    known: (text) => {
      if (lookedAt++ < ROWS_LOOKED_AT) shapes.add(look(text))
    },
    take: (row, line, text) => {
      const key = look(text)
      const group = groups.get(key)
      if (group === undefined && groups.size >= MAX_SHAPES) {
        more++
        return
      }
      const own = group ?? { count: 0, shown: [] }
      own.count++
      const label = [row.part, row.channel, row.lane, row.of].filter((name) => name !== undefined).join(' ')
      if (own.shown.length < 10) {
        own.shown.push({ line, text, why: say('no part, channel or lane of the board is called {label}', { label }) })
      }
      groups.set(key, own)
    },
    settle: (read) => {
      let unmapped = more
      let skipped = 0
      for (const [key, group] of groups) {
        if (read > 0 && !shapes.has(key)) {
          skipped += group.count
          continue
        }
        unmapped += group.count
        for (const { line, text, why } of group.shown) troubles.unmapped(line, text, why)
      }
      return { unmapped, skipped }
    },
  }
}
