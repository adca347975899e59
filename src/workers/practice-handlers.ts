/** What the calls about practice do: the card that is played is kept with the board, and one asker for the board. */
import { bad, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { type Asker, createAsker, openPractice, type Practice, type PracticeGame } from '../rehearsal/index.ts'
import { calls } from './contract.ts'
import { type Handler, handle } from './serve.ts'

interface Kept {
  readonly model: BoardModel
  /** Made when it is first asked for: marching takes its time. */
  readonly asker: () => Asker
  readonly cards: Map<string, Promise<Result<Practice>>>
}

const noBoard = bad({
  path: 'board',
  found: say('no board in the worker'),
  expected: say('an opened board'),
  todo: say('Open a board first.'),
})

/** @param board the board that is kept now */
export function practiceHandlers(board: () => BoardModel | undefined): Handler[] {
  let kept: Kept | undefined
  const cardOf = (game: PracticeGame): Promise<Result<Practice>> => {
    const model = board()
    if (model === undefined) return Promise.resolve(noBoard)
    if (kept?.model !== model) kept = keptFor(model)
    const key = JSON.stringify(game)
    const known = kept.cards.get(key)
    if (known !== undefined) return known
    const opened = openPractice(model, game, kept.asker)
    kept.cards.clear()
    kept.cards.set(key, opened)
    return opened
  }
  return [
    handle(calls.playPractice, async ({ game, actions }) => {
      const card = await cardOf(game)
      return card.ok ? { ok: true, value: card.value.view(actions) } : card
    }),
    handle(calls.askPractice, async ({ game, actions }) => {
      const card = await cardOf(game)
      return card.ok ? { ok: true, value: card.value.propose(actions) } : card
    }),
    handle(calls.endPractice, async ({ game, actions }, { onProgress }) => {
      const card = await cardOf(game)
      return card.ok ? card.value.result(actions, (share, words) => onProgress({ share, words })) : card
    }),
  ]
}

function keptFor(model: BoardModel): Kept {
  let asker: Asker | undefined
  return { model, asker: () => (asker ??= createAsker(model)), cards: new Map() }
}
