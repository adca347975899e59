/** A sentence cut at its numbers: chances, temperatures, and what else is asked for by its unit or as it is written. */

export interface Piece {
  readonly text: string
  readonly isNumber: boolean
}

export interface Wanted {
  /** Beside those of chances and temperatures, such as the currency. */
  readonly units?: readonly string[]
  /** As they stand in the words. */
  readonly numbers?: readonly string[]
}

/** With points, commas or narrow blanks between its digits, as each manner writes it. */
const NUMBER = String.raw`[+−]?\d+(?:[.,\u202f]\d+)*`

/** All of the words, in pieces that are numbers or none. */
export function numbersIn(words: string, { units = [], numbers = [] }: Wanted): Piece[] {
  const written = numbers.filter((number) => number !== '').map(escaped)
  const known = ['%', '°C', ...units.map(escaped)].join('|')
  const byUnit = String.raw`(?:(?:over|under) |${NUMBER} to )?${NUMBER}[ \u00a0](?:${known})(?![\p{L}²])`
  const number = new RegExp(String.raw`(?<![\d.,\u202f])(?:${[...written, byUnit].join('|')})(?!\d)`, 'gu')
  const pieces: Piece[] = []
  let from = 0
  for (const { 0: text, index } of words.matchAll(number)) {
    if (index > from) pieces.push({ text: words.slice(from, index), isNumber: false })
    pieces.push({ text, isNumber: true })
    from = index + text.length
  }
  if (from < words.length) pieces.push({ text: words.slice(from), isNumber: false })
  return pieces
}

const escaped = (text: string): string => text.replaceAll(/[$()*+.?[\\\]^{|}]/g, String.raw`\$&`)
