/** A shelf that lasts as long as the page: for tests, and where the browser has no database to offer. */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import { type Case, cardReadingsOf, copyOf, goodReadingsOf, type History, startHistory } from '../../case/index.ts'
import type { KeptPractice } from '../../rehearsal/index.ts'
import { type BoardShelf, boardsFrom, lastVersionStays, recordsOf, type VersionRecord } from './boardShelf.ts'
import { closedCardsOf, noChoice, type RecordChoice } from './ownRecord.ts'
import type { CaseShelf, CaseToSave, SaveOutcome, ShelfChange, ShelfEntry, StoredCase } from './caseShelf.ts'
import { stockInMemory } from './stockShelf.ts'
import { summaryOf } from './summary.ts'

interface Kept {
  readonly entry: ShelfEntry
  readonly history: History<Case>
  readonly deleted: boolean
}

export function caseShelfInMemory(now: () => number = Date.now, newId: () => string = randomId): CaseShelf {
  const kept = new Map<string, Kept>()
  const listeners = new Set<(change: ShelfChange) => void>()
  let last: string | undefined
  let choice: RecordChoice = noChoice
  let practice: KeptPractice | undefined
  const tell = (change: ShelfChange): void => {
    for (const listener of listeners) listener(change)
  }
  const listed = (id: string, change: (it: Kept) => Kept): Result<undefined> => {
    const it = kept.get(id)
    if (it === undefined) return bad(noSuchCase(id))
    kept.set(id, change(it))
    return good(undefined)
  }
  const there = (id: string): Kept | undefined => {
    const it = kept.get(id)
    return it?.deleted === true ? undefined : it
  }
  const put = ({ id, history, boardName }: CaseToSave, rev: number): void => {
    const before = kept.get(id)?.entry
    const times = { createdAt: before?.createdAt ?? now(), changedAt: now(), archived: before?.archived ?? false }
    const entry = { ...summaryOf(history.present, boardName), id, ...times, rev, newer: false }
    kept.set(id, { entry, history: { ...history, joinKey: undefined }, deleted: false })
  }
  return {
    lasting: false,
    boards: boardsInMemory(newId, () => tell({ kind: 'own-boards', elsewhere: false })),
    stock: stockInMemory(() => tell({ kind: 'stock', elsewhere: false })),
    list: async () => good(lastChangedFirst([...kept.values()].filter((it) => !it.deleted).map((it) => it.entry))),
    load: async (id): Promise<Result<StoredCase>> => {
      const it = there(id)
      return it === undefined ? bad(noSuchCase(id)) : good({ entry: it.entry, history: it.history, droppedSteps: 0 })
    },
    peek: async (id) => {
      const it = there(id)
      return it === undefined ? bad(noSuchCase(id)) : good(it.history.present)
    },
    boardOf: async (id) => {
      const board = there(id)?.history.present.board
      return board !== undefined && 'inline' in board ? good(board.inline) : bad(noSuchCase(id))
    },
    save: async (what): Promise<Result<SaveOutcome>> => {
      const before = kept.get(what.id)
      if (before === undefined ? what.basedOnRev > 0 : before.deleted) return good({ kind: 'deleted-elsewhere' })
      const rev = before?.entry.rev ?? 0
      if (rev !== what.basedOnRev) return good({ kind: 'changed-elsewhere', rev })
      put(what, rev + 1)
      tell({ kind: 'saved', id: what.id, rev: rev + 1, elsewhere: false })
      return good({ kind: 'saved', rev: rev + 1 })
    },
    duplicate: async (id, title) => {
      const it = there(id)
      if (it === undefined) return bad(noSuchCase(id))
      const copy = newId()
      const history = startHistory<Case>(copyOf(it.history.present, title))
      put({ id: copy, history, boardName: it.entry.boardName, basedOnRev: 0 }, 1)
      tell({ kind: 'listed', id: copy, elsewhere: false })
      return good(copy)
    },
    archive: async (id, archived) => {
      const done = listed(id, (it) => ({ ...it, entry: { ...it.entry, archived } }))
      tell({ kind: 'listed', id, elsewhere: false })
      return done
    },
    remove: async (id) => {
      const done = listed(id, (it) => ({ ...it, deleted: true }))
      tell({ kind: 'deleted', id, elsewhere: false })
      return done.ok ? good(id) : done
    },
    restore: async (token) => {
      const done = listed(token, (it) => ({ ...it, deleted: false }))
      tell({ kind: 'listed', id: token, elsewhere: false })
      return done
    },
    goodReadings: async (boardName, exceptId) => {
      const others = [...kept.values()].filter(({ entry, deleted }) => !deleted && entry.id !== exceptId)
      const cards = others.filter(({ entry }) => entry.boardName === boardName && !entry.demo)
      return good(goodReadingsOf(cards.map(({ history }) => cardReadingsOf(history.present))))
    },
    closedCards: async (exceptId) => {
      const others = [...kept.values()].filter(({ entry, deleted }) => !deleted && entry.id !== exceptId)
      return good(closedCardsOf(others.map(({ history }) => history.present)))
    },
    recordChoice: async () => good(choice),
    setRecordChoice: async (next) => {
      choice = next
      tell({ kind: 'own-record', elsewhere: false })
      return good(undefined)
    },
    practice: async () => good(practice),
    setPractice: async (next) => {
      practice = next
      return good(undefined)
    },
    lastOpen: async () => good(last),
    setLastOpen: async (id) => {
      last = id
      return good(undefined)
    },
    stamp: async () => good(undefined),
    subscribe: (onChange) => {
      listeners.add(onChange)
      return () => listeners.delete(onChange)
    },
    close: () => listeners.clear(),
  }
}

function boardsInMemory(newId: () => string, onKept: () => void): BoardShelf {
  const records: VersionRecord[] = []
  return {
    list: async () => good({ boards: boardsFrom(records), faults: [] }),
    keep: async (what) => {
      const board = what.board ?? newId()
      const highest = Math.max(0, ...records.filter((each) => each.board === board).map(({ number }) => number))
      if (highest !== what.basedOn) return good({ kind: 'changed-elsewhere' })
      records.push(...recordsOf(board, what))
      onKept()
      return good({ kind: 'kept', board, number: highest + what.versions.length })
    },
    remove: async ({ board, number }) => {
      const own = records.filter((each) => each.board === board)
      if (number !== undefined && number === Math.max(...own.map((each) => each.number))) return bad(lastVersionStays)
      for (const record of own)
        if (number === undefined || record.number === number) records.splice(records.indexOf(record), 1)
      onKept()
      return good(undefined)
    },
  }
}

export const randomId = (): string => crypto.randomUUID()

export const lastChangedFirst = (entries: readonly ShelfEntry[]): ShelfEntry[] =>
  entries.toSorted((a, b) => b.changedAt - a.changedAt)

export const noSuchCase = (id: string): Fault => ({
  path: `case ${id}`,
  found: say('no such case on the shelf'),
  expected: say('a case that is kept here'),
  todo: say('It may have been deleted in another tab.'),
})
