/**
 * Keeps the figures of the shop's good cards in the case on the desk as the shelf has them: another good card of the same
 * board, measured or put away in any tab, changes the reference ranges here. Not a step of undo: nobody entered it here.
 */
import type { GoodReadings } from '../../../measure/index.ts'
import type { Case, History } from '../../../case/index.ts'
import type { Desk } from '../../stores/desk.ts'

type GoodReadingsDesk = Pick<Desk, 'cases' | 'caseShelf'>

const CALM_MS = 400

/** @returns a function that ends the watch */
export function watchForGoodReadings(desk: GoodReadingsDesk): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const end = desk.caseShelf.subscribe((change) => {
    const { id } = desk.cases.getState()
    if ('id' in change && change.id === id) return
    clearTimeout(timer)
    timer = setTimeout(() => void learn(desk), CALM_MS)
  })
  return () => {
    clearTimeout(timer)
    end()
  }
}

async function learn(desk: GoodReadingsDesk): Promise<void> {
  const { id, board, history } = desk.cases.getState()
  if (id === undefined || board === undefined || history === undefined || history.present.demo) return
  const learnt = await desk.caseShelf.goodReadings(board.model.name, id)
  if (!learnt.ok) return
  desk.cases.setState((now) =>
    now.id !== id || now.history === undefined ? {} : { history: withGoodReadings(now.history, learnt.value) },
  )
}

/** The same history where the figures are the same. */
export function withGoodReadings(history: History<Case>, learnt: readonly GoodReadings[]): History<Case> {
  if (JSON.stringify(history.present.goodReadings) === JSON.stringify(learnt)) return history
  return { ...history, present: { ...history.present, goodReadings: [...learnt] } }
}
