/** A pasted table, or lines of a report, as rows of the table that is filled in by hand. */
import type { BoardModel } from '../../board/index.ts'
import type { ForeignNames } from '../names/foreign/meaning.ts'
import { nameBook } from '../names/names.ts'
import { namedReader } from '../names/named.ts'
import { pasteTable } from './paste-table.ts'
import { groupingOf, readQuantity } from '../text/quantity.ts'
import type { TableRow } from '../recipe.ts'
import { firstLines } from '../text/text.ts'

export interface PastedRows {
  readonly rows: readonly TableRow[]
  /** Lines with something in them that give no row, as they stand. */
  readonly left: readonly string[]
}

const MOST_LINES = 10_000

/**
 * Each line that names a part, channel or lane of the board and says how many errors it has, or that it passed. Where the
 * first line heads the columns, by those.
 * @param names what foreign names mean on the board
 */
export function pastedRows(text: string, model: BoardModel, names: ForeignNames = {}): PastedRows {
  const book = nameBook(model, names)
  const read = namedReader(book)
  const lines = firstLines(text, MOST_LINES).filter((line) => line.trim() !== '')
  const grouping = groupingOf(lines.flatMap((line) => line.match(/\d[\d.,']*\d/g) ?? []))
  const rows: TableRow[] = []
  const left: string[] = []
  const table = pasteTable(lines, model, book)
  for (const line of table === undefined ? lines : lines.slice(1)) {
    const ofTable = table?.rowsOf(line)
    if (ofTable !== undefined) {
      rows.push(...ofTable)
      if (ofTable.length === 0) left.push(line)
      continue
    }
    const { statements, isHead, isBroken } = read(line)
    const own = isBroken
      ? []
      : statements.flatMap(({ labels, fields, verdict }): TableRow[] => {
          const place = book.place(labels)
          const count = fields.get('errors') ?? (fields.size === 1 ? fields.get('number 1') : undefined)
          const errors =
            count === undefined ? (verdict === 'pass' ? 0 : undefined) : readQuantity(count, grouping)?.errors
          return place === undefined || errors === undefined ? [] : [{ [place.kind]: book.idOf(place), errors }]
        })
    rows.push(...own)
    if (own.length === 0 && !isHead) left.push(line)
  }
  return { rows, left }
}
