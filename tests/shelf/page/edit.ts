/**
 * The page of the test that kills the browser: a desk with its saver and its shelf, and a hand that makes a hundred edits at
 * a steady pace, each with its number. At `?read` it opens what was kept instead, at `?undo` it takes steps back and keeps
 * that, at `?redo` it takes them forth again.
 */
import bowline from '../../../boards/bowline-8.json'
import { loadBoard } from '../../../src/board/index.ts'
import { CASE_VERSION, type Case, loadCase, startHistory } from '../../../src/case/index.ts'
import { editArrival, redoEdit, undoEdit } from '../../../src/view/actions/edit.ts'
import { watchForSaving } from '../../../src/view/actions/save.ts'
import { openDatabaseShelf } from '../../../src/view/shelf/databaseShelf.ts'
import { createCameraStore } from '../../../src/view/sheet/cameraStore.ts'
import { createDesk } from '../../../src/view/stores/desk.ts'

export interface Told {
  readonly edits: number
  /** The last edit that the saver says is kept. */
  readonly saved?: number
  /** Of the edits that were kept, the last one first; only after `?read`. */
  readonly kept?: readonly number[]
  readonly fault?: string
}

const EDITS = 100
const PACE_MS = 40
const ID = 'the-case'

const desk = createDesk({
  startWorker: () => ({ postMessage: () => undefined, addEventListener: () => undefined }),
  shelf: { cases: [], boards: [], open: () => Promise.resolve(undefined) },
  caseShelf: openDatabaseShelf(),
})
const tell = (told: Told): void => {
  document.title = JSON.stringify(told)
}

function startEditing(): void {
  const model = loadBoard(bowline)
  const made = loadCase({ format: 'liftmap-case', version: CASE_VERSION, title: 'a card', board: { inline: bowline } })
  if (!model.ok || !made.ok) return tell({ edits: 0, fault: 'no case to begin with' })
  desk.saving.setState({ shelved: { id: ID, rev: 0, history: undefined } })
  const camera = createCameraStore(model.value.box, model.value.box)
  const board = { opening: 1, model: model.value, camera, untold: [] }
  desk.cases.setState({ id: ID, history: startHistory(made.value), board, saved: undefined })
  watchForSaving(desk)
  let edits = 0
  const tellBoth = (): void => tell({ edits, saved: lastEdit(desk.saving.getState().shelved?.history?.present) })
  desk.saving.subscribe(tellBoth)
  const timer = setInterval(() => {
    edits++
    // by turns in two fields: edits of one field in a row would join to one step
    const words = `edit ${edits}`
    editArrival(desk, edits % 2 === 0 ? { seen: words } : { account: words })
    tellBoth()
    if (edits === EDITS) clearInterval(timer)
  }, PACE_MS)
}

/** The number of the edit that was the last to write into a case; 0 before the first. */
function lastEdit(present: Case | undefined): number {
  const { seen = '', account = '' } = present?.arrival ?? {}
  return Math.max(numberOf(seen), numberOf(account))
}

/** Walks back through the kept steps, and tells what each of them was the last to write. */
async function readKept(): Promise<void> {
  const stored = await desk.caseShelf.load(ID)
  if (!stored.ok) return tell({ edits: 0, fault: JSON.stringify(stored.faults) })
  desk.cases.setState({ history: stored.value.history })
  const kept: number[] = []
  for (;;) {
    const history = desk.cases.getState().history
    if (history === undefined || history.past.length === 0) break
    kept.push(lastEdit(history.present))
    undoEdit(desk)
  }
  tell({ edits: kept.length, kept })
}

/** Opens the case as an app does, goes some steps, and tells the account once that is kept. */
async function walk(go: (on: typeof desk) => void): Promise<void> {
  const model = loadBoard(bowline)
  const stored = await desk.caseShelf.load(ID)
  if (!stored.ok || !model.ok) return tell({ edits: 0, fault: 'no case on the shelf' })
  const { history, entry } = stored.value
  desk.saving.setState({ shelved: { id: ID, rev: entry.rev, history } })
  const camera = createCameraStore(model.value.box, model.value.box)
  const board = { opening: 1, model: model.value, camera, untold: [] }
  desk.cases.setState({ id: ID, history, board, saved: undefined })
  watchForSaving(desk)
  for (let i = 0; i < WALKED; i++) go(desk)
  await desk.saving.getState().saveNow()
  tell({ edits: lastEdit(desk.cases.getState().history?.present), kept: [] })
}

const WALKED = 7

const numberOf = (words: string): number => Number(/^edit (\d+)/.exec(words)?.[1] ?? 0)

if (location.search === '?read') void readKept()
else if (location.search === '?undo') void walk(undoEdit)
else if (location.search === '?redo') void walk(redoEdit)
else startEditing()
