/** One's own boards on both kinds of shelf: every version stays as it was kept, and no version takes another's number. */
import { openDB } from 'idb'
import { afterEach, describe, expect, test } from 'vitest'
import { applyEdit, type BoardDescription, boardSchema } from '../../src/board/index.ts'
import { startHistory } from '../../src/case/index.ts'
import type { CaseShelf, ShelfChange } from '../../src/view/shelf/caseShelf.ts'
import { contentOf, latestOf } from '../../src/view/shelf/boardShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { BOARD, board, caseOf, freshName, kinds, ticking, value } from './support.ts'

const opened: { close(): void }[] = []
afterEach(() => {
  for (const each of opened.splice(0)) each.close()
})

const first = boardSchema.parse(board)
const moved: BoardDescription = value(applyEdit(first, { kind: 'move', refs: ['U11'], byMm: { x: 1, y: 0 } }))
const version = (description: BoardDescription, at: number, who = 'Mira') => ({
  at,
  who,
  changed: ['U11 moved by 1 mm.'],
  description,
})

async function kept(shelf: CaseShelf, ...versions: ReturnType<typeof version>[]): Promise<string> {
  const outcome = value(await shelf.boards.keep({ basedOn: 0, versions }))
  if (outcome.kind !== 'kept') throw new Error(outcome.kind)
  return outcome.board
}

describe.each(kinds)('boards on a shelf %s', (_, open) => {
  test('come back in their versions, the last changed board first', async () => {
    const shelf = open()
    const older = await kept(shelf, version(first, 10), version(moved, 20))
    const newer = await kept(shelf, version(first, 30, ''))
    const { boards, faults } = value(await shelf.boards.list())
    expect(faults).toEqual([])
    expect(boards.map(({ id, versions }) => [id, versions.map(({ number }) => number)])).toEqual([
      [newer, [1]],
      [older, [1, 2]],
    ])
    expect(boards[1]?.versions).toEqual([
      { number: 1, ...version(first, 10) },
      { number: 2, ...version(moved, 20) },
    ])
  })

  test('take a next version only on the last one; whoever is late is told, and nothing is written', async () => {
    const shelf = open()
    const id = await kept(shelf, version(first, 10))
    const told: ShelfChange['kind'][] = []
    shelf.subscribe(({ kind }) => told.push(kind))
    expect(value(await shelf.boards.keep({ board: id, basedOn: 1, versions: [version(moved, 20)] }))).toEqual({
      kind: 'kept',
      board: id,
      number: 2,
    })
    expect(value(await shelf.boards.keep({ board: id, basedOn: 1, versions: [version(first, 30)] }))).toEqual({
      kind: 'changed-elsewhere',
    })
    const [only] = value(await shelf.boards.list()).boards
    expect(only?.versions.map(({ at }) => at)).toEqual([10, 20])
    expect(told.filter((kind) => kind === 'own-boards')).toHaveLength(1)
  })

  test('are deleted whole or by an earlier version; the last one alone stays, and no number is given twice', async () => {
    const shelf = open()
    const id = await kept(shelf, version(first, 10), version(moved, 20))
    const other = await kept(shelf, version(first, 30))
    const numbers = async (): Promise<unknown> =>
      value(await shelf.boards.list()).boards.map((each) => [each.id, each.versions.map(({ number }) => number)])
    expect(await shelf.boards.remove({ board: id, number: 2 })).toMatchObject({ ok: false })
    value(await shelf.boards.remove({ board: id, number: 1 }))
    expect(await numbers()).toEqual([
      [other, [1]],
      [id, [2]],
    ])
    expect(value(await shelf.boards.keep({ board: id, basedOn: 2, versions: [version(first, 40)] }))).toMatchObject({
      number: 3,
    })
    value(await shelf.boards.remove({ board: id }))
    expect(await numbers()).toEqual([[other, [1]]])
  })

  test('a deleted board leaves the cases on it as they are', async () => {
    const shelf = open()
    const id = await kept(shelf, version(first, 10))
    await shelf.save({ id: 'a', history: startHistory(caseOf()), boardName: BOARD, basedOnRev: 0 })
    const before = value(await shelf.load('a'))
    value(await shelf.boards.remove({ board: id }))
    expect(value(await shelf.load('a'))).toEqual(before)
    expect(contentOf(value(await shelf.boardOf('a')))).toBe(contentOf(first))
  })

  test('a new version changes no case that lies on the shelf', async () => {
    const shelf = open()
    const id = await kept(shelf, version(first, 10))
    await shelf.save({ id: 'a', history: startHistory(caseOf()), boardName: BOARD, basedOnRev: 0 })
    const before = value(await shelf.load('a'))
    value(await shelf.boards.keep({ board: id, basedOn: 1, versions: [version(moved, 20)] }))
    expect(value(await shelf.load('a'))).toEqual(before)
    expect(contentOf(value(await shelf.boardOf('a')))).toBe(contentOf(first))
  })
})

