/** The database: older forms are brought up, newer ones left alone, others in the way are told, and no save is half. */
import { type IDBPDatabase, openDB } from 'idb'
import { serialize } from 'node:v8'
import { afterEach, expect, test, vi } from 'vitest'
import { CASE_VERSION, startHistory, step } from '../../src/case/index.ts'
import type { CaseShelf, ShelfChange } from '../../src/view/shelf/caseShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { createPacker } from '../../src/view/shelf/packing.ts'
import { unpackContent } from '../../src/view/shelf/unpacking.ts'
import { sees } from '../support/waiting.ts'
import { BOARD, board, caseOf, edited, fixture, freshName, ticking, titles, value } from './support.ts'

const opened: { close(): void }[] = []
afterEach(() => {
  vi.restoreAllMocks()
  for (const each of opened.splice(0)) each.close()
})

function open(name = freshName(), now = ticking()): CaseShelf & { name: string } {
  const shelf = openDatabaseShelf({ name, now })
  opened.push(shelf)
  return Object.assign(shelf, { name })
}

/** The database beside the shelf, to look into or to spoil. */
async function beside(name: string): Promise<IDBPDatabase> {
  const database = await openDB(name)
  opened.push(database)
  return database
}

const save = (shelf: CaseShelf, id: string, edits = 0, basedOnRev = 0) =>
  shelf.save({ id, history: edited(caseOf(), edits), boardName: BOARD, basedOnRev })

/** As the first form of the database had it: no notes, no index over files. */
async function databaseOfVersion1(name: string): Promise<IDBPDatabase> {
  const database = await openDB(name, 1, {
    upgrade: (db) => {
      db.createObjectStore('entries', { keyPath: 'id' })
      db.createObjectStore('contents', { keyPath: 'id' })
      db.createObjectStore('parts', { keyPath: ['of', 'key'] })
      db.createObjectStore('files', { keyPath: 'id' })
    },
  })
  const old = fixture('case-version-1/wept-fitting.case.json')
  const present = { ...Object(old), board: { part: 'p1' }, title: 'kept since version 1' }
  const earlier = { ...present, title: 'an earlier title' }
  await database.put('entries', { id: 'a', rev: 7, version: 1, title: present.title, boardName: BOARD })
  await database.put('contents', { id: 'a', present, past: [earlier, { title: 'unreadable' }], future: [] })
  await database.put('parts', { of: 'a', key: 'p1', value: board })
  await database.put('files', { id: 'photo-1', bytes: new Blob(['x']), putAt: 1 })
  return database
}

test('a database of version 1 is brought up with everything in it', async () => {
  const name = freshName()
  ;(await databaseOfVersion1(name)).close()
  const shelf = open(name)
  const stored = value(await shelf.load('a'))
  expect(stored.entry.rev).toBe(7)
  expect(stored.history.present).toMatchObject({
    version: CASE_VERSION,
    title: 'kept since version 1',
    measurements: [],
  })
  expect(stored.history.past.map(({ title }) => title)).toEqual(['an earlier title'])
  expect(stored.droppedSteps).toBe(1)
  await shelf.setLastOpen('a')
  expect(value(await shelf.lastOpen())).toBe('a')
})

test('an older tab that holds the database is told of, and once it lets go everything is there', async () => {
  const name = freshName()
  const old = await databaseOfVersion1(name)
  const shelf = open(name)
  const told: ShelfChange[] = []
  shelf.subscribe((change) => told.push(change))
  const refused = await shelf.list()
  expect(!refused.ok && refused.faults[0]?.found).toMatch(/older Liftmap in another tab/)
  const again = await save(shelf, 'b')
  expect(!again.ok && again.faults[0]?.todo).toMatch(/stays in this page/)
  expect(told).toEqual([])
  old.close()
  await sees(async () => expect(titles(await shelf.list())).toEqual(['kept since version 1']))
  expect(told).toContainEqual({ kind: 'opened' })
})

