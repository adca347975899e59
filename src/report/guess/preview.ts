/** The first rows of a report, read with a recipe, for a person to look at. */
import { sayFault } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { compileCells } from '../text/cells.ts'
import { compilePlan } from '../rows/recipe-plan.ts'
import type { ColumnRole, Recipe } from '../recipe.ts'
import { recordCutter } from '../text/records.ts'
import { type NoRow, type Row, rowReader } from '../rows/row.ts'
import { firstLines, MAX_SAMPLE_LINES, showLine, stripColourCodes } from '../text/text.ts'

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
export function previewRows(sample: string, recipe: Recipe, limit = 12, model?: BoardModel): PreviewRow[] {
  const plan = compilePlan(recipe, model)
  if (!plan.ok) return [{ line: 0, text: '', cells: [], problem: plan.faults.map(sayFault).join(' ') }]
  const cells = compileCells(recipe.layout, recipe.columns)
  if (!cells.ok) return [{ line: 0, text: '', cells: [], problem: cells.faults.map(sayFault).join(' ') }]
  const read = rowReader(plan.value)
  const rows: PreviewRow[] = []
  const take = (text: string, line: number): void => {
    if (rows.length >= limit) return
    const row = read(text)
    if (row.kind === 'blank' || row.kind === 'passed-over') return
    if (row.kind === 'unreadable' && rows.length === 0 && !row.looksLikeRow) return
    const texts = cells.value(stripColourCodes(text))
    rows.push({
      line,
      text: showLine(text),
      cells: recipe.columns.map((column, c) => ({ role: column.role, text: texts[c] ?? saidBy(row, column.role) })),
      problem: row.kind === 'unreadable' ? row.why : undefined,
    })
  }
  const cutter = recordCutter(recipe, take, (name) => plan.value.book?.isName(name) ?? false)
  for (const [i, text] of firstLines(sample.replace(/^\uFEFF/, ''), MAX_SAMPLE_LINES).entries()) {
    if (rows.length >= limit) break
    if (cutter === undefined) take(text, i + 1)
    else cutter.line(text, i + 1)
  }
  if (rows.length < limit) cutter?.end()
  return rows
}

/** What a row says where its layout has no cells. */
function saidBy(row: Row | NoRow, role: ColumnRole): string {
  if (row.kind !== 'row') return ''
  const labels = [row.part, row.channel, row.lane].filter((label) => label !== undefined).join(' ')
  return role === 'part' ? labels : role === 'count' ? String(row.count) : ''
}
