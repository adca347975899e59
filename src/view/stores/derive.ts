/** What the screen derives from case, board and readings: never stored, remembered only for the last question. */
import { boxOf, type Box, type Point } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Assessment, Case, EarlierRun, ReportEntry } from '../../case/index.ts'
import { coverWhole, mergeTallies, type PartTally, type Tally, tallyTable } from '../../report/index.ts'
import type { Mark, ReachResult } from '../../spill/index.ts'
import type { Selection } from '../sheet/index.ts'
import { believedTally, type Reading } from './readingStore.ts'
import { saysSomething } from './tested.ts'

type Readings = ReadonlyMap<string, Reading>

/** A function of its arguments' identities that remembers its last answer, so that unchanged inputs give the same object. */
export function remembering<Args extends readonly unknown[], Output>(
  compute: (...args: Args) => Output,
): (...args: Args) => Output {
  let last: { readonly args: Args; readonly output: Output } | undefined
  return (...args) => {
    if (last !== undefined && args.every((arg, i) => Object.is(arg, last?.args[i]))) return last.output
    last = { args, output: compute(...args) }
    return last.output
  }
}

interface RunReport {
  readonly id: string
  /** That lanes which it does not list pass: never of a report that breaks off. */
  readonly coversAll: boolean
  readonly table: ReportEntry['table']
  readonly tally: Tally | undefined
}

/** Reports of the card as it came, runs after the work that count, and runs that work went on after. */
type RunKind = 'first' | 'retest' | 'overtaken'

const kindOf = ({ run, overtaken }: ReportEntry): RunKind => (overtaken === true ? 'overtaken' : run)

const reportsOfRun = (reports: Case['reports'], readings: Readings, run: RunKind): RunReport[] =>
  reports.flatMap((report) => {
    const { id, coversAll, table } = report
    return kindOf(report) !== run
      ? []
      : [
          {
            id,
            coversAll: coversAll && (readings.get(id)?.isWhole ?? true),
            table,
            tally: believedTally(readings.get(id)),
          },
        ]
  })

const sameReports = (a: readonly RunReport[], b: readonly RunReport[]): boolean =>
  a.length === b.length &&
  a.every((report, i) => {
    const other = b[i]
    return (
      report.id === other?.id &&
      report.coversAll === other.coversAll &&
      report.table === other.table &&
      report.tally === other.tally
    )
  })

/**
 * The reports of one run that count and have been read, each by its id. What does not change a tally, such as a number
 * of passes, gives the same object again. One such function a screen.
 */
export function createTalliesOfRun(run: RunKind) {
  let last:
    | { readonly model: BoardModel; readonly of: readonly RunReport[]; readonly tallies: Map<string, Tally> }
    | undefined
  return (model: BoardModel, reports: Case['reports'], readings: Readings): ReadonlyMap<string, Tally> => {
    const of = reportsOfRun(reports, readings, run)
    if (last?.model === model && sameReports(last.of, of)) return last.tallies
    const tallies = new Map<string, Tally>()
    for (const report of of) {
      const read = report.table === undefined ? report.tally : tallyTable(model, report.table)
      if (read === undefined) continue
      const tally = report.coversAll ? coverWhole(read) : read
      tallies.set(report.id, tally)
    }
    last = { model, of, tallies }
    return tallies
  }
}

/**
 * The same added up; undefined where there is none. Reports of the card as it came of which nothing was read are none; a
 * retest may list nothing, and stands there as untested.
 */
export function createTallyOfCase(run: ReportEntry['run']) {
  const talliesOf = createTalliesOfRun(run)
  const merged = remembering((tallies: ReadonlyMap<string, Tally>): Tally | undefined => {
    const tally = tallies.size === 0 ? undefined : mergeTallies([...tallies.values()])
    return tally === undefined || run === 'retest' || saysSomething(tally) ? tally : undefined
  })
  return (model: BoardModel, reports: Case['reports'], readings: Readings): Tally | undefined =>
    merged(talliesOf(model, reports, readings))
}

/** Runs that work went on after, with the passes that were on the log by then; those that do not say are left out. */
export function createEarlierRuns() {
  const talliesOf = createTalliesOfRun('overtaken')
  const listed = remembering((reports: Case['reports'], tallies: ReadonlyMap<string, Tally>): readonly EarlierRun[] =>
    reports.flatMap(({ id, afterPasses }) => {
      const tally = tallies.get(id)
      return tally === undefined || afterPasses === undefined ? [] : [{ afterPasses, tally }]
    }),
  )
  return (model: BoardModel, reports: Case['reports'], readings: Readings): readonly EarlierRun[] => {
    const tallies = talliesOf(model, reports, readings)
    return tallies.size === 0 ? NO_RUNS : listed(reports, tallies)
  }
}

const NO_RUNS: readonly EarlierRun[] = []

export interface TallyCounts {
  readonly failing: readonly PartTally[]
  readonly clean: readonly PartTally[]
  readonly untestedLanes: number
}

export function countTally(tally: Tally): TallyCounts {
  const states = (part: PartTally) => part.channels.flatMap((channel) => channel.lanes.map((lane) => lane.state))
  return {
    failing: tally.parts.filter((part) => states(part).includes('fail')),
    clean: tally.parts.filter((part) => states(part).includes('pass') && !states(part).includes('fail')),
    untestedLanes: tally.parts.flatMap(states).filter((state) => state === 'untested').length,
  }
}

export function pointOfMark(mark: Mark): Point {
  if (mark.kind !== 'dam') return mark.at
  return mark.path[Math.floor(mark.path.length / 2)] ?? { x: 0, y: 0 }
}

/** What matters on the board: core, memory and the marks; the whole board where there is none of these. */
export function openingBox(model: BoardModel, marks: readonly Mark[]): Box {
  const parts = [...(model.core === undefined ? [] : [model.core]), ...model.memories]
  const corners = parts.flatMap((part) => [
    { x: part.box.minX, y: part.box.minY },
    { x: part.box.maxX, y: part.box.maxY },
  ])
  return corners.length === 0 ? model.box : boxOf([...corners, ...marks.map(pointOfMark)])
}

/** The reach that is drawn: that of the selected spill, else of the last one. */
export function shownReach(
  assessment: Assessment | undefined,
  selection: Selection | undefined,
): ReachResult | undefined {
  const reaches = assessment?.reaches ?? []
  const chosen = selection?.kind === 'mark' ? reaches.find((entry) => entry.mark === selection.id) : undefined
  return (chosen ?? reaches.at(-1))?.reach
}
