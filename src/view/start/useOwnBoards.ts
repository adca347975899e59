/** Boards of one's own: those that are kept in versions, and those of one's cases, each once by what it holds. */
import { useEffect, useState } from 'react'
import { type Fault, good, type Result, say } from '../../base/index.ts'
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import type { BoardSubject } from '../own-board/index.ts'
import { contentOf, type KeptBoard, latestOf } from '../shelf/boardShelf.ts'
import type { CaseShelf, ShelfEntry } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import type { Shelf } from '../stores/shelf.ts'
import { boardNameOf } from './useExamples.ts'

export interface OwnBoard {
  /** Tells it from all others. */
  readonly key: string
  readonly name: string
  readonly cases: number
  /** When it or one of its cases was changed last, in milliseconds since 1970. */
  readonly changedAt: number
  /** Number of its last version; undefined where it is in its cases alone. */
  readonly version: number | undefined
  readonly subject: BoardSubject
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

/** More are not shown: those that were changed last. */
const MOST_BOARDS = 24
/** Of so many cases the board is looked at. */
const MOST_CASES = 100

const nothingYet: OwnBoards = { boards: undefined, names: new Set(), faults: [] }

export function useOwnBoards(): OwnBoards {
  const desk = useDesk()
  const { caseShelf } = desk
  const [own, setOwn] = useState(nothingYet)
  useEffect(() => {
    let asked = 0
    const read = async (): Promise<void> => {
      const number = ++asked
      const found = await boardsOf(desk)
      if (number === asked) setOwn(found)
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
  }, [desk, caseShelf])
  return own
}

const stopped = (reason: unknown): Fault => ({
  path: say('the boards of your cases'),
  found: reason instanceof Error ? reason.message : String(reason),
  expected: say('boards that can be read'),
})

interface Found {
  readonly key: string
  readonly subject: BoardSubject
  readonly changedAt: number
}

async function boardsOf(desk: Desk): Promise<OwnBoards> {
  const [listed, kept] = await Promise.all([desk.caseShelf.list(), desk.caseShelf.boards.list()])
  const entries = (listed.ok ? listed.value : []).filter(({ demo, newer }) => !demo && !newer)
  const faults: Fault[] = [...(listed.ok ? [] : listed.faults), ...(kept.ok ? kept.value.faults : kept.faults)]
  const ofCases = await casesByBoard(desk, entries.slice(0, MOST_CASES), faults)
  const found = subjectsOf(kept.ok ? kept.value.boards : [], ofCases).toSorted((a, b) => b.changedAt - a.changedAt)
  const boards: OwnBoard[] = []
  for (const { key, subject, changedAt } of found.slice(0, MOST_BOARDS)) {
    const { description } = subject
    const model = await modelOf(desk, contentOf(description), description)
    if (!model.ok) {
      faults.push(...model.faults)
      continue
    }
    const cases = [...subject.cases.values()].reduce((sum, count) => sum + count, 0)
    const version = subject.kept && latestOf(subject.kept).number
    boards.push({ key, name: description.name, cases, changedAt, version, subject, model: model.value })
  }
  return { boards, names: new Set(found.map(({ subject }) => subject.description.name)), faults }
}

interface OwnCases {
  readonly last: ShelfEntry
  readonly cases: number
  readonly description: BoardDescription
}

/** Cases by what their boards hold, the last changed first; those on an invented example as it comes with the app are left out. */
async function casesByBoard(
  desk: Desk,
  entries: readonly ShelfEntry[],
  faults: Fault[],
): Promise<ReadonlyMap<string, OwnCases>> {
  const byContent = new Map<string, OwnCases>()
  for (const entry of entries) {
    const board = await boardOfCase(desk.caseShelf, entry)
    if (!board.ok) {
      faults.push(...board.faults)
      continue
    }
    const { content, description } = board.value
    if (content === (await exampleNamed(desk, description.name))) continue
    const known = byContent.get(content)
    if (known === undefined) byContent.set(content, { last: entry, cases: 1, description })
    else byContent.set(content, { ...known, cases: known.cases + 1 })
  }
  return byContent
}

/** A board whose version a case stands on takes the case; what is left are boards in cases alone. */
function subjectsOf(kept: readonly KeptBoard[], ofCases: ReadonlyMap<string, OwnCases>): Found[] {
  const alone = new Map(ofCases)
  const found = kept.map((board): Found => {
    const cases = new Map<number, number>()
    let changedAt = latestOf(board).at
    for (const { number, description } of board.versions.toReversed()) {
      const content = contentOf(description)
      const on = alone.get(content)
      if (on === undefined) continue
      alone.delete(content)
      cases.set(number, on.cases)
      changedAt = Math.max(changedAt, on.last.changedAt)
    }
    const { description } = latestOf(board)
    return { key: `kept ${board.id}`, subject: { kept: board, description, changedAt, cases }, changedAt }
  })
  const inCases = [...alone].map(([content, { last, cases, description }]): Found => {
    const { changedAt } = last
    return {
      key: content,
      subject: { kept: undefined, description, changedAt, cases: new Map([[1, cases]]) },
      changedAt,
    }
  })
  return [...found, ...inCases]
}

const examplesRead = new WeakMap<Shelf, Map<string, string | undefined>>()

/** What the example of that name holds; undefined where none is called so, or it can't be read. */
async function exampleNamed(desk: Desk, name: string): Promise<string | undefined> {
  const file = desk.shelf.boards.find((each) => boardNameOf(each) === name)
  if (file === undefined) return undefined
  const read = examplesRead.get(desk.shelf) ?? new Map<string, string | undefined>()
  examplesRead.set(desk.shelf, read)
  if (!read.has(name)) {
    const text = await (await desk.shelf.open(file))?.text()
    const board = text === undefined ? undefined : await desk.boards.read({ text })
    read.set(name, board?.ok === true ? contentOf(board.value.description) : undefined)
  }
  return read.get(name)
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
  const found = { content: contentOf(description.value), description: description.value }
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
