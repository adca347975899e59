/** From the text of a table to rows of cells: separators, quotes, comments and columns of blanks. */
import { linesOf, type TextLine } from '../text.ts'

export interface TableRow {
  readonly line: number
  readonly cells: readonly string[]
  /** Behind a sign for comments, where headings may stand as well. */
  readonly isComment: boolean
}

export type Separator = ',' | ';' | '\t' | '|' | 'blanks'
export const separators: readonly Separator[] = ['\t', ';', ',', '|', 'blanks']

const COMMENT = /^\s*(?:#+|\/\/|!|\*+|;;|%)\s*/
const MOST_CELLS = 200

/** Lines with something in them, the sign of a comment taken off. */
export function writtenLines(text: string): (TextLine & { readonly isComment: boolean })[] {
  return linesOf(text.replace(/^\ufeff/, '')).flatMap(({ line, text: whole }) => {
    const sign = COMMENT.exec(whole)
    const rest = sign === null ? whole : whole.slice(sign[0].length)
    return /[^\s"',;|]/.test(rest) ? [{ line, text: rest, isComment: sign !== null }] : []
  })
}

/** Cells of a line. A cell in quotes keeps separators inside; two quotes inside are one. */
export function cellsOf(text: string, separator: Separator): string[] {
  const cells: string[] = []
  let cell = ''
  let quote = ''
  const isSeparator = (letter: string): boolean =>
    separator === 'blanks' ? letter === ' ' || letter === '\t' : letter === separator
  const take = (): void => {
    const trimmed = cell.trim()
    if (separator !== 'blanks' || trimmed !== '') cells.push(trimmed)
    cell = ''
  }
  for (let i = 0; i < text.length && cells.length < MOST_CELLS; i++) {
    const letter = text[i] ?? ''
    if (quote !== '') {
      if (letter !== quote) cell += letter
      else if (text[i + 1] === quote) {
        cell += quote
        i++
      } else quote = ''
    } else if (letter === '"' && cell.trim() === '') quote = letter
    else if (isSeparator(letter)) take()
    else cell += letter
  }
  take()
  return cells
}
