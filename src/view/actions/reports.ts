/** Reports of the case: dropped, read again on the user's word, taken out; and the tables that stand for one. */
import { type Point, sayFault, say } from '../../base/index.ts'
import { type Case, isReportPath, type ReportEntry, reportPath } from '../../case/index.ts'
import { outcomeOf, type Recipe, type TableRow } from '../../report/index.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import type { Desk } from '../stores/desk.ts'
import {
  changeReading,
  type ComingReport,
  dropReading,
  isAsking,
  otherWays,
  putReading,
  type Reading,
} from '../stores/readingStore.ts'
import { twoWaysOf } from '../stores/twoReadings.ts'
import { editCase, editCaseOf } from './edit.ts'
import { caseLeft, MESSAGE_CORNER, sayFaults, saySettled } from './messages.ts'
import { changeInAllSteps, entryOf, type HowToRead, idle, readInto, recipeOfFirstRun } from './readReport.ts'
import { keepHow } from './reportWords.ts'
import { keepTrying } from './unheld.ts'

export const HAND_TABLE = say('entered by hand')
const MAX_TEXT_BYTES = 4_000_000
/** Of a report, as a case file takes it; file systems take longer ones. */
const MOST_NAME_CHARACTERS = 200

/** A dropped report joins the case once it was read; one of the same name and run is replaced by it. */
export async function addReport(desk: Desk, fileName: string, file: Blob, at: Point): Promise<void> {
  const as = { name: fileName.slice(0, MOST_NAME_CHARACTERS), run: runAt(desk) } as const
  const { name } = as
  const { id: caseId, history } = desk.cases.getState()
  if (history === undefined) {
    const fault = {
      path: name,
      found: say('a report'),
      expected: say('a board first'),
      todo: say('Open a board or a case, then drop the report.'),
    }
    return sayFaults(desk, at, say('There is no board to read it for'), [fault])
  }
  desk.screen.setState(({ station }) => ({
    station: station === 'proof' ? station : 'memory-run',
    selection: undefined,
  }))
  const recipe = as.run === 'retest' ? await recipeOfFirstRun(desk, file) : undefined
  if (desk.cases.getState().id !== caseId)
    return sayFaults(desk, at, say('{name} was not read', { name }), [{ path: name, ...caseLeft }])
  const id = idFor(desk, as)
  const reading = await readInto(desk, id, file, {
    recipe,
    joins: { as, put: () => replaceInCase(desk, id, as, file) },
  })
  if (reading?.state === 'read' && recipe !== undefined) keepRecipe(desk, id, recipe)
  if (reading?.state === 'failed') {
    if ((reading.guess?.foreign.length ?? 0) === 0)
      sayFaults(desk, at, say('{name} was not read', { name }), reading.faults)
  } else if (reading !== undefined && isAsking(reading)) {
    // What is to be decided stands above the sheet; a note would lie on it.
    if ((reading.guess?.foreign.length ?? 0) === 0 && twoWaysOf(reading) === undefined)
      saySettled(desk, at, say('{name}: say whether it is read right', { name }), reading.why ?? [])
  } else if (reading !== undefined && reading.remarks.length > 0) {
    saySettled(desk, at, say('{name} was read, but:', { name }), reading.remarks.map(sayFault))
  }
}

/**
 * The id of the report that it replaces: one of its name and run that still counts, in the case or on its way there; else a
 * new one. A run that work went on after is evidence of its own round.
 */
function idFor(desk: Desk, { name, run }: ComingReport): string {
  const reports = desk.cases.getState().history?.present.reports ?? []
  const readings = [...desk.readings.getState().byId]
  const known = reports.find((report) => report.name === name && report.run === run && report.overtaken !== true)?.id
  const coming = readings.find(([, reading]) => reading.coming?.name === name && reading.coming.run === run)?.[0]
  return known ?? coming ?? `report-${randomId()}`
}

async function replaceInCase(desk: Desk, id: string, as: ComingReport, file: Blob): Promise<void> {
  const { id: caseId } = desk.cases.getState()
  const held = await heldBy(desk, file)
  const known = entryOf(desk, id)
  if (known?.text !== undefined && known.text === held.text) return
  editCaseOf(desk, caseId, (c) => {
    const when = as.run === 'retest' ? { afterPasses: c.passes.length } : {}
    const entry: ReportEntry = { id, ...as, ...held, coversAll: false, ...when }
    return { ...c, reports: [...c.reports.filter((report) => report.id !== id), entry] }
  })
}

