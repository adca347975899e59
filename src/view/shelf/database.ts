/** The browser's database: its stores, how older forms of it are brought up, and what happens when others hold it open. */
import {
  type DBSchema,
  type IDBPDatabase,
  type IDBPObjectStore,
  type IDBPTransaction,
  openDB,
  type StoreNames,
} from 'idb'
import { bad, good, type Result } from '../../base/index.ts'
import type { StockItem } from '../../case/index.ts'
import type { VersionRecord } from './boardShelf.ts'
import type { EntryRecord } from './entryRecord.ts'
import type { ContentRecord, PartRecord } from './packing.ts'
import { blockedByOlder, faultOfStorage, notAnswering } from './troubles.ts'

export interface FileRecord {
  readonly id: string
  readonly bytes: Blob
  /** Milliseconds since 1970. */
  readonly putAt: number
}

interface Tables extends DBSchema {
  /** What the list shows of a case, and its `rev`. */
  entries: { key: string; value: EntryRecord }
  /** The case itself with its steps of undo and redo. */
  contents: { key: string; value: ContentRecord }
  /** Boards and long texts of cases, kept apart so that each save stays small. */
  parts: { key: [string, string]; value: PartRecord }
  /** Photos and long reports. */
  files: { key: string; value: FileRecord; indexes: { putAt: number } }
  /** Which case was open last. */
  notes: { key: string; value: string }
  /** Boards of one's own, a version a record. */
  boardVersions: { key: [string, number]; value: VersionRecord }
  /** Parts and materials of the shop, a line a record. */
  stock: { key: string; value: StockItem }
}

export type Database = IDBPDatabase<Tables>
export type WritableParts = IDBPObjectStore<Tables, StoreNames<Tables>[], 'parts', 'readwrite'>
type Upgrade = IDBPTransaction<Tables, StoreNames<Tables>[], 'versionchange'>

export const DATABASE_NAME = 'liftmap'
const DATABASE_VERSION = 4

/** By the version that each makes; a database goes through all that it lacks. */
const upgrades: Readonly<Record<number, (database: Database, tx: Upgrade) => void>> = {
  1: (database) => {
    database.createObjectStore('entries', { keyPath: 'id' })
    database.createObjectStore('contents', { keyPath: 'id' })
    database.createObjectStore('parts', { keyPath: ['of', 'key'] })
    database.createObjectStore('files', { keyPath: 'id' })
  },
  2: (database, tx) => {
    database.createObjectStore('notes')
    tx.objectStore('files').createIndex('putAt', 'putAt')
  },
  3: (database) => {
    database.createObjectStore('boardVersions', { keyPath: ['board', 'number'] })
  },
  4: (database) => {
    database.createObjectStore('stock', { keyPath: 'id' })
  },
}

export const partsOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id], [id, []])

/** Whatever the database throws in the work becomes a fault. */
export type Within = <T>(work: (database: Database) => Promise<Result<T>>) => Promise<Result<T>>

export interface Connection {
  /** Opens it when first asked, and again after it was closed from outside; while others are in the way, it says so. */
  readonly get: () => Promise<Result<Database>>
  readonly close: () => void
}

/** A database that is not in use opens within milliseconds. */
const OPENS_WITHIN_MS = 5000

interface Opening {
  readonly settled: Promise<Result<Database>>
  /** Settles only where something is in the way. */
  readonly hindered: Promise<Result<Database>>
}

/** @param onOpened told each time that it opens, before anything is done with it */
export function connectDatabase(name: string, onOpened: (database: Database) => Promise<void>): Connection {
  let opening: Opening | undefined
  let closed = false
  const open = (): Opening => {
    let hinder: (result: Result<Database>) => void = () => undefined
    const hindered = new Promise<Result<Database>>((resolve) => {
      hinder = resolve
    })
    const late = setTimeout(() => hinder(bad(notAnswering)), OPENS_WITHIN_MS)
    const opened = openDB<Tables>(name, DATABASE_VERSION, {
      upgrade: (database, from, to, tx) => {
        for (let version = from + 1; version <= (to ?? DATABASE_VERSION); version++) upgrades[version]?.(database, tx)
      },
      blocked: () => hinder(bad(blockedByOlder)),
      // a newer Liftmap in another tab, or the user clearing the storage, waits for this tab: never in their way
      blocking: () => {
        opening = undefined
        void opened.then((database) => database.close())
      },
      terminated: () => {
        opening = undefined
      },
    })
    const settled = opened
      .then(async (database): Promise<Result<Database>> => {
        if (closed) database.close()
        else await onOpened(database)
        return good(database)
      })
      .catch(failed)
      .finally(() => clearTimeout(late))
    return { settled, hindered }
  }
  const failed = (reason: unknown): Result<Database> => {
    opening = undefined
    return bad(faultOfStorage(reason))
  }
  return {
    get: () => {
      const { settled, hindered } = (opening ??= open())
      return Promise.race([settled, hindered])
    },
    close: () => {
      closed = true
      void opening?.settled.then((result) => result.ok && result.value.close())
    },
  }
}
