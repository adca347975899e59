/** Undo and redo over immutable values; steps with the same key in a row (a drag, typing in one field) count as one. */

export interface History<T> {
  readonly present: T
  readonly past: readonly T[]
  readonly future: readonly T[]
  /** Key of the last step; a next step with the same key joins it. */
  readonly joinKey: string | undefined
}

const MAX_STEPS = 200

/** A history in which nothing can be undone or redone. */
export const startHistory = <T>(present: T): History<T> => ({ present, past: [], future: [], joinKey: undefined })

/**
 * The history after a change; what could be redone is dropped. The same value again is no step, a step with the last
 * one's `joinKey` joins it, and of the past the last 200 are kept.
 */
export function step<T>(history: History<T>, next: T, joinKey?: string): History<T> {
  if (next === history.present) return history
  if (joinKey !== undefined && joinKey === history.joinKey) return { ...history, present: next, future: [] }
  return { present: next, past: [...history.past, history.present].slice(-MAX_STEPS), future: [], joinKey }
}

/** Ends a run of joined steps: the next step with the same key stands alone again. */
export const endJoin = <T>(history: History<T>): History<T> =>
  history.joinKey === undefined ? history : { ...history, joinKey: undefined }

/** One step back; the same history where nothing is left to undo. The next change never joins what was undone to. */
export function undo<T>(history: History<T>): History<T> {
  const previous = history.past.at(-1)
  if (previous === undefined) return history
  return {
    present: previous,
    past: history.past.slice(0, -1),
    future: [history.present, ...history.future],
    joinKey: undefined,
  }
}

/** One step forward again; the same history where nothing was undone. */
export function redo<T>(history: History<T>): History<T> {
  const next = history.future[0]
  if (next === undefined) return history
  return {
    present: next,
    past: [...history.past, history.present],
    future: history.future.slice(1),
    joinKey: undefined,
  }
}