/** A report that could not be read, or was called off, joins the case once it can be. */
function joining(desk: Desk, id: string, { coming: as, source }: Reading): Pick<HowToRead, 'joins'> {
  if (as === undefined) return {}
  return { joins: { as, put: () => replaceInCase(desk, id, as, source) } }
}

/** A long report is kept beside the case; where it can't be kept, it lasts as long as the page. */
async function heldBy(desk: Desk, file: Blob): Promise<Pick<ReportEntry, 'text' | 'path'>> {
  if (file.size <= MAX_TEXT_BYTES) return { text: await file.text() }
  const path = reportPath(randomId())
  const kept = await desk.files.put(path, file)
  if (!kept.ok) {
    keepTrying(desk, path, file, kept.faults[0])
    sayFaults(desk, MESSAGE_CORNER, say('The report was read, but is not kept'), kept.faults)
  }
  return { path }
}

/** What is dropped at the station of the proof is a run after the work. */
const runAt = (desk: Desk): ReportEntry['run'] => (desk.screen.getState().station === 'proof' ? 'retest' : 'first')

/** Reads what the case carries or names; what fails stays in the list of reports with its faults. */
export async function readReportsOfCase(desk: Desk): Promise<void> {
  const { id: caseId, history } = desk.cases.getState()
  for (const report of history?.present.reports ?? []) {
    if (desk.cases.getState().id !== caseId) return
    if (report.table !== undefined) continue
    const source = report.text === undefined ? await fileOf(desk, report.path ?? '') : new Blob([report.text])
    if (desk.cases.getState().id !== caseId) return
    if (source === undefined) putReading(desk.readings, report.id, missing(report.path ?? report.name))
    else await readInto(desk, report.id, source, { recipe: report.recipe, isAnew: true })
  }
}

const fileOf = async (desk: Desk, path: string): Promise<Blob | undefined> =>
  (isReportPath(path) ? await desk.files.get(path) : undefined) ?? (await desk.shelf.open(path))

function missing(path: string): Reading {
  const fault = {
    path,
    found: say('no such file beside the case'),
    expected: say('the report'),
    todo: say('Drop the report’s file on the sheet.'),
  }
  return { ...idle(new Blob([])), state: 'failed', faults: [fault] }
}

/** The user's word: it is read right as it is. */
export async function confirmReading(desk: Desk, id: string): Promise<void> {
  const reading = desk.readings.getState().byId.get(id)
  if (reading?.readWith !== undefined) await readAgain(desk, id, reading.readWith)
}

/** The user's word: it is read wrong. The next best reading is taken instead, and asked about. */
export async function rejectReading(desk: Desk, id: string): Promise<void> {
  const reading = desk.readings.getState().byId.get(id)
  if (reading?.guess === undefined || reading.readWith === undefined) return
  const { source } = reading
  const rejected = [...(reading.rejected ?? []), JSON.stringify(reading.readWith)]
  const [next] = otherWays(reading, rejected)
  if (next === undefined) {
    const why = [say('Every way to read it that was found is wrong, you said.')]
    return changeReading(desk.readings, id, { sure: 'unknown', why, rejected })
  }
  forgetRecipe(desk, id)
  const triedBecause = say('The next best way to read it. {why}', { why: next.why })
  await readInto(desk, id, source, { recipe: next.recipe, triedBecause, rejected, ...joining(desk, id, reading) })
}

/** Reads it as the user says; what was put right by hand is kept by the look of the report, for the next that looks so. */
export async function readAgain(desk: Desk, id: string, recipe: Recipe | undefined): Promise<Reading | undefined> {
  const reading = desk.readings.getState().byId.get(id)
  if (reading === undefined) return undefined
  const wasSure = reading.state === 'read' && (reading.sure ?? 'sure') === 'sure'
  const sameAsBefore = JSON.stringify(recipe) === JSON.stringify(reading.readWith)
  const read = await readInto(desk, id, reading.source, { recipe, ...joining(desk, id, reading) })
  if (read?.state !== 'read') return read
  keepRecipe(desk, id, recipe)
  if (recipe !== undefined && !(wasSure && sameAsBefore)) keepHow(desk, id, recipe)
  return read
}

