/** Opens cases, boards and layouts on the desk. What is wrong with one is said where it was dropped; nothing half opens. */
import { bad, type Point, type Result } from '../../base/index.ts'
import { type BoardDescription, type BoardModel } from '../../board/index.ts'
import {
  CASE_VERSION,
  type Case,
  caseSchema,
  type History,
  readCase,
  startHistory,
  type Station,
} from '../../case/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { createCameraStore } from '../sheet/index.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { openingBox } from '../stores/derive.ts'
import { noResult } from '../stores/resultStore.ts'
import { differsFromShelf } from '../stores/savingStore.ts'
import { today } from './clock.ts'
import { faultOf, sayFaults, saySettled } from './messages.ts'
import { rememberOpen } from './lastOpen.ts'
import { readReportsOfCase } from './reports.ts'

/** Opens one of the demo cases that come with the app. */
export async function openDemo(desk: Desk, name: string, at: Point): Promise<void> {
  const found = desk.shelf.cases.find((entry) => entry.name === name)
  if (found !== undefined) await openCaseText(desk, await found.text(), `${name}.case.json`, at)
}

export async function openCaseText(desk: Desk, text: string, name: string, at: Point): Promise<void> {
  const read = readCase(text, name)
  if (!read.ok) return sayFaults(desk, at, `${name} was not opened`, read.faults)
  await openCase(desk, read.value, name, at)
}

/** @param name how messages call the file that it came in */
export async function openCase(desk: Desk, caseFile: Case, name: string, at: Point): Promise<void> {
  const board = await boardOfCase(desk, caseFile)
  if (!board.ok) return sayFaults(desk, at, `The board of ${name} was not opened`, board.faults)
  if (!(await mayLeave(desk, at))) return
  putOnDesk(desk, await asOwn(desk, caseFile, board.value), board.value)
  await readReportsOfCase(desk)
}

/** Opens a case of the shelf with its undo and redo. @returns whether it is on the desk now */
export async function openFromShelf(desk: Desk, id: string, at: Point): Promise<boolean> {
  if (!(await mayLeave(desk, at))) return false
  const stored = await desk.caseShelf.load(id)
  if (!stored.ok) {
    sayFaults(desk, at, 'The case was not opened', stored.faults)
    return false
  }
  const { entry, history, droppedSteps } = stored.value
  const board = await boardOfCase(desk, history.present)
  if (!board.ok) {
    sayFaults(desk, at, `The board of ${entry.title} was not opened`, board.faults)
    return false
  }
  const present = await asOwn(desk, history.present, board.value, id)
  putOnDesk(desk, present, board.value, { kept: { id, rev: entry.rev, history }, station: entry.furthest })
  void rememberOpen(desk, id)
  if (droppedSteps > 0) {
    const words = `${droppedSteps} older ${droppedSteps === 1 ? 'step' : 'steps'} of undo could not be read and went; the case itself is whole.`
    saySettled(desk, at, `${entry.title} is on the sheet`, [words])
  }
  await readReportsOfCase(desk)
  return true
}

/** What is unsaved is saved first; a case that could be neither kept nor exported stays on the desk. */
async function mayLeave(desk: Desk, at: Point): Promise<boolean> {
  await desk.saving.getState().saveNow()
  const { history, saved } = desk.cases.getState()
  const { shelved, trouble } = desk.saving.getState()
  if (history?.present === saved || !differsFromShelf(shelved, history)) return true
  const fault = {
    path: history?.present.title ?? 'the case',
    found: trouble?.found ?? 'changes that were not kept',
    expected: 'a case that is kept before another takes its place',
    todo: 'Export it first, or settle what the note at the top says.',
  }
  sayFaults(desk, at, 'The case on the desk is not kept yet', [fault])
  return false
}

/** With the figures of the shop's good cards of that board as they are now; a demo stays as it is. */
async function asOwn(desk: Desk, caseFile: Case, model: BoardModel, id = ''): Promise<Case> {
  if (caseFile.demo) return caseFile
  const learnt = await desk.caseShelf.goodReadings(model.name, id)
  if (!learnt.ok || JSON.stringify(learnt.value) === JSON.stringify(caseFile.goodReadings)) return caseFile
  return { ...caseFile, goodReadings: [...learnt.value] }
}

async function boardOfCase(desk: Desk, caseFile: Case): Promise<Result<BoardModel>> {
  if ('inline' in caseFile.board) return openBoard(desk, { description: caseFile.board.inline })
  const { path } = caseFile.board
  const file = await desk.shelf.open(path)
  if (file === undefined) {
    const todo = 'Drop the board file instead, then the report; or save the case with its board inside.'
    return bad({
      path: '$.board.path',
      found: path,
      expected: 'a board that comes with Liftmap, or the board inside the case',
      todo,
    })
  }
  return openBoard(desk, { text: await file.text() })
}

