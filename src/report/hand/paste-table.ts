/** A table as spreadsheets put it on the clipboard: a line of headings, then cells; each row to a row of the hand's table. */
import type { BoardModel } from '../../board/index.ts'
import { splitDelimited } from '../text/cells.ts'
import { roleOfHeading } from '../names/headings.ts'
import type { NameBook } from '../names/names.ts'
import { groupingOf, readQuantity, verdictOf } from '../text/quantity.ts'
import type { ColumnRole, TableRow } from '../recipe.ts'

const DELIMITERS = ['\t', ';', ','] as const
const PLACES: readonly ColumnRole[] = ['part', 'channel', 'lane']

export interface PasteTable {
  /** Rows of a line, none where it can't be read; undefined where it has no cells. */
  rowsOf(line: string): readonly TableRow[] | undefined
}

/** @returns undefined where the first line does not head columns with a place and a count or a verdict */
export function pasteTable(lines: readonly string[], model: BoardModel, book: NameBook): PasteTable | undefined {
  const [head = '', ...body] = lines
  const delimiter = DELIMITERS.find((one) => head.includes(one))
  if (delimiter === undefined) return undefined
  const roles = splitDelimited(head, delimiter, '"').map(roleOfHeading)
  const at = (role: ColumnRole): number => roles.indexOf(role)
  const counts = at('count') >= 0 ? at('count') : at('status')
  if (counts < 0 || !PLACES.some((role) => at(role) >= 0)) return undefined
  const grouping = groupingOf(body.map((line) => splitDelimited(line, delimiter, '"')[counts] ?? ''))
  return {
    rowsOf: (line) => {
      if (!line.includes(delimiter)) return undefined
      const cells = splitDelimited(line, delimiter, '"')
      const cell = (role: ColumnRole): string | undefined => {
        const text = cells[at(role)]
        return text === undefined || text === '' ? undefined : text
      }
      const place = book.place({ part: cell('part'), channel: cell('channel'), lane: cell('lane') })
      const told = cells[counts] ?? ''
      const errors = readQuantity(told, grouping)?.errors ?? (verdictOf(told) === 'pass' ? 0 : undefined)
      const bit = bitOf(cell('bit'))
      if (place === undefined || errors === undefined || bit === 'unreadable') return []
      const ofLanes = place.lanes?.map((lane) => ({ lane: model.lanes[lane]?.id ?? '' }))
      // A count of several lanes that are no channel can't be split among them.
      if (ofLanes !== undefined)
        return errors === 0 && bit === undefined ? ofLanes.map((one) => ({ ...one, errors })) : []
      return [{ [place.kind]: book.idOf(place), errors, ...(bit === undefined ? {} : { bit }) }]
    },
  }
}

/** `3`, `DQ3`, `bit 3`. */
function bitOf(text: string | undefined): number | 'unreadable' | undefined {
  if (text === undefined) return undefined
  const digits = /^(?:dq|bit)?[\s_#]*(\d{1,3})$/i.exec(text)?.[1]
  return digits === undefined ? 'unreadable' : Number(digits)
}
