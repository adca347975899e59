/** A case with what it points to: its board loaded, its reports read and added up. Files come through a hand-in. */
import { bad, good, type Result } from '../base/index.ts'
import { type BoardModel, loadBoard, readBoard } from '../board/index.ts'
import {
  coverWhole,
  mergeTallies,
  outcomeOf,
  type ReadOutcome,
  readReport,
  type Tally,
  tallyTable,
  whatChanged,
} from '../report/index.ts'
import type { EarlierRun } from './runs.ts'
import type { Case, ReportEntry } from './schema.ts'

/** Opens a file named by a case, relative to the case file: its bytes in pieces, or a fault. */
export type OpenFile = (path: string) => Promise<Result<AsyncIterable<Uint8Array>>>

export interface OpenedCase {
  readonly caseFile: Case
  readonly model: BoardModel
  /** Of the card as it came. */
  readonly tally: Tally | undefined
  /** Of the runs after the work. */
  readonly retest: Tally | undefined
  /** Of runs that work went on after. */
  readonly earlier: readonly EarlierRun[]
  /** Of each run after the work, by the id of its report. */
  readonly retests: ReadonlyMap<string, Tally>
  /** Reports that are read otherwise than when the case was kept, and what changed. */
  readonly changed: readonly { readonly report: string; readonly sentences: readonly string[] }[]
}

/** Loads the board and reads all reports of a case; every fault comes back, and nothing half opened. */
export async function openCase(caseFile: Case, openFile: OpenFile): Promise<Result<OpenedCase>> {
  const board = await boardOf(caseFile, openFile)
  if (!board.ok) return board
  const tallies: Record<ReportEntry['run'], Tally[]> = { first: [], retest: [] }
  const retests = new Map<string, Tally>()
  const earlier: EarlierRun[] = []
  const changed: { report: string; sentences: string[] }[] = []
  for (const report of caseFile.reports) {
    const read = await readingOf(report, board.value, openFile)
    if (!read.ok) return read
    const { believed, outcome, isWhole } = read.value
    const sentences = report.read === undefined || outcome === undefined ? [] : whatChanged(report.read, outcome)
    if (sentences.length > 0) changed.push({ report: report.name, sentences })
    if (believed === undefined) continue
    // A report that breaks off did not list all that the test covered.
    const tally = report.coversAll && isWhole ? coverWhole(believed) : believed
    if (report.overtaken === true) {
      if (report.run === 'retest' && report.afterPasses !== undefined)
        earlier.push({ afterPasses: report.afterPasses, tally })
      continue
    }
    tallies[report.run].push(tally)
    if (report.run === 'retest') retests.set(report.id, tally)
  }
  return good({
    caseFile,
    model: board.value,
    tally: merged(tallies.first),
    retest: merged(tallies.retest),
    earlier,
    retests,
    changed,
  })
}

const merged = (tallies: readonly Tally[]): Tally | undefined =>
  tallies.length === 0 ? undefined : mergeTallies(tallies)

async function boardOf(caseFile: Case, openFile: OpenFile): Promise<Result<BoardModel>> {
  if ('inline' in caseFile.board) return loadBoard(caseFile.board.inline)
  const { path } = caseFile.board
  const bytes = await openFile(path)
  if (!bytes.ok) return bytes
  const board = readBoard(await textOf(bytes.value))
  return board.ok ? board : bad(...board.faults.map((fault) => ({ ...fault, path: `${path} ${fault.path}` })))
}

interface Reading {
  /** Undefined while it is not sure how the report is to be read: then nothing is reckoned from it. */
  readonly believed: Tally | undefined
  /** Undefined for a table, which is read in one way only. */
  readonly outcome: ReadOutcome | undefined
  readonly isWhole: boolean
}

async function readingOf(report: ReportEntry, model: BoardModel, openFile: OpenFile): Promise<Result<Reading>> {
  if (report.table !== undefined)
    return good({ believed: tallyTable(model, report.table), outcome: undefined, isWhole: true })
  const bytes = report.path === undefined ? good(oneChunk(report.text ?? '')) : await openFile(report.path)
  if (!bytes.ok) return bytes
  const recipe = report.recipe === undefined ? {} : { recipe: report.recipe }
  const mayBeClean = report.coversAll || report.run === 'retest'
  const read = await readReport(bytes.value, { model, mayBeClean, ...recipe })
  return read.ok
    ? good({ believed: read.value.believed, outcome: outcomeOf(read.value), isWhole: read.value.isWhole })
    : bad(...read.faults.map((fault) => ({ ...fault, path: `${report.name}, ${fault.path}` })))
}

async function* oneChunk(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

async function textOf(bytes: AsyncIterable<Uint8Array>): Promise<string> {
  const decoder = new TextDecoder()
  let text = ''
  for await (const chunk of bytes) text += decoder.decode(chunk, { stream: true })
  return text + decoder.decode()
}
