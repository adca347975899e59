/** Runs of the memory test after work: which of them work has gone on after, and the rounds of work that they close. */
import type { BoardModel } from '../board/index.ts'
import type { PassLog } from '../plan/index.ts'
import { mergeTallies, type Tally } from '../report/index.ts'
import type { LaneState, Round } from '../suspects/index.ts'
import type { Case } from './schema.ts'

/** A run that work went on after, with how many passes were on the log by then. */
export interface EarlierRun {
  readonly afterPasses: number
  readonly tally: Tally
}

/** Runs that were made after fewer passes than are on the log count no more, and do again once those passes are taken back. */
export const overtakenBy = (reports: Case['reports'], passes: number): Case['reports'] =>
  reports.map((report) =>
    report.run === 'retest' && report.afterPasses !== undefined
      ? { ...report, overtaken: report.afterPasses < passes }
      : report,
  )

/** Something was put right, all that came off is back on, and no run was made since. */
export function isUntested({ reports, passes, ticks }: Pick<Case, 'reports' | 'passes' | 'ticks'>): boolean {
  const runs = reports.filter(({ run }) => run === 'retest')
  if (runs.some(({ overtaken }) => overtaken !== true)) return false
  const since = Math.max(0, ...runs.map(({ afterPasses = 0 }) => afterPasses))
  const washed = ticks.some(
    ({ action, outcome, afterPasses }) =>
      action === 'wash' && outcome === 'done' && (runs.length === 0 || afterPasses > since),
  )
  const { off, refitted } = standingAfter(passes, since)
  return off.size === 0 && (refitted || washed)
}

/** Parts that are off by the log, and whether one was refitted at or after this place in it. */
export function standingAfter(passes: PassLog, since = 0): { off: ReadonlySet<string>; refitted: boolean } {
  const off = new Set<string>()
  let refitted = false
  for (const [at, { action, refs, outcome }] of passes.entries()) {
    if (outcome !== 'done') continue
    if (action === 'refit') refitted ||= at >= since
    for (const ref of refs) {
      if (action === 'lift') off.add(ref)
      else off.delete(ref)
    }
  }
  return { off, refitted }
}

export interface RunsAfterWork {
  readonly earlier?: readonly EarlierRun[] | undefined
  readonly retest?: Tally | undefined
  /** The whole board was cleaned when so many passes were on the log. */
  readonly washedAfter?: number | undefined
}

/**
 * What was refitted before each run was put right by then. Without any run it is not known yet; work since the last run
 * waits for the next.
 */
export function roundsOf(
  model: BoardModel,
  passes: PassLog,
  { earlier = [], retest, washedAfter }: RunsAfterWork,
): Round[] {
  const runs = [...together(earlier), ...(retest === undefined ? [] : [{ afterPasses: passes.length, tally: retest }])]
  const washedIn = washedAfter === undefined ? -1 : runs.findIndex(({ afterPasses }) => afterPasses >= washedAfter)
  return runs.map(({ afterPasses, tally }, at) => {
    const since = runs[at - 1]?.afterPasses ?? 0
    const refitted = passes
      .slice(since, afterPasses)
      .filter(({ action, outcome }) => action === 'refit' && outcome === 'done')
    const replaced = refsOf(refitted.filter((entry) => entry.replaced))
    return { lifted: refsOf(refitted), replaced, lanes: lanesOf(model, tally), washed: at === washedIn }
  })
}

/** Reports of one run are one run, earliest first. */
function together(runs: readonly EarlierRun[]): EarlierRun[] {
  const times = [...new Set(runs.map(({ afterPasses }) => afterPasses))].toSorted((a, b) => a - b)
  return times.map((afterPasses) => {
    const own = runs.filter((run) => run.afterPasses === afterPasses)
    return { afterPasses, tally: mergeTallies(own.map(({ tally }) => tally)) }
  })
}

const refsOf = (entries: PassLog): string[] => [...new Set(entries.flatMap(({ refs }) => refs))]

/** Lanes that a tally does not name are untested. */
export function lanesOf(model: BoardModel, tally: Tally | undefined): Map<string, LaneState> {
  const lanes = new Map<string, LaneState>(model.lanes.map((lane) => [lane.id, 'untested']))
  for (const part of tally?.parts ?? []) {
    for (const channel of part.channels) for (const lane of channel.lanes) lanes.set(lane.id, lane.state)
  }
  return lanes
}
