/** Reports of the case: dropped, read in the worker with progress and cancel, read again with a corrected recipe. */
import type { Point } from '../../base/index.ts'
import type { Case, ReportEntry } from '../../case/index.ts'
import type { Recipe, TableRow } from '../../report/index.ts'
import { isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import type { Desk } from '../stores/desk.ts'
import { changeReading, dropReading, putReading, type Reading } from '../stores/readingStore.ts'
import { editCase } from './edit.ts'
import { sayFaults } from './messages.ts'

export const HAND_TABLE = 'entered by hand'
const MAX_TEXT_CHARACTERS = 2_000_000

/** A dropped report joins the case; one of the same name is replaced by it. */
export async function addReport(desk: Desk, name: string, file: Blob, at: Point): Promise<void> {
  const { history } = desk.cases.getState()
  if (history === undefined) {
    const fault = {
      path: name,
      found: 'a report',
      expected: 'a board first',
      todo: 'Open a board or a case, then drop the report.',
    }
    return sayFaults(desk, at, 'There is no board to read it for', [fault])
  }
  const reading = await readInto(desk, name, file, undefined)
  if (reading === undefined) return
  if (reading.state === 'failed') {
    dropReading(desk.readings, name)
    return sayFaults(desk, at, `${name} was not read`, reading.faults)
  }
  if (reading.state !== 'read') return dropReading(desk.readings, name)
  const entry: ReportEntry = file.size <= MAX_TEXT_CHARACTERS ? { name, text: await file.text() } : { name, path: name }
  editCase(desk, (c) => ({ ...c, reports: [...c.reports.filter((report) => report.name !== name), entry] }))
  desk.screen.setState({ station: 'memory-run', selection: undefined })
}

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
  const started: Reading = { ...idle(source), recipe, cancel: () => abort.abort() }
  putReading(desk.readings, name, started)
  const options = { signal: abort.signal }
  try {
    const guess = await desk.reader.call(calls.guessRecipe, { file: source, recipe }, options)
    if (!guess.ok) changeReading(desk.readings, name, { state: 'failed', faults: guess.faults })
    else {
      changeReading(desk.readings, name, { guess: guess.value, recipe: guess.value.recipe })
      const read = await desk.reader.call(
        calls.readReport,
        { file: source, recipe: guess.value.recipe },
        { ...options, onProgress: (progress) => changeReading(desk.readings, name, { progress }) },
      )
      if (read.ok)
        changeReading(desk.readings, name, { state: 'read', tally: read.value.tally, recipe: read.value.recipe })
      else changeReading(desk.readings, name, { state: 'failed', faults: read.faults })
    }
  } catch (reason) {
    if (isAbort(reason)) changeReading(desk.readings, name, { state: 'cancelled', progress: undefined })
    else {
      const found = reason instanceof Error ? reason.message : String(reason)
      const fault = { path: name, found, expected: 'a report that can be read to its end' }
      changeReading(desk.readings, name, { state: 'failed', faults: [fault] })
    }
  }
  return desk.readings.getState().byName.get(name)
}

export function removeReport(desk: Desk, name: string): void {
  desk.readings.getState().byName.get(name)?.cancel()
  editCase(desk, (c) => ({ ...c, reports: c.reports.filter((report) => report.name !== name) }))
}

/** The table entered by hand is one report of the case; without rows it goes. */
export function setHandTable(desk: Desk, rows: readonly TableRow[]): void {
  editCase(desk, (c) => ({ ...c, reports: withTable(c.reports, rows) }), 'hand table')
}

function withTable(reports: Case['reports'], rows: readonly TableRow[]): Case['reports'] {
  const others = reports.filter((report) => report.table === undefined)
  return rows.length === 0 ? others : [...others, { name: HAND_TABLE, table: [...rows] }]
}
