/** The stock as comma-separated values and back, as RFC 4180 (Y. Shafranovich, 2005) has them: CRLF, quotes doubled, one head. */
import Papa from 'papaparse'
import { bad, type Fault, faultsFromZod, good, joined, type Result, say } from '../../base/index.ts'
import { type StockDraft, type StockItem, stockItemSchema } from '../../case/index.ts'

const columns = [
  ['kind', ({ kind }) => kind],
  ['what', ({ what }) => what],
  ['package', (item) => item.package],
  ['count', ({ count }) => String(count)],
  ['place', ({ place }) => place],
  ['price', ({ price }) => (price === undefined ? '' : String(price))],
  ['source', ({ source }) => source],
  ['donor', ({ donor }) => donor],
  ['donor ref', ({ donorRef }) => donorRef],
  ['taken on', ({ takenOn }) => takenOn ?? ''],
  ['ordered', ({ ordered }) => String(ordered)],
  ['expected on', ({ expectedOn }) => expectedOn ?? ''],
  ['note', ({ note }) => note],
] as const satisfies readonly (readonly [string, (item: StockItem) => string])[]

/** What begins so is worked out by spreadsheets; an apostrophe before it keeps it text, and comes off again on the way in. */
const FORMULA = /^[=+\-@\t\r]/
const guarded = (text: string): string => (FORMULA.test(text) || text.startsWith("'") ? `'${text}` : text)
const unguarded = (text: string): string => (text.startsWith("'") ? text.slice(1) : text)

/** Every item a row; what cases have taken stays in the shop. */
export const stockCsv = (items: readonly StockItem[]): string =>
  `${Papa.unparse(
    {
      fields: columns.map(([name]) => name),
      data: items.map((item) => columns.map(([, tell]) => guarded(tell(item)))),
    },
    { newline: '\r\n' },
  )}\r\n`

/**
 * Rows as items, each with a new id. Refuses the whole file with every fault: a missing column, a row that is no item.
 * Columns that it does not know are left out.
 */
export function readStockCsv(text: string, newId: () => string): Result<StockItem[]> {
  const parsed = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: 'greedy',
    transformHeader: (head) => head.trim().toLowerCase(),
  })
  const heads = parsed.meta.fields ?? []
  const missing = ['kind', 'what', 'count'].filter((name) => !heads.includes(name))
  if (missing.length > 0)
    return bad({
      path: say('the first row'),
      found: heads.join(', ') || say('nothing'),
      expected: say('columns kind, what and count; {missing} {count, plural, one {is} other {are}} missing', {
        missing: joined(missing),
        count: missing.length,
      }),
      todo: say('Export the list once: its first row shows all columns.'),
    })
  const faults: Fault[] = parsed.errors.map(({ row, message }) => ({
    path: say('row {row}', { row: (row ?? 0) + 2 }),
    found: message,
    expected: say('as many values as columns, quotes closed'),
  }))
  const items = parsed.data.flatMap((row, i) => {
    const read = stockItemSchema.safeParse(draftOf(row, newId()))
    if (read.success) return [read.data]
    faults.push(
      ...faultsFromZod(read.error, row).map((fault) => ({
        ...fault,
        path: `${say('row {row}', { row: i + 2 })} ${fault.path}`,
      })),
    )
    return []
  })
  return faults.length > 0 ? bad(...faults) : good(items)
}

function draftOf(row: Readonly<Record<string, string>>, id: string): Record<keyof StockDraft, unknown> {
  const text = (name: string): string => unguarded((row[name] ?? '').trim())
  const number = (name: string): number | string | undefined => {
    const typed = text(name)
    return typed === '' ? undefined : /^\d+(?:[.,]\d+)?$/.test(typed) ? Number(typed.replace(',', '.')) : typed
  }
  const orNothing = (name: string): string | undefined => text(name) || undefined
  return {
    id,
    kind: text('kind').toLowerCase(),
    what: text('what'),
    package: text('package'),
    count: number('count'),
    place: text('place'),
    price: number('price'),
    source: orNothing('source')?.toLowerCase(),
    donor: text('donor'),
    donorRef: text('donor ref'),
    takenOn: orNothing('taken on'),
    ordered: number('ordered') ?? 0,
    expectedOn: orNothing('expected on'),
    reserved: [],
    note: text('note'),
    removedOn: undefined,
  }
}