/** What is told of the board's words has changed: reports that use such words, or wait for them, are read by them. */
export async function readByNewWords(desk: Desk): Promise<void> {
  for (const [id, reading] of desk.readings.getState().byId) {
    const { guess, source } = reading
    const usesNames = (guess?.foreign.length ?? 0) > 0 || Object.keys(guess?.names ?? {}).length > 0
    if (!usesNames && !isAsking(reading) && reading.state !== 'failed') continue
    const { names: _, ...recipe } = entryOf(desk, id)?.recipe ?? {}
    const given = 'layout' in recipe ? recipe : undefined
    await readInto(desk, id, source, { recipe: given, ...joining(desk, id, reading) })
  }
}

/** The user has seen what a later reading says otherwise: from now on that is what it says. */
export function noteChange(desk: Desk, id: string): void {
  const reading = desk.readings.getState().byId.get(id)
  if (reading?.tally === undefined) return
  const read = outcomeOf({ sure: reading.sure ?? 'sure', tally: reading.tally })
  changeInAllSteps(desk, id, (report) => ({ ...report, read }))
  changeReading(desk.readings, id, { changed: [] })
}

/** How a report is read belongs to the report; what its names mean belongs to the board. */
function keepRecipe(desk: Desk, id: string, recipe: Recipe | undefined): void {
  const hasWords = Object.keys(desk.readings.getState().byId.get(id)?.guess?.names ?? {}).length > 0
  if (recipe === undefined) return forgetRecipe(desk, id)
  const { names, ...bare } = recipe
  const kept = hasWords || names === undefined ? bare : recipe
  changeInAllSteps(desk, id, (report) => ({ ...report, recipe: kept }))
}

const forgetRecipe = (desk: Desk, id: string): void =>
  changeInAllSteps(desk, id, (report) => {
    const { recipe: _, ...rest } = report
    return rest
  })

/** Takes a report out of the case, as a step that undo brings back; one that is being read is called off. */
export function removeReport(desk: Desk, id: string): void {
  desk.readings.getState().byId.get(id)?.cancel()
  if (entryOf(desk, id) === undefined) return dropReading(desk.readings, id)
  if (desk.readings.getState().byId.get(id)?.state === 'failed') dropReading(desk.readings, id)
  editCase(desk, (c) => ({ ...c, reports: c.reports.filter((report) => report.id !== id) }))
}

/** Changes what the case says about a report: its passes, what it covers. */
export function editReport(
  desk: Desk,
  id: string,
  change: (report: ReportEntry) => ReportEntry,
  joinKey?: string,
): void {
  editCase(
    desk,
    (c) => ({ ...c, reports: c.reports.map((report) => (report.id === id ? change(report) : report)) }),
    joinKey,
  )
}

/** A run without a file: so many passes over the whole memory, no error seen. */
export function addCleanRun(desk: Desk, testPasses: number): void {
  editCase(desk, (c) => {
    const taken = new Set(c.reports.map(({ name }) => name))
    let n = 1
    while (taken.has(`run without an error ${n}`)) n++
    const entry: ReportEntry = {
      id: `report-${randomId()}`,
      name: say('run without an error {n}', { n }),
      table: [],
      run: 'retest',
      testPasses,
      coversAll: true,
      afterPasses: c.passes.length,
    }
    return { ...c, reports: [...c.reports, entry] }
  })
}

/** The table entered by hand is one report of the case; without rows it goes. */
export function setHandTable(desk: Desk, rows: readonly TableRow[]): void {
  editCase(desk, (c) => ({ ...c, reports: withTable(c.reports, rows) }), 'hand table')
}

/** Whether it is the table that was entered by hand for the card as it came. */
export const isHandTable = ({ run, table }: ReportEntry): boolean => run === 'first' && table !== undefined

function withTable(reports: Case['reports'], rows: readonly TableRow[]): Case['reports'] {
  const others = reports.filter((report) => !isHandTable(report))
  const { id, coversAll } = reports.find(isHandTable) ?? { id: `report-${randomId()}`, coversAll: false }
  return rows.length === 0 ? others : [...others, { id, name: HAND_TABLE, table: [...rows], run: 'first', coversAll }]
}
