/** Readings: what became of each report of the case in this session; the case itself keeps only text, table and recipe. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Fault } from '../../base/index.ts'
import type { ReportEntry } from '../../case/index.ts'
import type { Recipe, RecipeGuess, Sureness, Tally } from '../../report/index.ts'
import type { Progress } from '../../workers/envelope.ts'
import { saysSomething } from './tested.ts'

export type ComingReport = Pick<ReportEntry, 'name' | 'run'>

export interface Reading {
  readonly state: 'reading' | 'read' | 'failed' | 'cancelled'
  /** Where the text is: a dropped file stays a file, so that gigabytes are never held. */
  readonly source: Blob
  /** What the report will be called and which run it is of, until the case has it and says so itself. */
  readonly coming: ComingReport | undefined
  readonly progress: Progress | undefined
  /** How it was read, or is being read; what the user said of it stands in the case. */
  readonly readWith: Recipe | undefined
  readonly guess: RecipeGuess | undefined
  readonly tally: Tally | undefined
  /** Whether it is surely read right; what is not sure is not reckoned with. */
  readonly sure?: Sureness
  readonly why?: readonly string[]
  /** False where the text breaks off: what it does not list stays untested. */
  readonly isWhole?: boolean
  /** The beginning of its text, by which reports that look like it are known. */
  readonly sample?: string
  /** Recipes, as JSON, that the user called wrong. */
  readonly rejected?: readonly string[]
  /** What it says otherwise than when the case was kept. */
  readonly changed?: readonly string[]
  readonly faults: readonly Fault[]
  /** What is odd about it although it was read: it may be another board's. */
  readonly remarks: readonly Fault[]
  readonly cancel: () => void
}

export interface ReadingState {
  /** By the report's id in the case. */
  readonly byId: ReadonlyMap<string, Reading>
}

export type ReadingStore = StoreApi<ReadingState>

/** A store without readings. */
export const createReadingStore = (): ReadingStore => createStore<ReadingState>(() => ({ byId: new Map() }))

/** Puts a reading under the id of its report, in place of one that is there. */
export function putReading(store: ReadingStore, id: string, reading: Reading): void {
  store.setState((state) => ({ byId: new Map(state.byId).set(id, reading) }))
}

/** Changes a reading that is there; does nothing for a report that has none. */
export function changeReading(store: ReadingStore, id: string, change: Partial<Reading>): void {
  const reading = store.getState().byId.get(id)
  if (reading !== undefined) putReading(store, id, { ...reading, ...change })
}

/** Forgets what became of a report. */
export function dropReading(store: ReadingStore, id: string): void {
  store.setState((state) => {
    const byId = new Map(state.byId)
    byId.delete(id)
    return { byId }
  })
}

/** Ids of the reports of a run with a text: those of the case, then those that are being read for it or could not be. */
export function reportIds(
  run: ReportEntry['run'],
  reports: readonly ReportEntry[],
  readings: ReadingState['byId'],
): string[] {
  const known = new Set(reports.map(({ id }) => id))
  const inCase = reports.flatMap((report) => (report.table === undefined && report.run === run ? [report.id] : []))
  const apart = [...readings].flatMap(([id, { coming, state }]) =>
    coming?.run !== run || state === 'read' || known.has(id) ? [] : [id],
  )
  return [...inCase, ...apart]
}

/** Name and run of a report: as the case has them, or as they will be. */
export const headOf = (
  id: string,
  reports: readonly ReportEntry[],
  readings: ReadingState['byId'],
): ComingReport | undefined => reports.find((report) => report.id === id) ?? readings.get(id)?.coming

/** What may be reckoned with: a report that is not surely read right waits for the user; one without a row says nothing. */
export function believedTally(reading: Reading | undefined): Tally | undefined {
  if (reading?.tally === undefined) return undefined
  const { read, unmapped } = reading.tally.rows
  return (reading.sure ?? 'sure') === 'sure' || read + unmapped === 0 ? reading.tally : undefined
}

/** It was read, but not surely right: the user has to say. */
export const isAsking = (reading: Reading): boolean =>
  reading.state === 'read' && reading.tally !== undefined && believedTally(reading) === undefined

/** It was read to its end, and no row of it tells anything about this board. */
export const isEmptyRun = (reading: Reading): boolean =>
  reading.state === 'read' && (reading.tally === undefined || !saysSomething(reading.tally))

/** Other ways to read it, the likelier first: those that blame other parts, then the rest; without those called wrong. */
export function otherWays(
  { guess, readWith }: Reading,
  rejected: readonly string[] = [],
): readonly { readonly recipe: Recipe; readonly why: string; readonly parts?: readonly string[] }[] {
  if (guess === undefined) return []
  const passed = new Set([...rejected, JSON.stringify(readWith)])
  return [{ recipe: guess.recipe, why: guess.why[0] ?? '' }, ...guess.others, ...guess.alternatives].filter((way) => {
    const text = JSON.stringify(way.recipe)
    return passed.has(text) ? false : Boolean(passed.add(text))
  })
}
