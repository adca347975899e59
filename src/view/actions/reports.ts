/** Reports of the case: dropped, read in the worker with progress and cancel, read again with a corrected recipe. */
import { bad, type Point, type Result, sayFault } from '../../base/index.ts'
import { type Case, isReportPath, type ReportEntry, reportPath } from '../../case/index.ts'
import { beginAlike, type Recipe, type RecipeGuess, type TableRow } from '../../report/index.ts'
import { type CallOptions, isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { randomId } from '../shelf/memoryShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { changeReading, dropReading, isAsking, putReading, type Reading } from '../stores/readingStore.ts'
import { editCase, editCaseOf } from './edit.ts'
import { faultOf, sayFaults, saySettled } from './messages.ts'

export const HAND_TABLE = 'entered by hand'
const MAX_TEXT_BYTES = 4_000_000
/** Of a report, as a case file takes it; file systems take longer ones. */
const MOST_NAME_CHARACTERS = 200

/** A dropped report joins the case once it was read; one of the same name and run is replaced by it. */
export async function addReport(desk: Desk, fileName: string, file: Blob, at: Point): Promise<void> {
  const run = runAt(desk)
  const name = nameFor(desk, fileName, run)
  if (desk.cases.getState().history === undefined) {
    const fault = {
      path: name,
      found: 'a report',
      expected: 'a board first',
      todo: 'Open a board or a case, then drop the report.',
    }
    return sayFaults(desk, at, 'There is no board to read it for', [fault])
  }
  desk.screen.setState(({ station }) => ({
    station: station === 'proof' ? station : 'memory-run',
    selection: undefined,
  }))
  const recipe = run === 'retest' ? await recipeOfFirstRun(desk, file) : undefined
  const reading = await readInto(desk, name, file, recipe, run, replaceInCase)
  if (reading?.state === 'read' && recipe !== undefined) keepRecipe(desk, name, recipe)
  if (reading?.state === 'failed') sayFaults(desk, at, `${name} was not read`, reading.faults)
  else if (reading !== undefined && isAsking(reading)) {
    saySettled(desk, at, `${name}: say whether it is read right`, reading.why ?? [])
  } else if (reading !== undefined && reading.remarks.length > 0) {
    saySettled(desk, at, `${name} was read, but:`, reading.remarks.map(sayFault))
  }
}

type PutInCase = (desk: Desk, name: string, file: Blob, run: ReportEntry['run']) => Promise<void>

const replaceInCase: PutInCase = async (desk, name, file, run) => {
  const { id } = desk.cases.getState()
  const held = await heldBy(desk, file)
  const reports = desk.cases.getState().history?.present.reports ?? []
  if (reports.some((report) => report.name === name && report.text !== undefined && report.text === held.text)) return
  const entry: ReportEntry = { name, ...held, run, coversAll: false }
  editCaseOf(desk, id, (c) => ({ ...c, reports: [...c.reports.filter((report) => report.name !== name), entry] }))
}

/** What the case has already stays as it is. */
const addToCase: PutInCase = async (desk, name, file, run) => {
  const reports = desk.cases.getState().history?.present.reports ?? []
  if (!reports.some((report) => report.name === name)) await replaceInCase(desk, name, file, run)
}

/** A long report is kept beside the case; where it can't be kept, it lasts as long as the page. */
async function heldBy(desk: Desk, file: Blob): Promise<Pick<ReportEntry, 'text' | 'path'>> {
  if (file.size <= MAX_TEXT_BYTES) return { text: await file.text() }
  const path = reportPath(randomId())
  const kept = await desk.files.put(path, file)
  if (!kept.ok) sayFaults(desk, CORNER, 'The report was read, but is not kept', kept.faults)
  return { path }
}

const CORNER: Point = { x: 420, y: 64 }

/** What is dropped at the station of the proof is a run after the work. */
const runAt = (desk: Desk): ReportEntry['run'] => (desk.screen.getState().station === 'proof' ? 'retest' : 'first')

/** A retest is often called like the run before it: the two are kept apart by name, since readings go by it. */
function nameFor(desk: Desk, wholeName: string, run: ReportEntry['run']): string {
  const fileName = wholeName.slice(0, MOST_NAME_CHARACTERS)
  const reports = desk.cases.getState().history?.present.reports ?? []
  const taken = reports.some((report) => report.name === fileName && report.run !== run)
  return taken ? `${fileName.slice(0, 180)}, ${run === 'retest' ? 'after the work' : 'as it came'}` : fileName
}

/** Reads what the case carries or names; what fails stays in the list of reports with its faults. */
export async function readReportsOfCase(desk: Desk): Promise<void> {
  const { id, history } = desk.cases.getState()
  for (const report of history?.present.reports ?? []) {
    if (desk.cases.getState().id !== id) return
    if (report.table !== undefined) continue
    const source = report.text === undefined ? await fileOf(desk, report.path ?? '') : new Blob([report.text])
    if (desk.cases.getState().id !== id) return
    if (source === undefined) putReading(desk.readings, report.name, missing(report.path ?? report.name, report.run))
    else await readInto(desk, report.name, source, report.recipe, report.run, addToCase)
  }
}

const fileOf = async (desk: Desk, path: string): Promise<Blob | undefined> =>
  (isReportPath(path) ? await desk.files.get(path) : undefined) ?? (await desk.shelf.open(path))

function missing(path: string, run: ReportEntry['run']): Reading {
  const fault = {
    path,
    found: 'no such file beside the case',
    expected: 'the report',
    todo: 'Drop the report’s file on the sheet.',
  }
  return { ...idle(new Blob([]), run), state: 'failed', faults: [fault] }
}

const idle = (source: Blob, run: ReportEntry['run']): Reading => ({
  state: 'reading',
  source,
  run,
  progress: undefined,
  recipe: undefined,
  guess: undefined,
  tally: undefined,
  faults: [],
  remarks: [],
  cancel: () => undefined,
})

/** The user's word: it is read right as it is. */
export async function confirmReading(desk: Desk, name: string): Promise<void> {
  const reading = desk.readings.getState().byName.get(name)
  if (reading?.recipe !== undefined) await readAgain(desk, name, reading.recipe)
}

/** The user's word: it is read wrong. The next best reading is taken instead, and asked about. */
export async function rejectReading(desk: Desk, name: string): Promise<void> {
  const reading = desk.readings.getState().byName.get(name)
  const guess = reading?.guess
  if (reading === undefined || guess === undefined) return
  const ways = [
    guess.recipe,
    ...guess.others.map((other) => other.recipe),
    ...guess.alternatives.map((other) => other.recipe),
  ]
  const texts = ways.map((recipe) => JSON.stringify(recipe))
  const at = texts.indexOf(JSON.stringify(reading.recipe))
  const next = ways.find((_, i) => i > at && texts[i] !== texts[at])
  if (next === undefined) return changeReading(desk.readings, name, { sure: 'unknown' })
  const read = await readInto(desk, name, reading.source, next, reading.run, addToCase)
  if (read?.state === 'read')
    changeReading(desk.readings, name, { sure: 'unsure', guess: { ...guess, receipts: read.guess?.receipts ?? [] } })
}

export async function readAgain(desk: Desk, name: string, recipe: Recipe | undefined): Promise<Reading | undefined> {
  const reading = desk.readings.getState().byName.get(name)
  if (reading === undefined) return undefined
  const read = await readInto(desk, name, reading.source, recipe, reading.run, addToCase)
  if (read?.state === 'read') keepRecipe(desk, name, recipe)
  return read
}

/** How a report is read belongs to the report, in every step that has it: no step of its own. */
function keepRecipe(desk: Desk, name: string, recipe: Recipe | undefined): void {
  const changed = new Map<ReportEntry, ReportEntry>()
  const withRecipe = (report: ReportEntry): ReportEntry => {
    if (report.name !== name) return report
    const { recipe: _, ...rest } = report
    const next = changed.get(report) ?? (recipe === undefined ? rest : { ...rest, recipe })
    changed.set(report, next)
    return next
  }
  const withIt = (state: Case): Case =>
    state.reports.some((report) => report.name === name) ? { ...state, reports: state.reports.map(withRecipe) } : state
  desk.cases.setState(({ history: h }) =>
    h === undefined
      ? {}
      : { history: { ...h, present: withIt(h.present), past: h.past.map(withIt), future: h.future.map(withIt) } },
  )
}

async function readInto(
  desk: Desk,
  name: string,
  source: Blob,
  recipe: Recipe | undefined,
  run: ReportEntry['run'],
  putInCase: PutInCase,
): Promise<Reading | undefined> {
  desk.readings.getState().byName.get(name)?.cancel()
  const { id } = desk.cases.getState()
  const abort = new AbortController()
  putReading(desk.readings, name, { ...idle(source, run), recipe, cancel: () => abort.abort() })
  try {
    const change = await readingOf(desk, name, recipe, abort.signal)
    if (desk.cases.getState().id !== id) return undefined
    if (change.state === 'read') await putInCase(desk, name, source, run)
    changeReading(desk.readings, name, { ...change, progress: undefined })
  } catch (reason) {
    if (isAbort(reason)) changeReading(desk.readings, name, { state: 'cancelled', progress: undefined })
    else changeReading(desk.readings, name, { state: 'failed', faults: [faultOf(name, reason)] })
  }
  return desk.readings.getState().byName.get(name)
}

async function readingOf(
  desk: Desk,
  name: string,
  wanted: Recipe | undefined,
  signal: AbortSignal,
): Promise<Partial<Reading>> {
  const reading = desk.readings.getState().byName.get(name)
  if (reading === undefined) return {}
  const { source: file, run } = reading
  const mayBeClean = run === 'retest'
  const guessed = await desk.reader.call(calls.previewReport, { file, recipe: wanted }, { signal })
  if (!guessed.ok) return { state: 'failed', faults: guessed.faults }
  const guess = guessed.value
  changeReading(desk.readings, name, { guess, recipe: guess.recipe })
  const onProgress: CallOptions['onProgress'] = (progress) => changeReading(desk.readings, name, { progress })
  const read = await desk.reader.call(calls.readReport, { file, recipe: wanted, mayBeClean }, { signal, onProgress })
  if (!read.ok) return { state: 'failed', faults: read.faults }
  const { tally, sure, why, remarks } = read.value
  return { state: 'read', tally, sure, why, recipe: read.value.recipe, remarks }
}

const COMPARED_BYTES = 4096

/**
 * A run after the work is read as the run before it was, where that reads most of its first rows, or where both begin
 * alike: the headings of a run without an error are easily taken for rows by a fresh guess.
 */
async function recipeOfFirstRun(desk: Desk, file: Blob): Promise<Recipe | undefined> {
  for (const reading of desk.readings.getState().byName.values()) {
    const { run, recipe, source, state } = reading
    if (run !== 'first' || recipe === undefined || state !== 'read' || isAsking(reading)) continue
    const looked = await desk.reader.call(calls.previewReport, { file, recipe })
    const rows = looked.ok ? looked.value.preview : []
    if (rows.length > 0 && rows.filter((row) => row.problem === undefined).length * 2 > rows.length) return recipe
    const [one, other] = await Promise.all([file, source].map((blob) => blob.slice(0, COMPARED_BYTES).text()))
    if (beginAlike(one ?? '', other ?? '')) return recipe
  }
  return undefined
}

/** How a recipe would read the beginning of a report; undefined when it was called off. */
export async function previewWith(
  desk: Desk,
  file: Blob,
  recipe: Recipe,
  signal: AbortSignal,
): Promise<Result<RecipeGuess> | undefined> {
  try {
    return await desk.reader.call(calls.previewReport, { file, recipe }, { signal })
  } catch (reason) {
    return isAbort(reason) ? undefined : bad(faultOf('report', reason))
  }
}

export function removeReport(desk: Desk, name: string): void {
  desk.readings.getState().byName.get(name)?.cancel()
  if (desk.readings.getState().byName.get(name)?.state === 'failed') dropReading(desk.readings, name)
  editCase(desk, (c) => ({ ...c, reports: c.reports.filter((report) => report.name !== name) }))
}

/** Changes what the case says about a report: its passes, what it covers. */
export function editReport(
  desk: Desk,
  name: string,
  change: (report: ReportEntry) => ReportEntry,
  joinKey?: string,
): void {
  editCase(
    desk,
    (c) => ({ ...c, reports: c.reports.map((report) => (report.name === name ? change(report) : report)) }),
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
      name: `run without an error ${n}`,
      table: [],
      run: 'retest',
      testPasses,
      coversAll: true,
    }
    return { ...c, reports: [...c.reports, entry] }
  })
}

/** The table entered by hand is one report of the case; without rows it goes. */
export function setHandTable(desk: Desk, rows: readonly TableRow[]): void {
  editCase(desk, (c) => ({ ...c, reports: withTable(c.reports, rows) }), 'hand table')
}

export const isHandTable = ({ run, table }: ReportEntry): boolean => run === 'first' && table !== undefined

function withTable(reports: Case['reports'], rows: readonly TableRow[]): Case['reports'] {
  const others = reports.filter((report) => !isHandTable(report))
  return rows.length === 0
    ? others
    : [...others, { name: HAND_TABLE, table: [...rows], run: 'first', coversAll: false }]
}
