/** The shop's stock in the browser's database: a database before it is brought up, and no piece is taken twice. */
import { openDB } from 'idb'
import { afterEach, expect, test } from 'vitest'
import { good } from '../../src/base/index.ts'
import { stockItemSchema, takeForCase } from '../../src/case/index.ts'
import { caseShelfInMemory } from '../../src/view/shelf/memoryShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import type { CaseShelf, ShelfChange } from '../../src/view/shelf/caseShelf.ts'
import { board, freshName, ticking, value } from './support.ts'

const opened: { close(): void }[] = []
afterEach(() => {
  for (const each of opened.splice(0)) each.close()
})

function open(name = freshName()): CaseShelf {
  const shelf = openDatabaseShelf({ name, now: ticking() })
  opened.push(shelf)
  return shelf
}

const memory = stockItemSchema.parse({ id: 'm', kind: 'memory', what: '8 Gbit', package: '180-ball', count: 1 })

/** As the third form of the database had it: boards of one's own, no stock. */
async function databaseOfVersion3(name: string): Promise<void> {
  const database = await openDB(name, 3, {
    upgrade: (db) => {
      db.createObjectStore('entries', { keyPath: 'id' })
      db.createObjectStore('contents', { keyPath: 'id' })
      db.createObjectStore('parts', { keyPath: ['of', 'key'] })
      db.createObjectStore('files', { keyPath: 'id' }).createIndex('putAt', 'putAt')
      db.createObjectStore('notes')
      db.createObjectStore('boardVersions', { keyPath: ['board', 'number'] })
    },
  })
  await database.put('boardVersions', {
    board: 'b',
    number: 1,
    at: 5,
    who: 'bench two',
    changed: [],
    description: board,
  })
  await database.put('notes', 'a', 'last open')
  database.close()
}

test('a database of version 3 gets a stock that is empty, and keeps its boards and notes', async () => {
  const name = freshName()
  await databaseOfVersion3(name)
  const shelf = open(name)
  expect(value(await shelf.stock.list())).toEqual({ items: [], unreadable: 0 })
  expect(value(await shelf.boards.list()).boards.map(({ versions }) => versions[0]?.who)).toEqual(['bench two'])
  expect(value(await shelf.lastOpen())).toBe('a')
})

test.each([
  ['the database', (): CaseShelf => open()],
  ['memory', (): CaseShelf => caseShelfInMemory()],
])('in %s lines are added, changed and removed, and each change is told', async (_, make) => {
  const shelf = make()
  const told: ShelfChange['kind'][] = []
  shelf.subscribe(({ kind }) => kind === 'stock' && told.push(kind))
  value(await shelf.stock.add([memory, { ...memory, id: 'n', count: 3 }]))
  value(await shelf.stock.change('n', (item) => good({ ...item, count: item.count + 1 })))
  value(await shelf.stock.change('m', () => good(undefined)))
  expect(value(await shelf.stock.list()).items).toEqual([{ ...memory, id: 'n', count: 4 }])
  const gone = await shelf.stock.change('m', (item) => good(item))
  expect(!gone.ok && gone.faults[0]?.found).toBe('no such line')
  expect(told.length).toBe(3)
})

test('two tabs that take the last piece at once: one gets it, the other is told that nothing is free', async () => {
  const name = freshName()
  const [one, other] = [open(name), open(name)]
  value(await one.stock.add([memory]))
  const both = await Promise.all([
    one.stock.change('m', (item) => takeForCase(item, { caseId: 'a', card: '0417' }, 1)),
    other.stock.change('m', (item) => takeForCase(item, { caseId: 'b', card: '0418' }, 1)),
  ])
  expect(both.filter(({ ok }) => ok).length).toBe(1)
  expect(value(await one.stock.list()).items[0]?.reserved.length).toBe(1)
})

test('a line that can’t be read is counted and stays where it is', async () => {
  const name = freshName()
  const shelf = open(name)
  value(await shelf.stock.add([memory]))
  const database = await openDB(name)
  opened.push(database)
  await database.put('stock', { id: 'x', kind: 'unheard of' })
  expect(value(await shelf.stock.list())).toMatchObject({ items: [{ id: 'm' }], unreadable: 1 })
  expect(await database.get('stock', 'x')).toBeDefined()
})