test('a newer Liftmap is not kept waiting; after it this one says to load the page anew', async () => {
  const shelf = open()
  await save(shelf, 'a')
  const newer = await openDB(shelf.name, 99)
  opened.push(newer)
  const refused = await save(shelf, 'a', 1, 1)
  expect(!refused.ok && refused.faults[0]?.found).toMatch(/newer Liftmap/)
  expect((await newer.get('entries', 'a')).rev).toBe(1)
})

test('a case in a newer form is listed and refused, and archiving it loses nothing that only the newer one knows', async () => {
  const shelf = open()
  await save(shelf, 'a')
  const database = await beside(shelf.name)
  await database.put('entries', { ...(await database.get('entries', 'a')), version: 99, futureField: 'kept' })
  expect(value(await shelf.list())[0]?.newer).toBe(true)
  const refused = await shelf.load('a')
  expect(!refused.ok && refused.faults[0]?.found).toMatch(/newer Liftmap/)
  value(await shelf.archive('a', true))
  expect(await database.get('entries', 'a')).toMatchObject({ version: 99, futureField: 'kept', archived: true })
})

test('a step of undo that can’t be read is left out; a present state that can’t be read is refused and stays', async () => {
  const shelf = open()
  await save(shelf, 'a', 3)
  const database = await beside(shelf.name)
  const content = await database.get('contents', 'a')
  await database.put('contents', { ...content, past: [content.past[0], { nonsense: true }, content.past[2]] })
  const stored = value(await shelf.load('a'))
  expect(stored.history.past.map(({ arrival }) => arrival.account)).toEqual(['', 'edit 2'])
  expect(stored.droppedSteps).toBe(1)
  await database.put('contents', { ...content, present: { ...content.present, marks: 'none', card: 7 } })
  const refused = await shelf.load('a')
  expect(!refused.ok && refused.faults.map(({ path }) => path)).toEqual(['$.card', '$.marks'])
  expect(titles(await shelf.list())).toEqual(['a card'])
})

test.each([
  [
    'refused at once',
    () => {
      throw new DOMException('no room', 'QuotaExceededError')
    },
  ],
  [
    'refused when it is to be settled',
    (store: IDBObjectStore) => {
      const abort: unknown = Reflect.get(store.transaction, '_abort')
      queueMicrotask(() => typeof abort === 'function' && abort.call(store.transaction, 'QuotaExceededError'))
    },
  ],
])('storage that is full, %s, is told as such, and the case stays as it was', async (_, refuse) => {
  const shelf = open()
  await save(shelf, 'a', 1)
  const descriptor = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'put')
  Object.defineProperty(IDBObjectStore.prototype, 'put', {
    ...descriptor,
    value: function (this: IDBObjectStore, ...given: unknown[]): unknown {
      if (this.name === 'contents') refuse(this)
      return Reflect.apply(descriptor?.value, this, given)
    },
  })
  const refused = await save(shelf, 'a', 5, 1)
  expect(!refused.ok && refused.faults[0]?.found).toMatch(/no room left/)
  Object.defineProperty(IDBObjectStore.prototype, 'put', descriptor ?? {})
  expect(value(await shelf.load('a'))).toMatchObject({ entry: { rev: 1 }, history: { past: [{}] } })
  expect(value(await save(shelf, 'a', 5, 1))).toEqual({ kind: 'saved', rev: 2 })
})

test('two shelves on one database: the second to save is refused and hears of the first', async () => {
  const first = open()
  const second = open(first.name)
  await save(first, 'a', 1)
  value(await second.load('a'))
  const heard: ShelfChange[] = []
  second.subscribe((change) => heard.push(change))
  const both = await Promise.all([save(first, 'a', 2, 1), save(second, 'a', 9, 1)])
  const outcomes = both.map(value)
  expect(outcomes.filter(({ kind }) => kind === 'saved')).toHaveLength(1)
  expect(outcomes.filter(({ kind }) => kind === 'changed-elsewhere')).toHaveLength(1)
  const won = outcomes[0]?.kind === 'saved' ? 'edit 2' : 'edit 9'
  expect(value(await second.load('a')).history.present.arrival.account).toBe(won)
  await sees(() => expect(heard.some(({ kind }) => kind === 'saved')).toBe(true))
})

