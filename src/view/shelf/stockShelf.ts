/** The shop's stock on the shelf: what is asked of it, in the browser's database and in memory. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { type StockItem, stockItemSchema } from '../../case/index.ts'
import type { Database, Within } from './database.ts'

export interface KeptStock {
  readonly items: readonly StockItem[]
  /** Lines that lie there and can't be read; they stay as they are. */
  readonly unreadable: number
}

/** A fault of any of these says in words what is wrong with the storage, or why a change was refused. */
export interface StockShelf {
  list(): Promise<Result<KeptStock>>
  /** One line as it is now, changed in one go: two tabs never take the same piece. Undefined: it goes. Refuses a line that is not there. */
  change(id: string, make: (item: StockItem) => Result<StockItem | undefined>): Promise<Result<undefined>>
  /** New lines, all or none; one of the same id is written over. */
  add(items: readonly StockItem[]): Promise<Result<undefined>>
}

const collator = new Intl.Collator('en', { numeric: true })
const byName = (a: StockItem, b: StockItem): number =>
  collator.compare(a.kind, b.kind) || collator.compare(a.what, b.what) || collator.compare(a.id, b.id)

function keptFrom(raw: readonly unknown[]): KeptStock {
  const read = raw.map((each) => stockItemSchema.safeParse(each))
  const items = read.flatMap((each) => (each.success ? [each.data] : []))
  return { items: items.toSorted(byName), unreadable: read.length - items.length }
}

const noSuchLine = (id: string): Fault => ({
  path: `stock ${id}`,
  found: say('no such line'),
  expected: say('a line of the stock'),
  todo: say('It may have been removed in another tab.'),
})

export function databaseStock(within: Within, onChanged: () => void): StockShelf {
  const told = <T>(work: Promise<Result<T>>): Promise<Result<T>> =>
    work.then((result) => {
      if (result.ok) onChanged()
      return result
    })
  return {
    list: () => within(async (database) => good(keptFrom(await database.getAll('stock')))),
    change: (id, make) => told(within((database) => changeIn(database, id, make))),
    add: (items) =>
      told(
        within(async (database) => {
          const tx = database.transaction('stock', 'readwrite', { durability: 'strict' })
          await Promise.all([...items.map((item) => tx.store.put(item)), tx.done])
          return good(undefined)
        }),
      ),
  }
}

async function changeIn(
  database: Database,
  id: string,
  make: (item: StockItem) => Result<StockItem | undefined>,
): Promise<Result<undefined>> {
  const tx = database.transaction('stock', 'readwrite', { durability: 'strict' })
  const read = stockItemSchema.safeParse(await tx.store.get(id))
  const made = read.success ? make(read.data) : bad(noSuchLine(id))
  if (made.ok) await (made.value === undefined ? tx.store.delete(id) : tx.store.put(made.value))
  await tx.done
  return made.ok ? good(undefined) : made
}

export function stockInMemory(onChanged: () => void): StockShelf {
  const kept = new Map<string, StockItem>()
  return {
    list: async () => good(keptFrom([...kept.values()])),
    change: async (id, make) => {
      const before = kept.get(id)
      const made = before === undefined ? bad(noSuchLine(id)) : make(before)
      if (!made.ok) return made
      if (made.value === undefined) kept.delete(id)
      else kept.set(id, made.value)
      onChanged()
      return good(undefined)
    },
    add: async (items) => {
      for (const item of items) kept.set(item.id, item)
      onChanged()
      return good(undefined)
    },
  }
}
