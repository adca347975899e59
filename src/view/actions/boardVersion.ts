/** The case on the desk and versions of its board: what another one would change, moved to it, and followed on undo. */
import { bad, type Fault, type Point, good, type Result, say } from '../../base/index.ts'
import { type BoardDescription, boardFaults, type BoardModel } from '../../board/index.ts'
import { type Case, enteredOf } from '../../case/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { contentOf } from '../shelf/boardShelf.ts'
import { createCameraStore } from '../sheet/index.ts'
import { wordsOf } from '../stores/boardWords.ts'
import { createEarlierRuns, createTallyOfCase, openingBox } from '../stores/derive.ts'
import type { Desk } from '../stores/desk.ts'
import type { Reading } from '../stores/readingStore.ts'
import { editCase } from './edit.ts'
import { MESSAGE_CORNER, sayFaults } from './messages.ts'
import { openBoard } from './putOnDesk.ts'
import { idle } from './readReport.ts'
import { readReportsOfCase } from './reports.ts'

export interface VersionTrial {
  /** Lift lists, as refs in their order. */
  readonly before: readonly string[]
  readonly after: readonly string[]
  /** Parts and rails that something was entered for and that the other version lacks. */
  readonly lost: readonly string[]
  /** The board as the case would have it, with how its reports speak of it. */
  readonly board: BoardDescription
}

/** What the case's result would be on another version of its board; the case stays as it is. */
export async function tryVersion(desk: Desk, version: BoardDescription): Promise<Result<VersionTrial>> {
  const { history } = desk.cases.getState()
  const present = history?.present
  if (present === undefined || !('inline' in present.board))
    return bad({ path: say('the desk'), found: say('no case with its board inside'), expected: say('an open case') })
  const board = withWordsOf(withGlueOf(version, present.board.inline), present.board.inline)
  try {
    const { state, assessment } = desk.results.getState()
    // what the sheet shows is the answer for the case as it is
    const before =
      state === 'done' && assessment !== undefined
        ? good(assessment.suspects.lift)
        : await liftOn(desk, present, present.board.inline)
    if (!before.ok) return before
    const after = await liftOn(desk, present, board)
    if (!after.ok) return after
    return good({ before: before.value, after: after.value, lost: lostOn(present, board), board })
  } catch (reason) {
    return bad(stopped(reason))
  }
}

const stopped = (reason: unknown): Fault => ({
  path: say('the newer version'),
  found: reason instanceof Error ? reason.message : String(reason),
  expected: say('a result to compare'),
  todo: say('Try it once more.'),
})

/** A version with the glue that was seen on the card of a case: what it says of parts that the version has. */
export function withGlueOf(version: BoardDescription, { parts: seen }: BoardDescription): BoardDescription {
  const glued = new Map(seen.flatMap(({ ref, bonding }) => (bonding === 'none' ? [] : [[ref, bonding] as const])))
  if (version.parts.every(({ ref, bonding }) => (glued.get(ref) ?? bonding) === bonding)) return version
  return { ...version, parts: version.parts.map((part) => ({ ...part, bonding: glued.get(part.ref) ?? part.bonding })) }
}

/** How reports speak of the board stays with the case, unless it speaks of what the version lacks. */
function withWordsOf(version: BoardDescription, { reportWords }: BoardDescription): BoardDescription {
  const spoken: BoardDescription = { ...version, reportWords }
  return reportWords !== undefined && boardFaults(spoken).length === 0 ? spoken : version
}

/** Reckoned in a worker of its own, reports read anew: lanes and rails may be others there. */
async function liftOn(desk: Desk, present: Case, description: BoardDescription): Promise<Result<readonly string[]>> {
  const opened = await desk.boards.read({ description })
  if (!opened.ok) return opened
  const caseFile: Case = { ...present, board: { inline: description } }
  const readings = await readingsOn(desk, caseFile, opened.value)
  if (!readings.ok) return readings
  const model = opened.value
  const { reports } = caseFile
  const tally = createTallyOfCase('first')(model, reports, readings.value)
  const retest = createTallyOfCase('retest')(model, reports, readings.value)
  const earlier = createEarlierRuns()(model, reports, readings.value)
  const entered = enteredOf({ caseFile, model, tally, retest, earlier })
  const answer = await desk.boards.call(calls.assess, calls.assess.takes.parse(entered))
  return answer.ok ? good(answer.value.suspects.lift) : answer
}

