/** The boards of one's own cases, each once, as the last case on it holds it. */
import { useEffect, useState } from 'react'
import { type BoardModel, loadBoard } from '../../board/index.ts'
import type { CaseShelf, ShelfEntry } from '../shelf/caseShelf.ts'
import { useDesk } from '../stores/hooks.ts'
import { boardNameOf } from './useExamples.ts'

export interface OwnBoard {
  readonly name: string
  readonly cases: number
  readonly model: BoardModel
}

/** More are not shown: the boards of the cases that were changed last. */
const MOST_BOARDS = 12

/** Undefined while they are read for the first time. */
export function useOwnBoards(): readonly OwnBoard[] | undefined {
  const { caseShelf, shelf } = useDesk()
  const [boards, setBoards] = useState<readonly OwnBoard[]>()
  useEffect(() => {
    let asked = 0
    const examples = new Set(shelf.boards.map(boardNameOf))
    const read = async (): Promise<void> => {
      const number = ++asked
      const listed = await caseShelf.list()
      const found = await boardsOf(caseShelf, listed.ok ? listed.value : [], examples)
      if (number === asked) setBoards(found)
    }
    void read()
    const end = caseShelf.subscribe(() => void read())
    return () => {
      asked = -1
      end()
    }
  }, [caseShelf, shelf])
  return boards
}

/** @param entries the last changed first; @param examples names of boards that are nobody's own */
async function boardsOf(
  caseShelf: CaseShelf,
  entries: readonly ShelfEntry[],
  examples: ReadonlySet<string>,
): Promise<OwnBoard[]> {
  const byName = new Map<string, ShelfEntry[]>()
  for (const entry of entries) {
    if (entry.demo || entry.newer || examples.has(entry.boardName)) continue
    byName.set(entry.boardName, [...(byName.get(entry.boardName) ?? []), entry])
  }
  const boards: OwnBoard[] = []
  for (const [name, cases] of [...byName].slice(0, MOST_BOARDS)) {
    const model = await modelOf(caseShelf, cases[0]?.id ?? '')
    if (model !== undefined) boards.push({ name, cases: cases.length, model })
  }
  return boards
}

async function modelOf(caseShelf: CaseShelf, id: string): Promise<BoardModel | undefined> {
  const description = await caseShelf.boardOf(id)
  if (!description.ok) return undefined
  const board = loadBoard(description.value)
  return board.ok ? board.value : undefined
}