/** Both workers keep the board; the answer is the reasoner's. */
async function openBoard(
  desk: Desk,
  board: { readonly text?: string; readonly description?: BoardDescription },
): Promise<Result<BoardModel>> {
  const [answer] = await Promise.all([
    desk.reasoner.call(calls.openBoard, board),
    desk.reader.call(calls.openBoard, board),
  ])
  return answer
}

interface HowToPut {
  /** What the shelf has of it; left out: it is new there. */
  readonly kept?: { readonly id: string; readonly rev: number; readonly history: History<Case> }
  readonly station?: Station
  readonly untold?: readonly string[]
}

/** @param caseFile may be newer than what the shelf has */
function putOnDesk(desk: Desk, caseFile: Case, model: BoardModel, { kept, station, untold = [] }: HowToPut = {}): void {
  for (const reading of desk.readings.getState().byName.values()) reading.cancel()
  desk.readings.setState({ byName: new Map() })
  desk.results.setState(noResult)
  const camera = createCameraStore(model.box, openingBox(model, caseFile.marks))
  desk.screen.setState({
    selection: undefined,
    hovered: undefined,
    tool: 'select',
    message: undefined,
    demoNoteOpen: true,
    station: station ?? (caseFile.reports.length + caseFile.marks.length > 0 ? 'suspects' : 'arrival'),
  })
  const id = kept?.id ?? randomId()
  const history = kept === undefined ? startHistory(caseFile) : { ...kept.history, present: caseFile }
  // a demo goes on the shelf when something is changed in it, one's own case at once
  const shelved = { id, rev: kept?.rev ?? 0, history: kept?.history ?? (caseFile.demo ? history : undefined) }
  desk.saving.setState({ shelved, conflict: undefined, trouble: undefined })
  desk.cases.setState({
    id,
    history,
    board: { opening: desk.nextNumber(), model, camera, untold },
    saved: caseFile,
  })
}

/** A board description begins a new case about a card of that kind. */
export async function openBoardText(desk: Desk, text: string, name: string, at: Point): Promise<void> {
  const board = await openBoard(desk, { text })
  if (!board.ok) return sayFaults(desk, at, `${name} was not opened`, board.faults)
  if (!(await mayLeave(desk, at))) return
  putOnDesk(desk, await asOwn(desk, freshCase(board.value), board.value), board.value)
}

/** One of the boards that come with the app, for a case of one's own. */
export async function openShippedBoard(desk: Desk, name: string, at: Point): Promise<void> {
  const file = await desk.shelf.open(name)
  if (file !== undefined) await openBoardText(desk, await file.text(), name, at)
}

/** An imported layout begins a new case; what it does not tell is listed. */
export async function importLayout(desk: Desk, file: File, at: Point): Promise<void> {
  const abort = new AbortController()
  const words = `Reading the layout ${file.name}`
  desk.screen.setState({ busy: { words, progress: undefined, cancel: () => abort.abort() } })
  try {
    const imported = await desk.reader.call(
      calls.importLayout,
      { file, name: file.name },
      {
        signal: abort.signal,
        onProgress: (progress) => desk.screen.setState({ busy: { words, progress, cancel: () => abort.abort() } }),
      },
    )
    if (!imported.ok) return sayFaults(desk, at, `${file.name} was not imported`, imported.faults)
    const { model, untold } = imported.value
    const opened = await desk.reasoner.call(calls.openBoard, { description: model.description })
    if (!opened.ok) return sayFaults(desk, at, `${file.name} was not imported`, opened.faults)
    if (!(await mayLeave(desk, at))) return
    putOnDesk(desk, await asOwn(desk, freshCase(model), model), model, { untold })
    if (untold.length > 0) saySettled(desk, at, `${file.name} is on the sheet. It does not tell:`, untold)
  } catch (reason) {
    if (!isAbort(reason)) sayFaults(desk, at, `${file.name} was not imported`, [faultOf(file.name, reason)])
  } finally {
    desk.screen.setState({ busy: undefined })
  }
}

const freshCase = (model: BoardModel): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: `A card on ${model.name}`.slice(0, 200),
    board: { inline: model.description },
    arrival: { on: today() },
  })

const MIDDLE: Point = { x: 420, y: 64 }

/** Begins anew on the same board: no marks, no reports, not a demo. */
export async function startOwnCase(desk: Desk): Promise<void> {
  const { board } = desk.cases.getState()
  if (board === undefined || !(await mayLeave(desk, MIDDLE))) return
  putOnDesk(desk, await asOwn(desk, freshCase(board.model), board.model), board.model, { untold: board.untold })
}
