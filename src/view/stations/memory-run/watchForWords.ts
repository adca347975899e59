/** What is told of a board's words, undone or forgotten: kept for its next card, and reports that use it are read anew. */
import { sameWords, wordsOf } from '../../stores/boardWords.ts'
import type { Desk } from '../../stores/desk.ts'
import { readByNewWords } from '../../actions/reports.ts'

/** @returns a function that ends the watch */
export function watchForWords(desk: Desk): () => void {
  return desk.cases.subscribe((now, before) => {
    if (now.id !== before.id || now.board === undefined) return
    const [is, was] = [now.history?.present, before.history?.present]
    if (is === undefined || was === undefined || is.board === was.board) return
    const words = wordsOf(is, now.board.model)
    if (sameWords(words, wordsOf(was, now.board.model))) return
    desk.shopWords.keep(now.board.model.name, words)
    void readByNewWords(desk)
  })
}
