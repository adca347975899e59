/** The first rows of a report, read with a recipe, for a person to look at. */
import { sayFault } from '../base/index.ts'
import { compileCells } from './cells.ts'
import { compilePlan } from './plan.ts'
import type { ColumnRole, Recipe } from './recipe.ts'
import { rowReader } from './row.ts'
import { firstLines, MAX_SAMPLE_LINES, showLine, stripColourCodes } from './text.ts'

export interface PreviewRow {
  /** From 1. */
  readonly line: number
  readonly text: string
  /** The cells of all the recipe’s columns, in its order, those that it ignores too. */
  readonly cells: readonly { readonly role: ColumnRole; readonly text: string }[]
  /** Why it can't be read; undefined for a row that can. */
  readonly problem: string | undefined
}

/**
 * The first rows of a sample the way the recipe reads them, from the first that reads (or looks like a row) on.
 * @param limit how many rows at most
 */
export function previewRows(sample: string, recipe: Recipe, limit = 12): PreviewRow[] {
  const plan = compilePlan(recipe)
  if (!plan.ok) return [{ line: 0, text: '', cells: [], problem: plan.faults.map(sayFault).join(' ') }]
  const cells = compileCells(recipe.layout, recipe.columns)
  if (!cells.ok) return [{ line: 0, text: '', cells: [], problem: cells.faults.map(sayFault).join(' ') }]
  const read = rowReader(plan.value)
  const rows: PreviewRow[] = []
  for (const [i, text] of firstLines(sample.replace(/^\uFEFF/, ''), MAX_SAMPLE_LINES).entries()) {
    if (rows.length >= limit) break
    const row = read(text)
    if (row.kind === 'blank' || row.kind === 'passed-over') continue
    if (row.kind === 'unreadable' && rows.length === 0 && !row.looksLikeRow) continue
    const texts = cells.value(stripColourCodes(text))
    rows.push({
      line: i + 1,
      text: showLine(text),
      cells: recipe.columns.map((column, c) => ({ role: column.role, text: texts[c] ?? '' })),
      problem: row.kind === 'unreadable' ? row.why : undefined,
    })
  }
  return rows
}
