/** The report whose names are being told, with all that is known of them. */
import { say } from '../../../../base/index.ts'
import type { BoardModel } from '../../../../board/index.ts'
import {
  type ForeignName,
  type ForeignNames,
  keepReading,
  type KeptReading,
  readingOf,
} from '../../../../report/index.ts'
import { sameWords, wordsOf } from '../../../stores/boardWords.ts'
import { headOf, isAsking, isEmptyRun, type Reading, reportIds } from '../../../stores/readingStore.ts'
import type { Case, Station } from '../../../../case/index.ts'
import type { NamingScreen } from '../../../stores/screenStore.ts'

export interface NamedReport {
  readonly id: string
  readonly name: string
  readonly foreign: readonly ForeignName[]
  /** All that the board keeps for reports that look so. */
  readonly told: ForeignNames
}

interface Known {
  readonly present: Case
  readonly model: BoardModel
  readonly readings: ReadonlyMap<string, Reading>
}

/** What the board's words say for a report: at once, also while it is being read anew. */
export function toldNames({ sample, guess }: Reading, words: readonly KeptReading[]): ForeignNames {
  if (sample === undefined) return {}
  const own = keepReading(words, readingOf(say('this one'), sample, {})).at(-1)?.names
  const alike = guess?.kept.find(
    ({ names }, i) => names !== undefined && words.some((one) => sameWords(one, guess.kept[i])),
  )
  return own ?? alike?.names ?? {}
}

export function namedReport({ present, model, readings }: Known, id: string): NamedReport | undefined {
  const reading = readings.get(id)
  const name = headOf(id, present.reports, readings)?.name
  const foreign = reading?.guess?.foreign ?? []
  if (reading === undefined || name === undefined || foreign.length === 0) return undefined
  return { id, name, foreign, told: toldNames(reading, wordsOf(present, model)) }
}

/** Shown above the sheet: what was asked for by hand, else the first report that waits for its names. */
export function reportToName(known: Known, station: Station, naming: NamingScreen): NamedReport | undefined {
  if (naming.report !== undefined) {
    const asked = namedReport(known, naming.report)
    if (asked !== undefined) return asked
  }
  if (station !== 'memory-run' && station !== 'proof') return undefined
  const { present, readings } = known
  const run = station === 'proof' ? 'retest' : 'first'
  for (const id of reportIds(run, present.reports, readings)) {
    const reading = readings.get(id)
    if (reading === undefined || naming.closed.includes(id)) continue
    const named = namedReport(known, id)
    if (named !== undefined && (waits(reading) || hasUntold(named))) return named
  }
  return undefined
}

const waits = (reading: Reading): boolean =>
  reading.state === 'reading' || reading.state === 'failed' || isAsking(reading) || isEmptyRun(reading)

const hasUntold = ({ foreign, told }: NamedReport): boolean =>
  Object.keys(told).length > 0 && foreign.some(({ name }) => told[name] === undefined)
