/** Two readings of one report that blame different parts: how it is read now, and the likeliest other way. */
import type { Case } from '../../case/index.ts'
import type { Recipe } from '../../report/index.ts'
import { isAsking, otherWays, type Reading, reportNames } from './readingStore.ts'
import type { Station } from './screenStore.ts'

export interface Way {
  readonly recipe: Recipe
  /** Refs of the parts that it blames. */
  readonly parts: readonly string[]
}

export interface Undecided {
  readonly report: string
  readonly a: Way
  readonly b: Way
}

export function twoWaysOf(report: string, reading: Reading): Undecided | undefined {
  const { recipe, tally } = reading
  if (!isAsking(reading) || recipe === undefined || tally === undefined) return undefined
  const parts = tally.parts
    .filter((part) => part.errors > 0 || part.channels.some(({ lanes }) => lanes.some(({ state }) => state === 'fail')))
    .map(({ ref }) => ref)
  const other = otherWays(reading, reading.rejected).find(
    (way) => way.parts !== undefined && way.parts.toSorted().join() !== parts.toSorted().join(),
  )
  return other?.parts === undefined
    ? undefined
    : { report, a: { recipe, parts }, b: { recipe: other.recipe, parts: other.parts } }
}

/** The first report of the run that the station is about. */
export function undecidedAt(
  station: Station,
  reports: Case['reports'],
  readings: ReadonlyMap<string, Reading>,
): Undecided | undefined {
  const run = station === 'proof' ? 'retest' : 'first'
  for (const name of reportNames(run, reports, readings)) {
    const reading = readings.get(name)
    const two = reading === undefined ? undefined : twoWaysOf(name, reading)
    if (two !== undefined) return two
  }
  return undefined
}
