/** What the call about shorts does: the copper of a board's rails is kept with all that was solved on it. */
import { bad, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { createShortFinder, huntShort, type ShortFinder } from '../measure/index.ts'
import { calls } from './contract.ts'
import { type Handler, handle } from './serve.ts'

/** @param board the board that is kept now */
export function shortHandler(board: () => BoardModel | undefined): Handler {
  let finder: ShortFinder | undefined
  return handle(calls.huntShort, ({ hunt }) => {
    const model = board()
    if (model === undefined)
      return bad({
        path: 'board',
        found: say('no board in the worker'),
        expected: say('an opened board'),
        todo: say('Open a board or a case first.'),
      })
    if (finder?.model !== model) finder = createShortFinder(model)
    return huntShort(finder, hunt)
  })
}
