/** Lines that a reading leaves although they may tell of errors. */
import type { NameBook } from '../names/names.ts'
import { namedReader } from '../names/named.ts'
import { LIMITS } from './likelihoods.ts'
import { type SampleLine, shapeOf } from '../text/shapes.ts'
import { tokensOf } from '../text/tokens.ts'
import type { Trial } from './trial.ts'

export type LineTeller = (trial: Trial) => readonly SampleLine[]

/** A line of nothing but white space, which no reading has to explain. */
export const isBlankLine = (text: string): boolean => text.trim() === ''

/** It begins with a word that is no number. */
export const isProse = (text: string): boolean => /^\s*\p{L}{3,}/u.test(text) && !/^\s*[0-9a-f]+h?\b/i.test(text)

const RECURRING = 3

/**
 * @param book the board's names
 * @param cutLine the last line, where the text ends in the middle of it: that is told apart
 */
export function lineTeller(book: NameBook, cutLine?: number): LineTeller {
  return (trial) => {
    if (trial.rows.length === 0) return []
    const placed = trial.rows.filter((row) => trial.plan.level === 'words' || row.place !== undefined)
    const own = placed.length > 0 ? placed : trial.rows
    const first = own[0]?.line ?? 0
    const last = own.at(-1)?.line ?? 0
    const shapes = new Set(placed.slice(0, 500).map((row) => shapeOf(row.text).key))
    const read = namedReader(book)
    const areProse = trial.rows.some((row) => isProse(row.text))
    const recurring = new Map<string, number>()
    for (const { line } of trial.unread) {
      const { key } = shapeOf(line.text)
      recurring.set(key, (recurring.get(key) ?? 0) + 1)
    }
    const found = trial.unread.filter(({ line, why }) => {
      if (line.number === cutLine) return false
      const { key, numbers } = shapeOf(line.text)
      const again = (recurring.get(key) ?? 0) >= RECURRING
      if (shapes.has(key) && numbers > 0) return true
      if (read(line.text).statements.some((statement) => book.place(statement.labels) !== undefined)) return true
      const within = line.number > first && line.number < last
      const opensOtherwise = isProse(line.text) && !areProse
      const hex = tokensOf(line.text).some((token) => token.kind === 'hex' && token.text.length >= 6)
      if ((hex && line.number > first) || ((hex || (why.looksLikeRow && !opensOtherwise)) && (within || again)))
        return hex || numbers >= 2
      return line.number > first && again && numbers >= 2 && (recurring.get(key) ?? 0) > 0.3 * trial.rows.length
    })
    const strange = trial.rows.filter(
      (row) =>
        trial.plan.level === 'labels' &&
        row.place === undefined &&
        row.row.of === undefined &&
        trial.plan.layout.kind !== 'delimited' &&
        !shapes.has(shapeOf(row.text).key) &&
        namesSomething(book, row.text),
    )
    const more = strange.map(({ line, text }) => ({ number: line, text }))
    const all = [...found.map(({ line }) => line), ...more]
    return all.length > LIMITS.oddLines.value * trial.rows.length ? all : []
  }
}

/** A lane's own name stands in it, which means something under a heading only. */
const namesSomething = (book: NameBook, text: string): boolean => {
  const tokens = tokensOf(text)
  return tokens.some((_, i) => book.at(tokens, i) !== undefined)
}
