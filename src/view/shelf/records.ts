/**
 * The records of cases in the database. A save compares `rev` and writes in one transaction, so that two tabs never
 * overwrite each other.
 */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { CASE_VERSION, copyOf, goodReadingsOf, startHistory } from '../../case/index.ts'
import type { GoodReadings } from '../../measure/index.ts'
import type { CaseToSave, SaveOutcome, ShelfEntry, StoredCase } from './caseShelf.ts'
import { type Database, partsOf, type WritableParts } from './database.ts'
import { type EntryRecord, readEntry, shownEntry } from './entryRecord.ts'
import { measuredOf } from './measured.ts'
import { lastChangedFirst, noSuchCase } from './memoryShelf.ts'
import { createPacker, type Packer } from './packing.ts'
import { filesOf, summaryOf } from './summary.ts'
import { unpackContent } from './unpacking.ts'

const readable = (raw: readonly unknown[]): EntryRecord[] => raw.flatMap((entry) => readEntry(entry) ?? [])

export async function listIn(database: Database): Promise<ShelfEntry[]> {
  const entries = readable(await database.getAll('entries'))
  return lastChangedFirst(entries.filter(({ deletedAt }) => deletedAt === undefined).map(shownEntry))
}

const newerThanThis = (entry: EntryRecord): Fault => ({
  path: entry.title,
  found: say('a case in form {version}, saved by a newer Liftmap', { version: entry.version }),
  expected: say('at most form {CASEVERSION}', { CASEVERSION: CASE_VERSION }),
  todo: say('Reload this page to get the newer Liftmap. The case is kept as it is.'),
})

export interface LoadedCase {
  readonly stored: StoredCase
  /** Keys of its parts by their values. */
  readonly known: ReadonlyMap<unknown, string>
}

export async function loadFrom(database: Database, id: string): Promise<Result<LoadedCase>> {
  const tx = database.transaction(['entries', 'contents', 'parts'])
  const [rawEntry, content, parts] = await Promise.all([
    tx.objectStore('entries').get(id),
    tx.objectStore('contents').get(id),
    tx.objectStore('parts').getAll(partsOf(id)),
    tx.done,
  ])
  const entry = readEntry(rawEntry)
  if (entry === undefined || entry.deletedAt !== undefined) return bad(noSuchCase(id))
  if (entry.version > CASE_VERSION) return bad(newerThanThis(entry))
  const unpacked = unpackContent(content, new Map(parts.map(({ key, value }) => [key, value])))
  if (!unpacked.ok) return unpacked
  const { known, ...stored } = unpacked.value
  return good({ stored: { entry: shownEntry(entry), ...stored }, known })
}

interface HowToSave {
  readonly now: number
  /** The browser dropped the shelf while the case was open: what is not there was not deleted by anybody. */
  readonly dropped: boolean
}

/** Other tabs change a case within milliseconds; one that holds the shelf longer than this holds it for good. */
const LET_IN_WITHIN_MS = 5000

export async function saveIn(
  database: Database,
  what: CaseToSave,
  packer: Packer,
  { now, dropped }: HowToSave,
): Promise<SaveOutcome> {
  const packed = packer.pack(what.history)
  const tx = database.transaction(['entries', 'contents', 'parts'], 'readwrite', { durability: 'strict' })
  const ended = tx.done.then(
    () => undefined,
    (reason: unknown) => reason,
  )
  let late = false
  const timer = setTimeout(() => {
    late = true
    tx.abort()
  }, LET_IN_WITHIN_MS)
  try {
    const before = readEntry(await tx.objectStore('entries').get(what.id))
    clearTimeout(timer)
    const rev = before?.rev ?? (dropped ? what.basedOnRev : 0)
    const deleted = before === undefined ? what.basedOnRev > 0 && !dropped : before.deletedAt !== undefined
    if (deleted) return { kind: 'deleted-elsewhere' }
    if (rev !== what.basedOnRev) return { kind: 'changed-elsewhere', rev }
    await tx.objectStore('entries').put(entryOf(what, before, rev + 1, now))
    await tx.objectStore('contents').put(packed.content)
    await putParts(tx.objectStore('parts'), what.id, packed.parts)
    tx.commit()
    const reason = await ended
    if (reason !== undefined) throw reason
    return { kind: 'saved', rev: rev + 1 }
  } catch (reason) {
    clearTimeout(timer)
    if (late) throw new DOMException('not let in', 'TimeoutError')
    throw await undone(tx, ended, reason)
  }
}

/** Nothing of a save that fails half-way stays. @returns why it failed: what ended the transaction tells more than a request */
async function undone(tx: { readonly abort: () => void }, ended: Promise<unknown>, reason: unknown): Promise<unknown> {
  try {
    tx.abort()
  } catch {
    // it has ended already
  }
  const ending = await ended
  return ending === undefined || (ending instanceof DOMException && ending.name === 'AbortError') ? reason : ending
}

/** Parts that lie there already stay, those that no step names any more go. */
async function putParts(store: WritableParts, of: string, parts: ReadonlyMap<string, unknown>): Promise<void> {
  const kept = new Map((await store.getAllKeys(partsOf(of))).map((key) => [key[1], key]))
  for (const [key, value] of parts) if (!kept.has(key)) await store.put({ of, key, value })
  for (const [key, whole] of kept) if (!parts.has(key)) await store.delete(whole)
}

function entryOf(what: CaseToSave, before: EntryRecord | undefined, rev: number, now: number): EntryRecord {
  return {
    ...summaryOf(what.history.present, what.boardName),
    id: what.id,
    rev,
    version: CASE_VERSION,
    files: filesOf(what.history),
    createdAt: before?.createdAt ?? now,
    changedAt: now,
    archived: before?.archived ?? false,
  }
}

/** @param change of the record as it lies there, so that fields that only a newer Liftmap knows stay */
export async function changeEntry(
  database: Database,
  id: string,
  change: (record: EntryRecord) => EntryRecord,
): Promise<Result<undefined>> {
  const tx = database.transaction('entries', 'readwrite', { durability: 'strict' })
  const record = await tx.store.get(id)
  if (record === undefined) return bad(noSuchCase(id))
  await Promise.all([tx.store.put(change(record)), tx.done])
  return good(undefined)
}

/** @returns the id of the copy */
export async function duplicateIn(
  database: Database,
  id: string,
  title: string,
  { now, newId }: { readonly now: number; readonly newId: () => string },
): Promise<Result<string>> {
  const loaded = await loadFrom(database, id)
  if (!loaded.ok) return loaded
  const { entry, history } = loaded.value.stored
  const copy = newId()
  const likeIt = startHistory(copyOf(history.present, title))
  const what: CaseToSave = { id: copy, history: likeIt, boardName: entry.boardName, basedOnRev: 0 }
  await saveIn(database, what, createPacker(copy, new Map(), newId), { now, dropped: false })
  return good(copy)
}

export async function goodReadingsIn(
  database: Database,
  boardName: string,
  exceptId: string,
): Promise<readonly GoodReadings[]> {
  const tx = database.transaction(['entries', 'contents'])
  const cards = readable(await tx.objectStore('entries').getAll()).filter(
    (entry) =>
      (entry.goodCard || entry.outcome === 'repaired') &&
      !entry.demo &&
      entry.deletedAt === undefined &&
      entry.boardName === boardName,
  )
  const others = cards.filter(({ id }) => id !== exceptId)
  const measured = others.map(async ({ id }) => measuredOf(await tx.objectStore('contents').get(id)))
  return goodReadingsOf(await Promise.all(measured))
}
