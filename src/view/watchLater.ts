/** Watches that the first drawing does not wait for: boards, copies, what the shop knows, photos, words of reports, the plan. */
import { watchForBoard } from './actions/boardVersion.ts'
import { watchForCopies } from './actions/copies.ts'
import { watchForOwnRecord } from './actions/ownRecord.ts'
import { watchForPhotos } from './actions/photos.ts'
import { watchForStock } from './actions/stock.ts'
import { watchForGoodReadings } from './stations/measuring/goodReadings.ts'
import { watchForWords } from './stations/memory-run/watchForWords.ts'
import { watchForPlan } from './stations/plan/askPlan.ts'
import type { Desk } from './stores/desk.ts'

/** @returns a function that ends all of them */
export function watchLater(desk: Desk): () => void {
  const ends = [
    watchForCopies(desk),
    watchForGoodReadings(desk),
    watchForOwnRecord(desk),
    watchForBoard(desk),
    watchForPlan(desk),
    watchForPhotos(desk),
    watchForWords(desk),
    watchForStock(desk),
  ]
  return () => {
    for (const end of ends) end()
  }
}
