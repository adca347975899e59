/** Versions of one's own boards in the browser's database: each a record of its own, written once. */
import { bad, good, type Result } from '../../base/index.ts'
import {
  type BoardShelf,
  boardsFrom,
  type KeepOutcome,
  type KeptBoards,
  lastVersionStays,
  readVersion,
  recordsOf,
  type VersionsToKeep,
  type VersionsToRemove,
} from './boardShelf.ts'
import type { Database, Within } from './database.ts'

export interface HowToKeep {
  readonly newId: () => string
  readonly onKept: () => void
}

export function databaseBoards(within: Within, { newId, onKept }: HowToKeep): BoardShelf {
  return {
    list: () => within(async (database) => good(await boardsIn(database))),
    keep: (what) =>
      within(async (database): Promise<Result<KeepOutcome>> => {
        const outcome = await keepIn(database, what, newId)
        if (outcome.kind === 'kept') onKept()
        return good(outcome)
      }),
    remove: (what) =>
      within(async (database): Promise<Result<void>> => {
        const removed = await removeIn(database, what)
        if (removed.ok) onKept()
        return removed
      }),
  }
}

async function removeIn(database: Database, { board, number }: VersionsToRemove): Promise<Result<void>> {
  const tx = database.transaction('boardVersions', 'readwrite', { durability: 'strict' })
  const keys = await tx.store.getAllKeys(IDBKeyRange.bound([board], [board, []]))
  if (number !== undefined && number === Math.max(...keys.map(([, each]) => each))) {
    await tx.done
    return bad(lastVersionStays)
  }
  const going = keys.filter(([, each]) => number === undefined || each === number)
  await Promise.all([...going.map((key) => tx.store.delete(key)), tx.done])
  return good(undefined)
}

async function boardsIn(database: Database): Promise<KeptBoards> {
  const read = (await database.getAll('boardVersions')).map(readVersion)
  return {
    boards: boardsFrom(read.flatMap((each) => (each.ok ? [each.value] : []))),
    faults: read.flatMap((each) => (each.ok ? [] : each.faults)),
  }
}

/** In one transaction with the look at what is there: two tabs never give one number twice. */
async function keepIn(database: Database, what: VersionsToKeep, newId: () => string): Promise<KeepOutcome> {
  const board = what.board ?? newId()
  const tx = database.transaction('boardVersions', 'readwrite', { durability: 'strict' })
  const keys = await tx.store.getAllKeys(IDBKeyRange.bound([board], [board, []]))
  const highest = Math.max(0, ...keys.map(([, number]) => number))
  if (highest !== what.basedOn) {
    await tx.done
    return { kind: 'changed-elsewhere' }
  }
  const records = recordsOf(board, what)
  await Promise.all([...records.map((record) => tx.store.add(record)), tx.done])
  return { kind: 'kept', board, number: highest + records.length }
}
