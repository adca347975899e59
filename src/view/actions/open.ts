/** Opens cases, boards and layouts on the desk. What is wrong with one is said where it was dropped; nothing half opens. */
import { type Point, say } from '../../base/index.ts'
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import { CASE_VERSION, type Case, caseSchema, readCase } from '../../case/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { wordsOf, withWords } from '../stores/boardWords.ts'
import type { Desk } from '../stores/desk.ts'
import { today } from './clock.ts'
import { faultOf, MESSAGE_CORNER, sayFaults, saySettled, sheetFoot } from './messages.ts'
import { rememberOpen } from './lastOpen.ts'
import { asOwn, boardOfCase, mayLeave, openBoard, putOnDesk, selfContained, standsInTheWay } from './putOnDesk.ts'
import { readReportsOfCase } from './reports.ts'

/** Opens one of the demo cases that come with the app. */
export async function openDemo(desk: Desk, name: string, at: Point): Promise<void> {
  const found = desk.shelf.cases.find((entry) => entry.name === name)
  if (found !== undefined) await openCaseText(desk, await found.text(), `${name}.case.json`, at)
}

export async function openCaseText(desk: Desk, text: string, name: string, at: Point): Promise<void> {
  const read = readCase(text, name)
  if (!read.ok) return sayFaults(desk, at, say('{name} was not opened', { name }), read.faults)
  await openCase(desk, read.value, name, at)
}

/** @param name how messages call the file that it came in */
export async function openCase(desk: Desk, caseFile: Case, name: string, at: Point): Promise<void> {
  const board = await boardOfCase(desk, caseFile)
  if (!board.ok) return sayFaults(desk, at, say('The board of {name} was not opened', { name }), board.faults)
  const whole = await selfContained(desk, caseFile, board.value)
  const own = await asOwn(desk, whole, board.value)
  if (!(await mayLeaveFor(desk, at))) return
  putOnDesk(desk, own, board.value)
  await readReportsOfCase(desk)
}

/** Opens a case of the shelf with its undo and redo. @returns whether it is on the desk now */
export async function openFromShelf(desk: Desk, id: string, at: Point): Promise<boolean> {
  if (!(await mayLeave(desk, at))) return false
  const stored = await desk.caseShelf.load(id)
  if (!stored.ok) {
    sayFaults(desk, at, say('The case was not opened'), stored.faults)
    return false
  }
  const { entry, history, droppedSteps } = stored.value
  const board = await boardOfCase(desk, history.present)
  if (!board.ok) {
    sayFaults(desk, at, say('The board of {title} was not opened', { title: entry.title }), board.faults)
    return false
  }
  const present = await asOwn(desk, history.present, board.value, id)
  // what was entered while it was being opened is kept too
  if (!(await mayLeaveFor(desk, at))) return false
  putOnDesk(desk, present, board.value, { kept: { id, rev: entry.rev, history }, station: entry.furthest })
  void rememberOpen(desk, id)
  if (droppedSteps > 0) {
    const words = say(
      '{droppedSteps} older {droppedSteps, plural, one {step} other {steps}} of undo could not be read and went; the case itself is whole.',
      { droppedSteps },
    )
    saySettled(desk, at, say('{title} is on the sheet', { title: entry.title }), [words])
  }
  await readReportsOfCase(desk)
  return true
}

/** The workers have the next board by now: where the case on the desk may not be left, they are told its board again. */
async function mayLeaveFor(desk: Desk, at: Point): Promise<boolean> {
  if (await mayLeave(desk, at)) return true
  const stays = desk.cases.getState().board?.model
  if (stays !== undefined) await openBoard(desk, { description: stays.description })
  return false
}

/** A board description begins a new case about a card of that kind. */
export async function openBoardText(desk: Desk, text: string, name: string, at: Point): Promise<void> {
  await beginOn(desk, { text }, name, at)
}

/**
 * A board that was chosen or made here begins a new case.
 * @param untold what is not known of it, in words
 */
export async function beginOnBoard(
  desk: Desk,
  description: BoardDescription,
  at: Point,
  untold: readonly string[] = [],
): Promise<void> {
  await beginOn(desk, { description, untold }, description.name, at)
}

