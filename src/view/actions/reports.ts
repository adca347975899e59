/** Reports of the case: dropped, read in the worker with progress and cancel, read again with a corrected recipe. */
import { bad, type Point, type Result, sayFault } from '../../base/index.ts'
import type { Case, ReportEntry } from '../../case/index.ts'
import type { Recipe, RecipeGuess, TableRow } from '../../report/index.ts'
import { type CallOptions, isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import type { Desk } from '../stores/desk.ts'
import { changeReading, dropReading, putReading, type Reading } from '../stores/readingStore.ts'
import { editCase } from './edit.ts'
import { faultOf, sayFaults, saySettled } from './messages.ts'

export const HAND_TABLE = 'entered by hand'
const MAX_TEXT_BYTES = 4_000_000

/** A dropped report joins the case once it was read; one of the same name is replaced by it. */
export async function addReport(desk: Desk, name: string, file: Blob, at: Point): Promise<void> {
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
  const reading = await readInto(desk, name, file, undefined)
  if (reading?.state === 'failed') sayFaults(desk, at, `${name} was not read`, reading.faults)
  else if (reading !== undefined && reading.remarks.length > 0) {
    saySettled(desk, at, `${name} was read, but:`, reading.remarks.map(sayFault))
  }
}

async function putInCase(desk: Desk, name: string, file: Blob): Promise<void> {
  const reports = desk.cases.getState().history?.present.reports ?? []
  if (reports.some((report) => report.name === name && report.table === undefined && report.text === undefined)) return
  if (reports.some((report) => report.name === name && report.path === name && file.size > MAX_TEXT_BYTES)) return
  const held = file.size <= MAX_TEXT_BYTES ? { text: await file.text() } : { path: name }
  if (reports.some((report) => report.name === name && report.text !== undefined && report.text === held.text)) return
  const entry: ReportEntry = { name, ...held, run: runAt(desk), coversAll: false }
  editCase(desk, (c) => ({ ...c, reports: [...c.reports.filter((report) => report.name !== name), entry] }))
}

/** What is dropped at the station of the proof is a run after the work. */
const runAt = (desk: Desk): ReportEntry['run'] => (desk.screen.getState().station === 'proof' ? 'retest' : 'first')

/** Reads what the case carries or names; what fails stays in the list of reports with its faults. */
export async function readReportsOfCase(desk: Desk): Promise<void> {
  const present = desk.cases.getState().history?.present
  for (const report of present?.reports ?? []) {
    if (report.table !== undefined) continue
    const source = report.text === undefined ? await desk.shelf.open(report.path ?? '') : new Blob([report.text])
    if (source === undefined) putReading(desk.readings, report.name, missing(report.path ?? report.name))
    else await readInto(desk, report.name, source, report.recipe)
  }
}

function missing(path: string): Reading {
  const fault = {
    path,
    found: 'no such file beside the case',
    expected: 'the report',
    todo: 'Drop the report’s file on the sheet.',
  }
  return { ...idle(new Blob([])), state: 'failed', faults: [fault] }
}

const idle = (source: Blob): Reading => ({
  state: 'reading',
  source,
  progress: undefined,
  recipe: undefined,
  guess: undefined,
  tally: undefined,
  faults: [],
  remarks: [],
  cancel: () => undefined,
})

export function readAgain(desk: Desk, name: string, recipe: Recipe | undefined): Promise<Reading | undefined> {
  const reading = desk.readings.getState().byName.get(name)
  return reading === undefined ? Promise.resolve(undefined) : readInto(desk, name, reading.source, recipe)
}

async function readInto(
  desk: Desk,
  name: string,
  source: Blob,
  recipe: Recipe | undefined,
): Promise<Reading | undefined> {
  desk.readings.getState().byName.get(name)?.cancel()
  const abort = new AbortController()
  putReading(desk.readings, name, { ...idle(source), recipe, cancel: () => abort.abort() })
  try {
    const change = await readingOf(desk, name, source, recipe, abort.signal)
    if (change.state === 'read') await putInCase(desk, name, source)
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
  file: Blob,
  wanted: Recipe | undefined,
  signal: AbortSignal,
): Promise<Partial<Reading>> {
  const guessed = await desk.reader.call(calls.previewReport, { file, recipe: wanted }, { signal })
  if (!guessed.ok) return { state: 'failed', faults: guessed.faults }
  const guess = guessed.value
  changeReading(desk.readings, name, { guess, recipe: guess.recipe })
  const recipe = wanted ?? (guess.confidence > 0 ? guess.recipe : undefined)
  const onProgress: CallOptions['onProgress'] = (progress) => changeReading(desk.readings, name, { progress })
  const read = await desk.reader.call(calls.readReport, { file, recipe }, { signal, onProgress })
  if (!read.ok) return { state: 'failed', faults: read.faults }
  return { state: 'read', tally: read.value.tally, recipe: read.value.recipe, remarks: read.value.remarks }
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

/** The table entered by hand is one report of the case; without rows it goes. */
export function setHandTable(desk: Desk, rows: readonly TableRow[]): void {
  editCase(desk, (c) => ({ ...c, reports: withTable(c.reports, rows) }), 'hand table')
}

function withTable(reports: Case['reports'], rows: readonly TableRow[]): Case['reports'] {
  const others = reports.filter((report) => report.table === undefined)
  return rows.length === 0
    ? others
    : [...others, { name: HAND_TABLE, table: [...rows], run: 'first', coversAll: false }]
}
