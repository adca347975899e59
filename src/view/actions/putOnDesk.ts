/** What has to happen before a case lies on the desk: the last one is kept, the board is open in the workers, all is inside. */
import { bad, type Point, type Result, say } from '../../base/index.ts'
import type { BoardDescription, BoardModel } from '../../board/index.ts'
import {
  type Case,
  type History,
  isReportPath,
  type ReportEntry,
  startHistory,
  type Station,
} from '../../case/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { createCameraStore } from '../sheet/index.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import { openingBox } from '../stores/derive.ts'
import type { Desk } from '../stores/desk.ts'
import { noResult } from '../stores/resultStore.ts'
import { isUnkept } from '../stores/savingStore.ts'
import { sayFaults } from './messages.ts'
import { withShopWords } from './reportWords.ts'

/**
 * What is unsaved is saved first; a case that could be neither kept nor exported stays on the desk. To be asked last, right
 * before another takes its place: what is entered after it is kept by nobody.
 */
export async function mayLeave(desk: Desk, at: Point): Promise<boolean> {
  await desk.saving.getState().saveNow()
  if (enteredMeanwhile(desk)) await desk.saving.getState().saveNow()
  return !standsInTheWay(desk, at)
}

/** Says so where the case on the desk is neither kept nor exported, by what is known now. @returns whether it is so */
export function standsInTheWay(desk: Desk, at: Point): boolean {
  const { history, saved } = desk.cases.getState()
  const { trouble, ...saving } = desk.saving.getState()
  if (history?.present === saved || !isUnkept(saving, history)) return false
  const fault = {
    path: history?.present.title ?? say('the case'),
    found: trouble?.found ?? say('changes that were not kept'),
    expected: say('a case that is kept before another takes its place'),
    todo: say('Export it first, or settle what the note at the top says.'),
  }
  sayFaults(desk, at, say('The case on the desk is not kept yet'), [fault])
  return true
}

const enteredMeanwhile = (desk: Desk): boolean => {
  const { trouble, conflict, ...saving } = desk.saving.getState()
  return trouble === undefined && conflict === undefined && isUnkept(saving, desk.cases.getState().history)
}

/** With the figures of the shop's good cards, of its own record and its words of reports as they are now; a demo stays as it is. */
export async function asOwn(desk: Desk, caseFile: Case, model: BoardModel, id = ''): Promise<Case> {
  if (caseFile.demo) return caseFile
  const spoken = withShopWords(desk, caseFile, model)
  const learnt = await desk.caseShelf.goodReadings(model.name, id)
  const known = JSON.stringify(spoken.goodReadings)
  const own =
    learnt.ok && JSON.stringify(learnt.value) !== known ? { ...spoken, goodReadings: [...learnt.value] } : spoken
  const { ownRecordFor, takesOwnRecord, withOwnRecord } = await import('./ownRecord.ts')
  if (!takesOwnRecord(own)) return own
  const ownRecord = await ownRecordFor(desk.caseShelf, model.name, id)
  return ownRecord.ok ? withOwnRecord(own, ownRecord.value) : own
}

/** With board and reports inside: what the app comes with may be another one in a year, the case must not. */
export async function selfContained(desk: Desk, caseFile: Case, model: BoardModel): Promise<Case> {
  const inside = async (report: ReportEntry): Promise<ReportEntry> => {
    if (report.path === undefined || isReportPath(report.path)) return report
    const file = await desk.shelf.open(report.path)
    if (file === undefined || file.size > MAX_INSIDE_BYTES) return report
    const { path: _, ...entry } = report
    return { ...entry, text: await file.text() }
  }
  const reports = await Promise.all(caseFile.reports.map(inside))
  return { ...caseFile, board: { inline: model.description }, reports }
}

const MAX_INSIDE_BYTES = 4_000_000

export async function boardOfCase(desk: Desk, caseFile: Case): Promise<Result<BoardModel>> {
  if ('inline' in caseFile.board) return openBoard(desk, { description: caseFile.board.inline })
  const { path } = caseFile.board
  const file = await desk.shelf.open(path)
  if (file === undefined) {
    const todo = say('Drop the board file instead, then the report; or save the case with its board inside.')
    return bad({
      path: '$.board.path',
      found: path,
      expected: say('a board that comes with Liftmap, or the board inside the case'),
      todo,
    })
  }
  return openBoard(desk, { text: await file.text() })
}

/** Both workers keep the board; the answer is the reasoner's. */
export async function openBoard(
  desk: Desk,
  board: { readonly text?: string; readonly description?: BoardDescription },
): Promise<Result<BoardModel>> {
  try {
    const [answer] = await Promise.all([
      desk.reasoner.call(calls.openBoard, board),
      desk.reader.call(calls.openBoard, board),
    ])
    return answer
  } catch (reason) {
    if (isAbort(reason)) throw reason
    const found = reason instanceof Error ? reason.message : String(reason)
    const todo = say('Try it once more. If it stays so, load the page again; what you entered is kept.')
    return bad({ path: say('the board'), found, expected: say('an opened board'), todo })
  }
}

interface HowToPut {
  /** What the shelf has of it; left out: it is new there. */
  readonly kept?: { readonly id: string; readonly rev: number; readonly history: History<Case> }
  readonly station?: Station
  readonly untold?: readonly string[]
}

/** @param caseFile may be newer than what the shelf has */
export function putOnDesk(
  desk: Desk,
  caseFile: Case,
  model: BoardModel,
  { kept, station, untold = [] }: HowToPut = {},
): void {
  for (const reading of desk.readings.getState().byId.values()) reading.cancel()
  desk.readings.setState({ byId: new Map() })
  desk.results.setState(noResult)
  const camera = createCameraStore(model.box, openingBox(model, caseFile.marks))
  desk.screen.setState({
    selection: undefined,
    hovered: undefined,
    tool: 'select',
    message: undefined,
    demoNoteOpen: true,
    startOpen: false,
    station: station ?? (caseFile.reports.length + caseFile.marks.length > 0 ? 'suspects' : 'arrival'),
  })
  const id = kept?.id ?? randomId()
  const history = kept === undefined ? startHistory(caseFile) : { ...kept.history, present: caseFile }
  // a demo goes on the shelf when something is changed in it, one's own case at once
  const shelved = { id, rev: kept?.rev ?? 0, history: kept?.history ?? (caseFile.demo ? history : undefined) }
  desk.saving.setState({ shelved, conflict: undefined, trouble: undefined, unheld: new Map() })
  desk.cases.setState({
    id,
    history,
    board: { opening: desk.nextNumber(), model, camera, untold },
    saved: caseFile,
  })
}
