/** A row of blank-separated words laid under headings: values with blanks inside take several words, empty ones none. */
import { typedLength } from '../units.ts'
import { type Role, sideNamed } from './headings.ts'

const NUMBERS: ReadonlySet<Role> = new Set(['x', 'y', 'rotation', 'height'])
const TEXTS: ReadonlySet<Role> = new Set(['value', 'package', 'other'])

/**
 * The words by column. One text column takes what is over or goes empty, tried from the last; undefined where numbers
 * and sides then stand in the wrong columns.
 */
export function fitWords(words: readonly string[], roles: readonly Role[]): string[] | undefined {
  const over = words.length - roles.length
  if (over === 0) return fits(words, roles) ? [...words] : undefined
  const texts = [...roles.keys()].filter((i) => TEXTS.has(roles[i] ?? 'other')).toReversed()
  for (const text of texts) {
    const width = over + 1
    if (width < 0) continue
    const cells = [...words.slice(0, text), words.slice(text, text + width).join(' '), ...words.slice(text + width)]
    if (fits(cells, roles)) return cells
  }
  return undefined
}

function fits(cells: readonly string[], roles: readonly Role[]): boolean {
  return (
    cells.length === roles.length &&
    roles.every((role, i) => {
      const cell = cells[i] ?? ''
      if (NUMBERS.has(role)) return typedLength(cell) !== undefined
      return role !== 'side' || sideNamed(cell) !== undefined
    })
  )
}