interface BoardToBeginOn {
  readonly text?: string
  readonly description?: BoardDescription
  readonly untold?: readonly string[]
}

async function beginOn(desk: Desk, { untold = [], ...given }: BoardToBeginOn, name: string, at: Point): Promise<void> {
  const board = await openBoard(desk, given)
  if (!board.ok) return sayFaults(desk, at, say('{name} was not opened', { name }), board.faults)
  const own = await asOwn(desk, freshCase(board.value), board.value)
  if (!(await mayLeaveFor(desk, at))) return
  putOnDesk(desk, own, board.value, { untold })
  if (untold.length > 0)
    saySettled(desk, sheetFoot(), say('{name} is on the sheet. Not known of it:', { name }), untold)
}

/** One of the boards that come with the app, for a case of one's own. */
export async function openShippedBoard(desk: Desk, name: string, at: Point): Promise<void> {
  const file = await desk.shelf.open(name)
  if (file !== undefined) await openBoardText(desk, await file.text(), name, at)
}

/** A layout, or data files of one board, begin a new case; what they do not tell is listed. */
export async function importLayout(desk: Desk, files: readonly File[], at: Point): Promise<void> {
  const abort = new AbortController()
  const name = files.map((file) => file.name).join(', ')
  const words = say('Reading {name}', { name })
  desk.screen.setState({ busy: { words, progress: undefined, cancel: () => abort.abort() } })
  try {
    const imported = await desk.reader.call(
      calls.importLayout,
      { files: files.map((file) => ({ file, name: file.name })) },
      {
        signal: abort.signal,
        onProgress: (progress) => desk.screen.setState({ busy: { words, progress, cancel: () => abort.abort() } }),
      },
    )
    if (!imported.ok) return sayFaults(desk, at, say('{name} was not imported', { name }), imported.faults)
    const { model, untold } = imported.value
    const opened = await desk.reasoner.call(calls.openBoard, { description: model.description })
    if (!opened.ok) return sayFaults(desk, at, say('{name} was not imported', { name }), opened.faults)
    const own = await asOwn(desk, freshCase(model), model)
    if (!(await mayLeaveFor(desk, at))) return
    putOnDesk(desk, own, model, { untold })
    if (untold.length > 0) saySettled(desk, at, say('{name} is on the sheet. Not told:', { name }), untold)
  } catch (reason) {
    if (!isAbort(reason)) sayFaults(desk, at, say('{name} was not imported', { name }), [faultOf(name, reason)])
  } finally {
    desk.screen.setState({ busy: undefined })
  }
}

const freshCase = (model: BoardModel): Case =>
  caseSchema.parse({
    format: 'liftmap-case',
    version: CASE_VERSION,
    title: say('A card on {name}', { name: model.name }).slice(0, 200),
    board: { inline: model.description },
    arrival: { on: today() },
  })

/** Begins anew on the same board: no marks, no reports, not a demo. */
export async function startOnThisBoard(desk: Desk): Promise<void> {
  const { board, history } = desk.cases.getState()
  if (board === undefined) return
  const fresh = freshCase(board.model)
  const spoken = history === undefined ? fresh : withWords(fresh, board.model, wordsOf(history.present, board.model))
  const own = await asOwn(desk, spoken, board.model)
  if (!(await mayLeave(desk, MESSAGE_CORNER))) return
  putOnDesk(desk, own, board.model, { untold: board.untold })
}

/** Asks which card a new case is about. What was entered so far is kept first, so that its board is there to choose. */
export async function startOwnCase(desk: Desk): Promise<void> {
  desk.screen.setState({ startOpen: true, casesOpen: false, message: undefined })
  await desk.saving.getState().saveNow()
}

export const leaveStart = (desk: Desk): void => desk.screen.setState({ startOpen: false })

/**
 * Every way out of the question that begins a case goes through here, so that what is said about it stands in sight. While the
 * shelf refuses the case on the desk, the question stays with what was typed into it.
 */
export function fromStart(desk: Desk, begin: (at: Point) => Promise<void>): void {
  if (desk.saving.getState().trouble !== undefined && standsInTheWay(desk, MESSAGE_CORNER)) return
  leaveStart(desk)
  void begin(MESSAGE_CORNER)
}
