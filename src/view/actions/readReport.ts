/** Reads one report in the worker, with progress and cancel, and puts what it came to into the case. */
import { bad, type Result } from '../../base/index.ts'
import { type Case, HEAD_BYTES, headText, type ReportEntry } from '../../case/index.ts'
import {
  beginAlike,
  outcomeOf,
  type ReadOutcome,
  type Recipe,
  type RecipeGuess,
  whatChanged,
} from '../../report/index.ts'
import { type CallOptions, isAbort } from '../../workers/client.ts'
import { calls } from '../../workers/contract.ts'
import { wordsOf } from '../stores/boardWords.ts'
import type { Desk } from '../stores/desk.ts'
import { changeReading, type ComingReport, headOf, isAsking, putReading, type Reading } from '../stores/readingStore.ts'
import { faultOf } from './messages.ts'

export interface HowToRead {
  /** The user's word; guessed where left out. */
  readonly recipe?: Recipe | undefined
  /** Set where the recipe is nobody's word yet: why it is tried. The user is asked. */
  readonly triedBecause?: string
  /** Ways to read it that the user called wrong; the guess with the others stays as it was. */
  readonly rejected?: readonly string[]
  /** Read anew as it lay in the case: what it says otherwise is told, and stays told until it is noted. */
  readonly isAnew?: boolean
  /** What the case does not have yet: it joins the case once it was read. */
  readonly joins?: { readonly as: ComingReport; readonly put: () => Promise<void> }
}

/** A reading of which nothing is known yet. */
export const idle = (source: Blob): Reading => ({
  state: 'reading',
  source,
  coming: undefined,
  progress: undefined,
  readWith: undefined,
  guess: undefined,
  tally: undefined,
  faults: [],
  remarks: [],
  cancel: () => undefined,
})

/** @returns undefined where another case came on the desk meanwhile */
export async function readInto(desk: Desk, id: string, source: Blob, how: HowToRead): Promise<Reading | undefined> {
  const last = desk.readings.getState().byId.get(id)
  last?.cancel()
  const { id: caseId } = desk.cases.getState()
  const abort = new AbortController()
  const { recipe, rejected = [], joins } = how
  // What is known of the same text stays meanwhile: its names can be told while it is being read.
  const known = last?.source === source ? last : undefined
  const mine: Reading = {
    ...idle(source),
    coming: joins?.as,
    guess: known?.guess,
    ...(known?.sample === undefined ? {} : { sample: known.sample }),
    rejected,
    readWith: recipe,
    cancel: () => abort.abort(),
  }
  putReading(desk.readings, id, mine)
  /** False once a later reading of the same report, or another case, has taken its place. */
  const isMine = (): boolean =>
    desk.cases.getState().id === caseId && desk.readings.getState().byId.get(id)?.cancel === mine.cancel
  try {
    const change = await readingOf(desk, id, how, abort.signal)
    if (!isMine()) return undefined
    if (change.state === 'read') {
      await joins?.put()
      if (!isMine()) return undefined
      if (how.isAnew !== true) keepOutcome(desk, id, change)
    }
    const coming = change.state === 'read' ? undefined : mine.coming
    changeReading(desk.readings, id, { ...change, coming, progress: undefined })
  } catch (reason) {
    if (!isMine()) return undefined
    if (isAbort(reason)) changeReading(desk.readings, id, { state: 'cancelled', progress: undefined })
    else changeReading(desk.readings, id, { state: 'failed', faults: [faultOf('report', reason)] })
  }
  return desk.readings.getState().byId.get(id)
}

