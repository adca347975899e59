/** The look of a report's text: headings, separators and words, numbers and names apart; by it a kept recipe is found again. */
import { verdictOf } from '../../text/quantity.ts'
import type { SampleLine } from '../../text/shapes.ts'
import { tokensOf } from '../../text/tokens.ts'

const LINES_LOOKED_AT = 400
const MOST_LINES = 12
const MAX_LENGTH = 160
/** Share of the kept lines that a report must have to look like it. */
const ALIKE = 0.6
/** The look of words that somebody handed over without saying what report they are of. */
const ANY = '*'

/**
 * The most frequent lines, most first, with numbers, names and verdicts made the same.
 * @param lines the beginning of a report
 */
export function lookOf(lines: readonly SampleLine[]): string[] {
  const counts = new Map<string, number>()
  for (const { text } of lines.slice(0, LINES_LOOKED_AT)) {
    const look = lookOfLine(text)
    if (look !== '') counts.set(look, (counts.get(look) ?? 0) + 1)
  }
  return [...counts]
    .toSorted((a, b) => b[1] - a[1])
    .slice(0, MOST_LINES)
    .map(([look]) => look)
}

/** Whether a report looks as the kept one did: its most frequent line is there, and most of the others. */
export function looksAlike(kept: readonly string[], lines: readonly SampleLine[]): boolean {
  const [rows] = kept
  if (rows === ANY) return true
  if (rows === undefined || lines.length === 0) return false
  const own = new Set(lines.slice(0, LINES_LOOKED_AT).map(({ text }) => lookOfLine(text)))
  if (!own.has(rows)) return false
  return kept.filter((look) => own.has(look)).length >= ALIKE * kept.length
}

/** `C3 low: 1432 errors` and `C7 low: 0 errors` look the same: `@ low: # errors`. */
function lookOfLine(text: string): string {
  let look = ''
  let behind = 0
  for (const token of tokensOf(text.slice(0, 4 * MAX_LENGTH))) {
    const gap = text.slice(behind, token.from)
    const blank = gap.includes('\t') ? '\t' : gap === '' ? '' : ' '
    behind = token.to
    look += blank + kindOf(token)
  }
  return look
    .trim()
    .replace(/(?:# )+#/g, '#')
    .slice(0, MAX_LENGTH)
}

function kindOf({ kind, text }: ReturnType<typeof tokensOf>[number]): string {
  if (kind === 'mark') return text
  const isName = /\d/.test(text) && /^\p{L}/u.test(text) && text.length < 4
  if (isName || (kind === 'word' && /\d/.test(text))) return '@'
  if (kind !== 'word') return '#'
  return verdictOf(text) !== undefined && !/^errors?$/i.test(text) ? '!' : text.toLowerCase()
}
