/** The shelf in the browser's database, told between tabs. */
import { bad, good } from '../../base/index.ts'
import type { CaseShelf } from './caseShelf.ts'
import { connectDatabase, DATABASE_NAME, type Within } from './database.ts'
import { databaseFiles } from './databaseFiles.ts'
import type { FileStore } from './fileStore.ts'
import { randomId } from './memoryShelf.ts'
import { choiceIn, type CountedCards, closedCardsIn, OWN_RECORD } from './closedCards.ts'
import { databaseBoards } from './keptBoards.ts'
import { boardIn } from './keptBoard.ts'
import { PRACTICE, practiceIn } from './keptPractice.ts'
import { createPacker, type Packer } from './packing.ts'
import { changeEntry, duplicateIn, goodReadingsIn, listIn, loadFrom, saveIn } from './records.ts'
import { shelfChannel } from './shelfChannel.ts'
import { databaseStock } from './stockShelf.ts'
import { stampOf } from './stamp.ts'
import { sweepOut } from './sweep.ts'
import { faultOfStorage } from './troubles.ts'

export interface DatabaseShelf extends CaseShelf {
  readonly files: FileStore
}

export interface DatabaseShelfParts {
  readonly name?: string
  readonly now?: () => number
  readonly newId?: () => string
}

export function openDatabaseShelf({
  name = DATABASE_NAME,
  now = Date.now,
  newId = randomId,
}: DatabaseShelfParts = {}): DatabaseShelf {
  const channel = shelfChannel(name)
  /** What this shelf was called when it was first opened here, and now: another one is another database. */
  let stamps: { readonly first: string; readonly now: string } | undefined
  const connection = connectDatabase(name, async (database) => {
    const stamp = await stampOf(database)
    if (stamp !== undefined) stamps = { first: stamps?.first ?? stamp, now: stamp }
    channel.tellHere({ kind: 'opened' })
    void sweepOut(database, now()).catch(() => undefined) // tried again at the next opening
  })
  const patiently = withinDatabase(connection)
  const within: Within = (work) => patiently((database) => answeredInTime(work(database)))
  /** Of the case that was last loaded or saved: what is open in this tab. */
  let packing: { readonly id: string; readonly packer: Packer } | undefined
  /** Closed cards as they were last read, by id. */
  const counted: CountedCards = new Map()
  const packerOf = (id: string): Packer => {
    if (packing?.id !== id) packing = { id, packer: createPacker(id, new Map(), newId) }
    return packing.packer
  }
  return {
    lasting: true,
    files: databaseFiles(patiently, now),
    boards: databaseBoards(within, { newId, onKept: () => channel.tell({ kind: 'own-boards', elsewhere: false }) }),
    stock: databaseStock(within, () => channel.tell({ kind: 'stock', elsewhere: false })),
    list: () => within(async (database) => good(await listIn(database))),
    load: (id) =>
      within(async (database) => {
        const loaded = await loadFrom(database, id)
        if (!loaded.ok) return loaded
        packing = { id, packer: createPacker(id, loaded.value.known, newId) }
        return good(loaded.value.stored)
      }),
    peek: (id) =>
      within(async (database) => {
        const loaded = await loadFrom(database, id)
        return loaded.ok ? good(loaded.value.stored.history.present) : loaded
      }),
    boardOf: (id) => within((database) => boardIn(database, id)),
    save: (what) =>
      patiently(async (database) => {
        const dropped = stamps !== undefined && stamps.first !== stamps.now
        const outcome = await saveIn(database, what, packerOf(what.id), { now: now(), dropped })
        if (outcome.kind === 'saved') channel.tell({ kind: 'saved', id: what.id, rev: outcome.rev, elsewhere: false })
        return good(outcome)
      }),
    duplicate: (id, title) =>
      within(async (database) => {
        const copy = await duplicateIn(database, id, title, { now: now(), newId })
        if (copy.ok) channel.tell({ kind: 'listed', id: copy.value, elsewhere: false })
        return copy
      }),
    archive: (id, archived) =>
      within(async (database) => {
        const done = await changeEntry(database, id, (entry) => ({ ...entry, archived }))
        channel.tell({ kind: 'listed', id, elsewhere: false })
        return done
      }),
    remove: (id) =>
      within(async (database) => {
        const done = await changeEntry(database, id, (entry) => ({ ...entry, deletedAt: now() }))
        channel.tell({ kind: 'deleted', id, elsewhere: false })
        return done.ok ? good(id) : done
      }),
    restore: (token) =>
      within(async (database) => {
        const done = await changeEntry(database, token, ({ deletedAt: _deleted, ...entry }) => entry)
        channel.tell({ kind: 'listed', id: token, elsewhere: false })
        return done
      }),
    goodReadings: (boardName, exceptId) =>
      within(async (database) => good(await goodReadingsIn(database, boardName, exceptId))),
    closedCards: (exceptId) => within(async (database) => good(await closedCardsIn(database, counted, exceptId))),
    recordChoice: () => within(async (database) => good(await choiceIn(database))),
    setRecordChoice: (choice) =>
      within(async (database) => {
        await database.put('notes', JSON.stringify(choice), OWN_RECORD)
        channel.tell({ kind: 'own-record', elsewhere: false })
        return good(undefined)
      }),
    practice: () => within(async (database) => good(await practiceIn(database))),
    setPractice: (kept) =>
      within(async (database) => {
        if (kept === undefined) await database.delete('notes', PRACTICE)
        else await database.put('notes', JSON.stringify(kept), PRACTICE)
        return good(undefined)
      }),
    lastOpen: () => within(async (database) => good(await database.get('notes', 'last open'))),
    setLastOpen: (id) =>
      within(async (database) => {
        await database.put('notes', id, 'last open')
        return good(undefined)
      }),
    stamp: () => within(() => Promise.resolve(good(stamps?.now))),
    subscribe: channel.subscribe,
    close: () => {
      channel.close()
      connection.close()
    },
  }
}

/**
 * Another tab's change that never ends holds up whatever comes after it. A save has no such limit: it gives up by itself
 * where it is not let in (`saveIn`), so that none is written after it was said to be refused.
 */
const ANSWERS_WITHIN_MS = 8000

async function answeredInTime<T>(work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new DOMException('no answer', 'TimeoutError')), ANSWERS_WITHIN_MS)
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}

/** Whatever the database throws becomes a fault. */
function withinDatabase(connection: ReturnType<typeof connectDatabase>): Within {
  return async (work) => {
    const database = await connection.get()
    if (!database.ok) return database
    try {
      return await work(database.value)
    } catch (reason) {
      return bad(faultOfStorage(reason))
    }
  }
}
