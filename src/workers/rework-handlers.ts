/** What the calls about heat and plan do: one board's solves are kept, so that a changed price asks for none again. */
import { bad, good, type Result, say } from '../base/index.ts'
import type { BoardModel } from '../board/index.ts'
import { type ExposureShelf, planCase } from '../case/index.ts'
import { buildThermalBoard, simulate, whatIfs } from '../heat/index.ts'
import { calls } from './contract.ts'
import { type Handler, handle } from './serve.ts'

const noBoard = bad({
  path: 'board',
  found: say('no board in the worker'),
  expected: say('an opened board'),
  todo: say('Open a board or a case first.'),
})

/** @param board the board that is kept now */
export function reworkHandlers(board: () => BoardModel | undefined): Handler[] {
  let shelf: { readonly model: BoardModel; readonly exposures: ExposureShelf } | undefined
  const shelfFor = (model: BoardModel): ExposureShelf => {
    if (shelf?.model !== model) shelf = { model, exposures: new Map() }
    return shelf.exposures
  }
  const withBoard = <T>(run: (model: BoardModel) => Result<T>): Result<T> => {
    const model = board()
    return model === undefined ? noBoard : run(model)
  }
  return [
    handle(calls.planRework, ({ question }, { signal, onProgress }) =>
      withBoard((model) =>
        planCase(
          model,
          question,
          {
            signal,
            onProgress: (share, ref) => onProgress({ share, words: say('Heating {ref} in the model', { ref }) }),
          },
          shelfFor(model),
        ),
      ),
    ),
    handle(calls.heatFor, ({ setting }, { signal, onProgress }) =>
      withBoard((model) => {
        const thermal = buildThermalBoard(model, { side: setting.side, shields: setting.shields, cellMm: 1 })
        if (!thermal.ok) return thermal
        const report = (share: number): void =>
          onProgress({ share: Math.min(1, share), words: say('Heating the board') })
        return simulate(thermal.value, setting, { signal, keepEveryS: KEEP_EVERY_S, onProgress: everyFew(report) })
      }),
    ),
    handle(calls.whatIf, ({ wish }) => withBoard((model) => good(whatIfs(model, wish)))),
  ]
}

const KEEP_EVERY_S = 5
const LEAST_STEP = 0.04

/** Progress a few dozen times a run, not at every step. */
function everyFew(report: (share: number) => void): (share: number) => void {
  let told = 0
  return (share) => {
    if (share - told < LEAST_STEP) return
    told = share
    report(share)
  }
}