test('what was deleted goes for good after an hour, and files that no case names after a day', async () => {
  let now = Date.UTC(2026, 2, 1)
  const name = freshName()
  const shelf = openDatabaseShelf({ name, now: () => now })
  const withPhoto = caseOf({
    photos: [{ id: 'named', name: 'p.png', type: 'image/png', bytes: 1, widthPx: 1, heightPx: 1, side: 'top' }],
  })
  await shelf.save({ id: 'a', history: startHistory(withPhoto), boardName: BOARD, basedOnRev: 0 })
  await save(shelf, 'b')
  for (const id of ['named', 'orphan']) value(await shelf.files.put(id, new Blob([id])))
  await shelf.remove('b')
  shelf.close()
  now += 25 * 3_600_000
  const again = openDatabaseShelf({ name, now: () => now })
  opened.push(again)
  expect(titles(await again.list())).toEqual(['a card'])
  await sees(async () => expect(await again.files.get('orphan')).toBeUndefined())
  expect(await (await again.files.get('named'))?.text()).toBe('named')
  expect((await again.restore('b')).ok).toBe(false)
})

test('two hundred steps over one long report take hardly more room than one, before and after they were read', () => {
  const long = 'lane,errors\n'.repeat(100_000)
  const history = edited(caseOf({ reports: [{ name: 'run.csv', text: long }] }), 200)
  let keys = 0
  const packed = createPacker('a', new Map(), () => `k${++keys}`).pack(history)
  expect([...packed.parts.values()].filter((part) => part === long)).toHaveLength(1)
  expect(packed.parts.size).toBe(2)
  const bytes = serialize(packed.content).length
  expect(bytes).toBeLessThan(400_000)
  const read = value(unpackContent(structuredClone(packed.content), packed.parts))
  expect(read.history.past.map(({ arrival }) => arrival)).toEqual(history.past.map(({ arrival }) => arrival))
  for (const at of [0, 99, 199]) expect(read.history.past[at]).toEqual(history.past[at])
  const again = createPacker('a', read.known, () => `k${++keys}`).pack(read.history)
  expect([...again.parts.keys()]).toEqual([...packed.parts.keys()])
  expect(serialize(again.content).length).toBeLessThan(bytes * 1.5)
})

test('a text that changes is kept anew, and the old one goes with its last step', async () => {
  const shelf = open()
  const report = (letter: string) => ({
    id: 'r',
    name: 'run.csv',
    text: letter.repeat(20_000),
    run: 'first' as const,
    coversAll: false,
  })
  const first = caseOf({ reports: [report('a')] })
  const history = step(startHistory(first), { ...first, reports: [report('b')] })
  await shelf.save({ id: 'a', history, boardName: BOARD, basedOnRev: 0 })
  const database = await beside(shelf.name)
  expect(await database.count('parts')).toBe(3)
  await shelf.save({ id: 'a', history: startHistory(history.present), boardName: BOARD, basedOnRev: 1 })
  expect(await database.count('parts')).toBe(2)
  expect(value(await shelf.load('a')).history.present.reports[0]?.text).toBe('b'.repeat(20_000))
})

test('steps that change one field of many come back whole, whatever they share', () => {
  const first = caseOf({
    arrival: { account: 'x' },
    marks: [{ kind: 'note', id: 'n', side: 'top', at: { x: 1, y: 1 }, text: 'a' }],
  })
  const other = { ...first.marks[0], id: 'm' }
  let history = startHistory(first)
  history = step(history, {
    ...history.present,
    marks: [...history.present.marks, ...caseOf({ marks: [other] }).marks],
  })
  history = step(history, { ...history.present, reports: caseOf({ reports: [{ name: 'r', text: 'y' }] }).reports })
  history = step(history, { ...history.present, marks: [] })
  history = step(history, { ...history.present, title: 'renamed', marks: first.marks })
  const packed = createPacker('a', new Map(), () => 'k').pack(history)
  const read = value(unpackContent(structuredClone(packed.content), packed.parts))
  expect(read.history).toEqual(history)
  expect(read.history.past[0]?.marks).toBe(read.history.present.marks)
})
