/** Undo and redo over immutable values; steps with the same key in a row (a drag, typing in one field) count as one. */

export interface History<T> {
  readonly present: T
  readonly past: readonly T[]
  readonly future: readonly T[]
  /** Key of the last step; a next step with the same key joins it. */
  readonly joinKey: string | undefined
}

const MAX_STEPS = 200

export const startHistory = <T>(present: T): History<T> => ({ present, past: [], future: [], joinKey: undefined })

export function step<T>(history: History<T>, next: T, joinKey?: string): History<T> {
  if (next === history.present) return history
  if (joinKey !== undefined && joinKey === history.joinKey) return { ...history, present: next, future: [] }
  return { present: next, past: [...history.past, history.present].slice(-MAX_STEPS), future: [], joinKey }
}

/** Ends a run of joined steps: the next step with the same key stands alone again. */
export const endJoin = <T>(history: History<T>): History<T> =>
  history.joinKey === undefined ? history : { ...history, joinKey: undefined }

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
