/** Lines over rows that say what all of them share, such as the pattern that was written. */
import { lookAtColumn } from './columns.ts'
import { patternCut } from './pattern-cut.ts'
import type { RowKind } from '../recipe.ts'
import { rowShapes, type SampleLine } from '../text/shapes.ts'

/**
 * Kinds of lines that tell the expected word of the rows below.
 * @param others lines that are no rows
 * @param firstRow the number of the first row: at least one such line must stand above it
 */
export function headKinds(others: readonly SampleLine[], firstRow: number): RowKind[] {
  for (const lines of rowShapes(others).flatMap((shape) => alike(shape.lines))) {
    if ((lines[0]?.number ?? Number.POSITIVE_INFINITY) > firstRow) continue
    for (const cut of patternCut(lines, () => false) ?? []) {
      const looks = cut.columns.map((column) => lookAtColumn(column.at, column.texts, column.heading, undefined))
      const expected = looks.filter((look) => look.role === 'expected' && look.base === 'hex')
      const [only] = expected
      if (only !== undefined && expected.length === 1) {
        return [{ layout: cut.layout, columns: [{ role: 'expected', at: only.at, base: 'hex' }] }]
      }
    }
  }
  return []
}

/** Lines of one shape by their first word: `Writing pattern 0x55` is another thing than `errors total 12`. */
function alike(lines: readonly SampleLine[]): SampleLine[][] {
  const groups = new Map<string, SampleLine[]>()
  for (const line of lines) {
    const word = /\p{L}+/u.exec(line.text)?.[0] ?? ''
    const group = groups.get(word)
    if (group === undefined) groups.set(word, [line])
    else group.push(line)
  }
  return [...groups.values()]
}
