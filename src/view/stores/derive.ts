/** What the screen derives from case, board and readings: never stored, remembered only for the last question. */
import { boxOf, type Box, type Point } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import type { Assessment, Case, ReportEntry } from '../../case/index.ts'
import { mergeTallies, type PartTally, type Tally, tallyTable } from '../../report/index.ts'
import type { Mark, ReachResult } from '../../spill/index.ts'
import type { Selection } from '../sheet/index.ts'
import type { Reading } from './readingStore.ts'

type Readings = ReadonlyMap<string, Reading>

/** A function of its arguments' identities that remembers its last answer, so that unchanged inputs give the same object. */
function remembering<Args extends readonly unknown[], Output>(
  compute: (...args: Args) => Output,
): (...args: Args) => Output {
  let last: { readonly args: Args; readonly output: Output } | undefined
  return (...args) => {
    if (last !== undefined && args.every((arg, i) => Object.is(arg, last?.args[i]))) return last.output
    last = { args, output: compute(...args) }
    return last.output
  }
}

/** The reports of one run that have been read, added up; undefined where there is none. One such function a screen. */
export const createTallyOfCase = (run: ReportEntry['run']) =>
  remembering((model: BoardModel, reports: Case['reports'], readings: Readings): Tally | undefined => {
    const tallies = reports.flatMap((report) => {
      if (report.run !== run) return []
      if (report.table !== undefined) return [tallyTable(model, report.table)]
      const tally = readings.get(report.name)?.tally
      return tally === undefined ? [] : [tally]
    })
    return tallies.length === 0 ? undefined : mergeTallies(tallies)
  })

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
