/** What is in the way of a shelf: another tab that holds it, a browser that drops it, a disk that is full. */
import { deleteDB, openDB } from 'idb'
import { afterEach, expect, test } from 'vitest'
import type { CaseShelf } from '../../src/view/shelf/caseShelf.ts'
import { openDatabaseShelf } from '../../src/view/shelf/databaseShelf.ts'
import { faultOfStorage } from '../../src/view/shelf/troubles.ts'
import { BOARD, caseOf, edited, freshName, ticking, value } from './support.ts'

const opened: { close(): void }[] = []
afterEach(() => {
  for (const each of opened.splice(0)) each.close()
})

function open(name = freshName()): CaseShelf & { name: string } {
  const shelf = openDatabaseShelf({ name, now: ticking() })
  opened.push(shelf)
  return Object.assign(shelf, { name })
}

const save = (shelf: CaseShelf, id: string, edits: number, basedOnRev = 0) =>
  shelf.save({ id, history: edited(caseOf(), edits), boardName: BOARD, basedOnRev })

/** Another tab with a change under way that does not end until it is let go. */
async function heldBy(name: string): Promise<() => Promise<void>> {
  const database = await openDB(name)
  opened.push(database)
  const tx = database.transaction(['entries', 'contents', 'parts', 'files', 'notes'], 'readwrite')
  const end = new AbortController()
  const keep = async (): Promise<void> => {
    while (!end.signal.aborted) await tx.objectStore('notes').get('nothing')
  }
  const over = keep()
  return async () => {
    end.abort()
    await over
    await tx.done
  }
}

test('a shelf that another tab holds for good says so; nothing of the refused save comes later', async () => {
  const shelf = open()
  await save(shelf, 'a', 1)
  const letGo = await heldBy(shelf.name)
  const [saved, listed] = await Promise.all([save(shelf, 'a', 2, 1), shelf.list()])
  for (const refused of [saved, listed])
    expect(!refused.ok && refused.faults[0]?.found).toMatch(/another tab may be holding it/)
  await letGo()
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('edit 1')
  expect(value(await save(shelf, 'a', 3, 1))).toEqual({ kind: 'saved', rev: 2 })
})

test('a database that the browser dropped under an open case has another stamp, and takes the case as it is', async () => {
  const shelf = open()
  await save(shelf, 'a', 1)
  await save(shelf, 'b', 1)
  const stamp = value(await shelf.stamp())
  await deleteDB(shelf.name)
  expect(value(await save(shelf, 'a', 2, 1))).toEqual({ kind: 'saved', rev: 2 })
  expect(value(await shelf.stamp())).not.toBe(stamp)
  expect(value(await shelf.list())).toHaveLength(1)
  expect(value(await shelf.load('a')).history.present.arrival.account).toBe('edit 2')
})

test('a shelf keeps its stamp over openings, and two tabs that begin it have the same', async () => {
  const first = open()
  const second = open(first.name)
  const [one, two] = await Promise.all([first.stamp(), second.stamp()])
  expect(value(one)).toBe(value(two))
  first.close()
  expect(value(await open(first.name).stamp())).toBe(value(two))
})

test('a disk that is full to the last byte is told as full', async () => {
  // as Chromium said it on such a disk
  const words = 'Connection is closing because of: IO error: 000003.log: FILE_ERROR_NO_SPACE (3::WritableFileAppend::8)'
  expect(faultOfStorage(new DOMException(words, 'UnknownError')).found).toMatch(/no room left/)
  expect(faultOfStorage(new DOMException('something else', 'UnknownError')).found).toMatch(
    /UnknownError: something else/,
  )
})
