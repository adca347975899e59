/** A recipe tried on the beginning of a report: what it reads, whom it blames, and which lines it leaves. */
import { type AddressMap, type BoardModel, compileAddressMap } from '../../board/index.ts'
import { BATCH_ROWS, newBatch, pushRow } from '../rows/batch.ts'
import { rowPlacer, startCounting } from '../count/counting.ts'
import type { Place } from '../names/labels.ts'
import { compilePlan, type Plan } from '../rows/recipe-plan.ts'
import type { Recipe } from '../recipe.ts'
import { recordCutter } from '../text/records.ts'
import { type NoRow, type Row, rowReader } from '../rows/row.ts'
import type { SampleLine } from '../text/shapes.ts'
import type { Tally } from '../tally.ts'
import { newTroubles } from '../rows/troubles.ts'

export interface TriedRow {
  readonly line: number
  readonly text: string
  readonly row: Row
  readonly place: Place | undefined
}

export interface Trial {
  readonly recipe: Recipe
  readonly plan: Plan
  readonly tally: Tally
  readonly rows: readonly TriedRow[]
  /** Lines that are no rows and head nothing. */
  readonly unread: readonly { readonly line: SampleLine; readonly why: NoRow }[]
  /** Ids of the lanes that fail by it. */
  readonly failing: readonly string[]
  readonly map: AddressMap | undefined
}

const MAX_LINES = 2500

/** Undefined where the recipe does not hold together, or the board lacks what it needs. */
export function tryRecipe(recipe: Recipe, model: BoardModel, lines: readonly SampleLine[]): Trial | undefined {
  const plan = compilePlan(recipe, model)
  if (!plan.ok) return undefined
  const troubles = newTroubles()
  const counting = startCounting(model, plan.value, troubles)
  if (!counting.ok) return undefined
  const read = rowReader(plan.value)
  const placeOf = rowPlacer(model, recipe.names)
  const rows: TriedRow[] = []
  const unread: { line: SampleLine; why: NoRow }[] = []
  const take = (text: string, number: number, isWhole = true): void => {
    // Where the sample ends in the middle of a record, the reader of the whole report tells whether that is so.
    if (!isWhole) return
    const row = read(text)
    if (row.kind === 'unreadable') unread.push({ line: { number, text }, why: row })
    if (row.kind !== 'row') return
    for (const one of [row, ...row.also]) {
      rows.push({ line: number, text, row: one, place: plan.value.level === 'labels' ? placeOf(one) : undefined })
    }
  }
  const cutter = recordCutter(recipe, take, (name) => plan.value.book?.isName(name) ?? false)
  let last = 0
  for (const line of lines.slice(0, MAX_LINES)) {
    if (cutter !== undefined && line.number > last + 1) cutter.line('', line.number - 1)
    if (cutter === undefined) take(line.text, line.number)
    else cutter.line(line.text, line.number)
    last = line.number
  }
  if (lines.length <= MAX_LINES) cutter?.end()
  const tally = countRows(counting.value, plan.value, rows, troubles)
  const map = model.addressMap === undefined ? undefined : compileAddressMap(model.addressMap)
  return {
    recipe,
    plan: plan.value,
    tally,
    rows,
    unread,
    failing: failingLanes(tally),
    map: map?.ok === true ? map.value : undefined,
  }
}

function countRows(
  counting: Extract<ReturnType<typeof startCounting>, { ok: true }>['value'],
  plan: Plan,
  rows: readonly TriedRow[],
  troubles: ReturnType<typeof newTroubles>,
): Tally {
  const batch = newBatch()
  const flush = (): void => counting.sink.batch(batch, () => ({ number: 0, text: '' }))
  for (const { row, line, text } of rows) {
    if (plan.level === 'labels') counting.sink.labelled(row, line, text)
    else pushRow(batch, row, 0)
    if (batch.rows === BATCH_ROWS) flush()
  }
  if (batch.rows > 0) flush()
  return counting.finish({ lines: rows.length, skipped: 0, unreadable: 0, isCut: false }, troubles, false)
}

const failingLanes = (tally: Tally): string[] =>
  tally.parts.flatMap((part) =>
    part.channels.flatMap((channel) => channel.lanes.flatMap((lane) => (lane.state === 'fail' ? [lane.id] : []))),
  )

/** The parts that a tally blames. */
export const blamedParts = (tally: Tally): string[] =>
  tally.parts.flatMap((part) =>
    part.channels.some((channel) => channel.lanes.some((lane) => lane.state === 'fail')) ? [part.ref] : [],
  )
