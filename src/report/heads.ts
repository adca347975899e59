/** Lines over rows that say what all of them share, such as the pattern that was written. */
import { lookAtColumn } from './columns.ts'
import { patternCut } from './patterncut.ts'
import type { RowKind } from './recipe.ts'
import { rowShapes, type SampleLine } from './shapes.ts'

/**
 * Kinds of lines that tell the expected word of the rows below.
 * @param others lines that are no rows
 * @param firstRow the number of the first row: at least one such line must stand above it
 */
export function headKinds(others: readonly SampleLine[], firstRow: number): RowKind[] {
  for (const shape of rowShapes(others)) {
    if ((shape.lines[0]?.number ?? Number.POSITIVE_INFINITY) > firstRow) continue
    for (const cut of patternCut(shape.lines, () => false) ?? []) {
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
