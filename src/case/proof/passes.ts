/** Which passes of the runs after the work count as passed, which as failed, and which can't be counted. */
import type { Tally } from '../../report/index.ts'
import type { ReportEntry } from '../schema.ts'

export interface RetestRun {
  readonly name: string
  /** Passes that it says it stands for; undefined where nobody noted them. */
  readonly passes: number | undefined
  /**
   * `clean` shows no error anywhere and says of some lanes that they were tested; `failing` has errors; `unsure` has rows
   * that could not be read or placed, which may be errors; `says-nothing` has no errors and covers no lane; `not-read` has
   * no tally; work went on after one that is `overtaken`.
   */
  readonly kind: 'clean' | 'failing' | 'unsure' | 'says-nothing' | 'not-read' | 'overtaken'
  /** Lanes that it does not cover. */
  readonly untestedLanes: number
}

export interface PassCount {
  /** Complete passes of runs that show no error in any lane. */
  readonly clean: number
  /** Passes of runs with errors, all taken as failing; such a run without a noted number counts as one. */
  readonly failing: number
  /** Names of runs without an error that do not say how many passes they were. */
  readonly unnoted: readonly string[]
  readonly runs: readonly RetestRun[]
}

/** @param retests tallies by the id of their report, as the case has it covered */
export function countPasses(reports: readonly ReportEntry[], retests: ReadonlyMap<string, Tally>): PassCount {
  const runs = reports.filter(({ run }) => run === 'retest').map((report) => runOf(report, retests.get(report.id)))
  const clean = runs.filter(({ kind }) => kind === 'clean')
  const failing = runs.filter(({ kind }) => kind === 'failing')
  return {
    clean: clean.reduce((sum, { passes }) => sum + (passes ?? 0), 0),
    failing: failing.reduce((sum, { passes }) => sum + Math.max(1, passes ?? 1), 0),
    unnoted: clean.filter(({ passes }) => passes === undefined).map(({ name }) => name),
    runs,
  }
}

function runOf({ name, testPasses, overtaken }: ReportEntry, tally: Tally | undefined): RetestRun {
  if (overtaken === true) return { name, passes: testPasses, kind: 'overtaken', untestedLanes: 0 }
  const lanes = (tally?.parts ?? []).flatMap((part) => part.channels.flatMap((channel) => channel.lanes))
  const untestedLanes = lanes.filter(({ state }) => state === 'untested').length
  return { name, passes: testPasses, kind: kindOf(tally, lanes.length > untestedLanes), untestedLanes }
}

function kindOf(tally: Tally | undefined, coversSome: boolean): RetestRun['kind'] {
  if (tally === undefined) return 'not-read'
  if (hasErrors(tally)) return 'failing'
  if (tally.rows.unreadable + tally.rows.unmapped > 0) return 'unsure'
  return coversSome ? 'clean' : 'says-nothing'
}

const hasErrors = (tally: Tally): boolean =>
  tally.parts.some(
    ({ errors, channels }) =>
      errors > 0 || channels.some(({ lanes }) => lanes.some((lane) => lane.state === 'fail' || lane.errors > 0)),
  )

/** Passes that all runs of a kind stand for together; undefined where one of them does not say. */
export function passesOfRun(reports: readonly ReportEntry[], run: ReportEntry['run']): number | undefined {
  const passes = reports
    .filter((report) => report.run === run && report.overtaken !== true)
    .map(({ testPasses }) => testPasses)
  if (passes.length === 0 || passes.includes(undefined)) return undefined
  return passes.reduce<number>((sum, n) => sum + (n ?? 0), 0)
}
