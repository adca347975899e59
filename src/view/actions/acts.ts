/** Follows what is done to the case, so that the status line can say it. */
import type { Desk } from '../stores/desk.ts'
import { actStoreOf, keepNeeds } from '../stores/actStore.ts'
import { toolStoreOf } from '../stores/toolStore.ts'

/** @returns a function that ends the watch */
export function watchForActs(desk: Desk): () => void {
  const store = actStoreOf(desk)
  const ends = [
    desk.cases.subscribe(({ id, history }, earlier) => {
      if (history?.present === earlier.history?.present) return
      if (id !== earlier.id) toolStoreOf(desk).setState({ nextSubstance: undefined })
      const before = history?.past.at(-1)
      if (history === undefined || before === undefined || id !== earlier.id || history.future.length > 0)
        return store.setState({ last: undefined })
      const known = desk.results.getState().assessment
      // the last good answer is that of the state before, whoever else hears of the change first
      if (known !== undefined && before === earlier.history?.present) keepNeeds(before, known.suspects.parts)
      const last = { before, after: history.present, station: undefined }
      store.setState({ last })
      // whoever made a mark is brought to its station in the same breath
      queueMicrotask(() =>
        store.setState((now) =>
          now.last === last ? { last: { ...last, station: desk.screen.getState().station } } : now,
        ),
      )
    }),
    desk.results.subscribe(({ state, assessment }) => {
      const present = desk.cases.getState().history?.present
      if (state === 'done' && assessment !== undefined && present !== undefined)
        keepNeeds(present, assessment.suspects.parts)
    }),
  ]
  return () => {
    for (const end of ends) end()
  }
}
