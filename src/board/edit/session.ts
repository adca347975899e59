/** A board under edit with undo and redo; each step is told in words, and a run of like steps counts as one. */
import { good, type Result } from '../../base/index.ts'
import type { BoardDescription } from '../schema.ts'
import { applyEdit } from './apply.ts'
import type { BoardEdit } from './edits.ts'
import { sayEdit } from './say.ts'

interface SessionStep {
  /** The board on the other side of the step: before it in the past, after it in the future. */
  readonly board: BoardDescription
  readonly words: string
}

export interface BoardSession {
  readonly board: BoardDescription
  readonly past: readonly SessionStep[]
  readonly future: readonly SessionStep[]
  /** Key of the last step; a next one with the same key joins it. */
  readonly joinKey: string | undefined
}

const MOST_STEPS = 500

/** A session in which nothing can be undone. */
export const beginSession = (board: BoardDescription): BoardSession => ({
  board,
  past: [],
  future: [],
  joinKey: undefined,
})

/**
 * The session after an edit, or the faults of the edit. An edit that changes nothing is no step; what could be redone is
 * dropped; with the last step's `joinKey` it joins that step, so that nudging by keys is undone at once.
 */
export function editSession(session: BoardSession, edit: BoardEdit, joinKey?: string): Result<BoardSession> {
  const board = applyEdit(session.board, edit)
  if (!board.ok) return board
  if (board.value === session.board) return good(session)
  const joins = joinKey !== undefined && joinKey === session.joinKey
  const step = { board: session.board, words: sayEdit(edit) }
  const past = joins ? session.past : [...session.past, step].slice(-MOST_STEPS)
  return good({ board: board.value, past, future: [], joinKey })
}

/** One step back; the same session where nothing is left to undo. */
export function undoSession(session: BoardSession): BoardSession {
  const step = session.past.at(-1)
  if (step === undefined) return session
  return {
    board: step.board,
    past: session.past.slice(0, -1),
    future: [{ board: session.board, words: step.words }, ...session.future],
    joinKey: undefined,
  }
}

/** One step forward again; the same session where nothing was undone. */
export function redoSession(session: BoardSession): BoardSession {
  const [step, ...future] = session.future
  if (step === undefined) return session
  return {
    board: step.board,
    past: [...session.past, { board: session.board, words: step.words }],
    future,
    joinKey: undefined,
  }
}