async function readingsOn(
  desk: Desk,
  caseFile: Case,
  model: BoardModel,
): Promise<Result<ReadonlyMap<string, Reading>>> {
  const words = wordsOf(caseFile, model)
  const readings = new Map<string, Reading>()
  for (const report of caseFile.reports) {
    if (report.table !== undefined) continue
    const file = report.path === undefined ? new Blob([report.text ?? '']) : await desk.files.get(report.path)
    if (file === undefined) continue
    const read = await desk.boards.call(calls.readReport, {
      file,
      recipe: report.recipe,
      words,
      mayBeClean: report.run === 'retest',
    })
    if (!read.ok) return read
    const { tally, isWhole, sure, why } = read.value
    readings.set(report.id, { ...idle(file), state: 'read', tally, isWhole, sure, why })
  }
  return good(readings)
}

function lostOn(present: Case, board: BoardDescription): string[] {
  const known = new Set([...board.parts.map(({ ref }) => ref), ...board.rails.map(({ name }) => name)])
  const entered = [
    ...present.measurements.flatMap(({ line }) => (line.kind === 'supply' ? [] : [line.name])),
    ...present.shields.map(({ ref }) => ref),
    ...present.floorLife.map(({ ref }) => ref),
  ]
  return [...new Set(entered)].filter((name) => !known.has(name))
}

/** The case stands on the version that was tried and is in sight; a note says so, and undo leads back. */
export function moveToVersion(desk: Desk, { board }: VersionTrial, words: string): void {
  const { id, history } = desk.cases.getState()
  const before = history?.present.board
  if (before === undefined) return
  editCase(desk, (present) => ({ ...present, board: { inline: board } }))
  const undo = async (): Promise<void> => {
    if (desk.cases.getState().id === id) editCase(desk, (present) => ({ ...present, board: before }))
  }
  const notice = { id: desk.nextNumber(), words, undo }
  desk.screen.setState(({ notices }) => ({ notices: [...notices, notice], startOpen: false }))
}

/**
 * Where the case's board becomes another one, by being moved to a version or by undo, the sheet and the workers follow.
 * @returns a function that ends the watch
 */
export function watchForBoard(desk: Desk): () => void {
  let seen: BoardDescription | undefined
  let following = false
  const look = (): void => {
    const inside = boardInside(desk)
    if (inside === undefined || inside === seen) return
    seen = inside
    if (following || isOnDesk(desk, inside)) return
    following = true
    void followBoard(desk, MESSAGE_CORNER)
      .catch((reason: unknown) => {
        // a desk that is closed follows nothing any more
        if (!isAbort(reason)) throw reason
      })
      .finally(() => {
        following = false
      })
  }
  look()
  return desk.cases.subscribe(look)
}

function boardInside(desk: Desk): BoardDescription | undefined {
  const board = desk.cases.getState().history?.present.board
  return board !== undefined && 'inline' in board ? board.inline : undefined
}

/** Words of reports are told and learnt on one and the same board. */
function isOnDesk(desk: Desk, description: BoardDescription): boolean {
  const shown = desk.cases.getState().board?.model.description
  if (shown === undefined) return true
  const shared = Object.entries(description).every(
    ([field, value]) => field === 'reportWords' || Reflect.get(shown, field) === value,
  )
  return shared || contentOf(description) === contentOf(shown)
}

/** Until the board on the desk is the case's, however often that changes meanwhile; the workers end with the same one. */
async function followBoard(desk: Desk, at: Point): Promise<void> {
  const { id } = desk.cases.getState()
  let inWorkers: BoardDescription | undefined
  for (;;) {
    const inside = boardInside(desk)
    const shown = desk.cases.getState().board?.model.description
    if (inside === undefined || shown === undefined || desk.cases.getState().id !== id) return
    const isShown = isOnDesk(desk, inside)
    if (isShown && (inWorkers === undefined || inWorkers === shown)) return
    const description = isShown ? shown : inside
    const opened = await openBoard(desk, { description })
    inWorkers = description
    if (desk.cases.getState().id !== id) return
    if (!opened.ok) return sayFaults(desk, at, say('The board of the case could not be opened'), opened.faults)
    if (isShown || boardInside(desk) !== inside) continue
    inWorkers = opened.value.description
    await putBoard(desk, opened.value)
  }
}

async function putBoard(desk: Desk, model: BoardModel): Promise<void> {
  const { history, board } = desk.cases.getState()
  for (const reading of desk.readings.getState().byId.values()) reading.cancel()
  desk.readings.setState({ byId: new Map() })
  const { selection } = desk.screen.getState()
  const isThere = selection?.kind === 'part' && model.partByRef.has(selection.id)
  desk.screen.setState({ selection: isThere ? selection : undefined, hovered: undefined })
  // a board of the same size is looked at as before
  const sameBox = board !== undefined && JSON.stringify(board.model.box) === JSON.stringify(model.box)
  const camera = sameBox ? board.camera : createCameraStore(model.box, openingBox(model, history?.present.marks ?? []))
  desk.cases.setState({ board: { opening: desk.nextNumber(), model, camera, untold: board?.untold ?? [] } })
  await readReportsOfCase(desk)
}