describe('in the database', () => {
  function open(name = freshName()) {
    const shelf = openDatabaseShelf({ name, now: ticking() })
    opened.push(shelf)
    return Object.assign(shelf, { name })
  }

  test('the form before this one is brought up with every case and its board', async () => {
    const name = freshName()
    const old = await openDB(name, 2, {
      upgrade: (database) => {
        database.createObjectStore('entries', { keyPath: 'id' })
        database.createObjectStore('contents', { keyPath: 'id' })
        database.createObjectStore('parts', { keyPath: ['of', 'key'] })
        database.createObjectStore('files', { keyPath: 'id' }).createIndex('putAt', 'putAt')
        database.createObjectStore('notes')
      },
    })
    const { board: _, ...present } = caseOf({ title: 'kept before boards had versions' })
    await old.put('entries', { id: 'a', rev: 3, version: present.version, title: present.title, boardName: BOARD })
    await old.put('contents', { id: 'a', present: { ...present, board: { part: 'p1' } }, past: [], future: [] })
    await old.put('parts', { of: 'a', key: 'p1', value: board })
    await old.put('notes', 'a', 'last open')
    old.close()
    const shelf = open(name)
    expect(value(await shelf.load('a')).history.present.title).toBe('kept before boards had versions')
    expect(value(await shelf.boardOf('a'))).toEqual(first)
    expect(value(await shelf.lastOpen())).toBe('a')
    expect(value(await shelf.boards.list()).boards).toEqual([])
    await kept(shelf, version(first, 10))
    expect(value(await shelf.boards.list()).boards).toHaveLength(1)
  })

  test('two tabs that keep a version at once: one does, the other is told', async () => {
    const tab = open()
    const other = open(tab.name)
    const id = await kept(tab, version(first, 10))
    const both = await Promise.all([
      tab.boards.keep({ board: id, basedOn: 1, versions: [version(moved, 20)] }),
      other.boards.keep({ board: id, basedOn: 1, versions: [version(moved, 21)] }),
    ])
    expect(both.map((each) => value(each).kind).toSorted()).toEqual(['changed-elsewhere', 'kept'])
    expect(value(await other.boards.list()).boards[0]?.versions).toHaveLength(2)
  })

  test('a version that can’t be read is told and stays; the others are there', async () => {
    const shelf = open()
    const id = await kept(shelf, version(first, 10), version(moved, 20))
    const raw = await openDB(shelf.name)
    opened.push(raw)
    await raw.put('boardVersions', { board: id, number: 1, description: { format: 'something else' } })
    const { boards, faults } = value(await shelf.boards.list())
    expect(boards.map(latestOf).map(({ number }) => number)).toEqual([2])
    expect(faults[0]?.path).toMatch(/^version 1 of a board of yours/)
    expect(await raw.count('boardVersions')).toBe(2)
  })
})

describe('what a board is told apart by', () => {
  test('is not how reports speak of it', () => {
    const words = [{ title: 'run', look: ['#'], names: { north: 'U11' } }]
    expect(contentOf({ ...first, reportWords: words })).toBe(contentOf(first))
    expect(contentOf(moved)).not.toBe(contentOf(first))
  })
})