async function readingOf(desk: Desk, id: string, how: HowToRead, signal: AbortSignal): Promise<Partial<Reading>> {
  const reading = desk.readings.getState().byId.get(id)
  const { board, history } = desk.cases.getState()
  if (reading === undefined || board === undefined || history === undefined) return {}
  const { source: file } = reading
  const run = headOf(id, history.present.reports, desk.readings.getState().byId)?.run
  const { recipe: wanted, triedBecause, rejected = [] } = how
  const words = wordsOf(history.present, board.model)
  const sample = headText(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer())) ?? ''
  const guessed = await desk.reader.call(calls.previewReport, { file, recipe: wanted, words }, { signal })
  if (!guessed.ok) return { state: 'failed', faults: guessed.faults, sample }
  const fresh = guessed.value
  const known = rejected.length > 0 ? reading.guess : undefined
  const guess = known === undefined ? fresh : { ...known, receipts: fresh.receipts, preview: fresh.preview }
  const recipe = withNames(wanted, fresh)
  changeReading(desk.readings, id, { guess, readWith: recipe ?? fresh.recipe, sample })
  const onProgress: CallOptions['onProgress'] = (progress) => changeReading(desk.readings, id, { progress })
  const asked = { file, recipe, words, mayBeClean: run === 'retest' }
  const read = await desk.reader.call(calls.readReport, asked, { signal, onProgress })
  if (!read.ok) return { state: 'failed', faults: read.faults }
  const { tally, isWhole, remarks } = read.value
  const judged =
    triedBecause === undefined
      ? { sure: read.value.sure, why: read.value.why }
      : { sure: 'unsure' as const, why: [triedBecause] }
  const was = how.isAnew === true ? entryOf(desk, id)?.read : undefined
  const changed = was === undefined ? [] : whatChanged(was, outcomeOf({ ...judged, tally }))
  return { state: 'read', tally, ...judged, isWhole, readWith: read.value.recipe, remarks, changed }
}

/** What the board's words say of the names counts before what a recipe says of them. */
const withNames = (wanted: Recipe | undefined, { names }: RecipeGuess): Recipe | undefined =>
  wanted === undefined || Object.keys(names).length === 0 ? wanted : { ...wanted, names }

/** What the case has of a report. */
export const entryOf = (desk: Desk, id: string): ReportEntry | undefined =>
  desk.cases.getState().history?.present.reports.find((report) => report.id === id)

function keepOutcome(desk: Desk, id: string, { tally, sure }: Partial<Reading>): void {
  if (tally === undefined) return
  const read: ReadOutcome = outcomeOf({ sure: sure ?? 'sure', tally })
  changeInAllSteps(desk, id, (report) =>
    JSON.stringify(report.read) === JSON.stringify(read) ? report : { ...report, read },
  )
}

/** What belongs to a report itself, in every step that has it: no step of its own. */
export function changeInAllSteps(desk: Desk, id: string, change: (report: ReportEntry) => ReportEntry): void {
  const changed = new Map<ReportEntry, ReportEntry>()
  const once = (report: ReportEntry): ReportEntry => {
    if (report.id !== id) return report
    const next = changed.get(report) ?? change(report)
    changed.set(report, next)
    return next
  }
  const withIt = (state: Case): Case => {
    const reports = state.reports.map(once)
    return reports.every((report, i) => report === state.reports[i]) ? state : { ...state, reports }
  }
  desk.cases.setState(({ history: h }) =>
    h === undefined
      ? {}
      : { history: { ...h, present: withIt(h.present), past: h.past.map(withIt), future: h.future.map(withIt) } },
  )
}

const COMPARED_BYTES = 4096

/**
 * A run after the work is read as the run before it was, where that reads most of its first rows, or where both begin
 * alike: the headings of a run without an error are easily taken for rows by a fresh guess.
 */
export async function recipeOfFirstRun(desk: Desk, file: Blob): Promise<Recipe | undefined> {
  for (const report of desk.cases.getState().history?.present.reports ?? []) {
    const reading = desk.readings.getState().byId.get(report.id)
    if (report.run !== 'first' || reading === undefined) continue
    const { readWith: recipe, source, state } = reading
    if (recipe === undefined || state !== 'read' || isAsking(reading)) continue
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
