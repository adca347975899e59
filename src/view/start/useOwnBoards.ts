/** The boards of one's own cases, each once by what it holds, as the last case on it has it. */
import { useEffect, useState } from 'react'
import { type Fault, good, type Result } from '../../base/index.ts'
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import type { CaseShelf, ShelfEntry } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import { boardNameOf } from './useExamples.ts'

export interface OwnBoard {
  /** Of the last case on it. */
  readonly caseId: string
  readonly name: string
  readonly cases: number
  /** When one of them was changed last, in milliseconds since 1970. */
  readonly changedAt: number
  readonly model: BoardModel
}

export interface OwnBoards {
  /** Undefined while they are read for the first time. */
  readonly boards: readonly OwnBoard[] | undefined
  /** Names that boards of one's own have, also of those that are not shown. */
  readonly names: ReadonlySet<string>
  /** What could not be read. */
  readonly faults: readonly Fault[]
}

/** More are not shown: the boards of the cases that were changed last. */
const MOST_BOARDS = 12
/** Of so many cases the board is looked at. */
const MOST_CASES = 100

const nothingYet: OwnBoards = { boards: undefined, names: new Set(), faults: [] }

export function useOwnBoards(): OwnBoards {
  const desk = useDesk()
  const { caseShelf, shelf } = desk
  const [own, setOwn] = useState(nothingYet)
  useEffect(() => {
    let asked = 0
    const examples = new Set(shelf.boards.map(boardNameOf))
    const read = async (): Promise<void> => {
      const number = ++asked
      const listed = await caseShelf.list()
      const entries = (listed.ok ? listed.value : []).filter(
        ({ demo, newer, boardName }) => !demo && !newer && !examples.has(boardName),
      )
      const found = await boardsOf(desk, entries)
      if (number !== asked) return
      setOwn({ ...found, faults: [...(listed.ok ? [] : listed.faults), ...found.faults] })
    }
    const readOrStop = (): void => {
      read().catch((reason: unknown) => {
        if (asked > 0) setOwn((before) => ({ ...before, boards: before.boards ?? [], faults: [stopped(reason)] }))
      })
    }
    readOrStop()
    const end = caseShelf.subscribe(readOrStop)
    return () => {
      asked = -1
      end()
    }
  }, [desk, caseShelf, shelf])
  return own
}

const stopped = (reason: unknown): Fault => ({
  path: 'the boards of your cases',
  found: reason instanceof Error ? reason.message : String(reason),
  expected: 'boards that can be read',
})

/** @param entries the last changed first */
async function boardsOf(desk: Desk, entries: readonly ShelfEntry[]): Promise<OwnBoards> {
  const byContent = new Map<string, OwnCases>()
  const faults: Fault[] = []
  for (const entry of entries.slice(0, MOST_CASES)) {
    const board = await boardOfCase(desk.caseShelf, entry)
    if (!board.ok) {
      faults.push(...board.faults)
      continue
    }
    const { content, description } = board.value
    const known = byContent.get(content)
    if (known === undefined) byContent.set(content, { last: entry, cases: 1, description })
    else byContent.set(content, { ...known, cases: known.cases + 1 })
  }
  const boards: OwnBoard[] = []
  for (const [content, { last, cases, description }] of [...byContent].slice(0, MOST_BOARDS)) {
    const model = await modelOf(desk, content, description)
    if (!model.ok) faults.push(...model.faults)
    else boards.push({ caseId: last.id, name: description.name, cases, changedAt: last.changedAt, model: model.value })
  }
  return { boards, names: new Set(entries.map(({ boardName }) => boardName)), faults }
}

interface OwnCases {
  readonly last: ShelfEntry
  readonly cases: number
  readonly description: BoardDescription
}

interface BoardOfCase {
  /** The same text for the same board. */
  readonly content: string
  readonly description: BoardDescription
}

interface ReadBefore {
  readonly boards: Map<string, BoardOfCase>
  readonly models: Map<string, BoardModel>
}

/** What was read of each shelf: boards by case and its `rev`, models by their content. */
const readBefore = new WeakMap<CaseShelf, ReadBefore>()

function keptOf(caseShelf: CaseShelf): ReadBefore {
  const kept = readBefore.get(caseShelf) ?? { boards: new Map(), models: new Map() }
  readBefore.set(caseShelf, kept)
  return kept
}

async function boardOfCase(caseShelf: CaseShelf, { id, rev }: ShelfEntry): Promise<Result<BoardOfCase>> {
  const { boards } = keptOf(caseShelf)
  const key = `${rev} ${id}`
  const before = boards.get(key)
  if (before !== undefined) return good(before)
  const description = await caseShelf.boardOf(id)
  if (!description.ok) return description
  // how reports speak of it is learnt from case to case, and makes no other board of it
  const { reportWords: _, ...board } = description.value
  const found = { content: JSON.stringify(board), description: description.value }
  boards.set(key, found)
  return good(found)
}

async function modelOf(desk: Desk, content: string, description: BoardDescription): Promise<Result<BoardModel>> {
  const { models } = keptOf(desk.caseShelf)
  const before = models.get(content)
  if (before !== undefined) return good(before)
  const model = await desk.boards.read({ description })
  if (model.ok) models.set(content, model.value)
  return model
}
