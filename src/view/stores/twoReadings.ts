/** Two readings of one report that blame different parts: how it is read now, and the likeliest other way. */
import type { Case, Station } from '../../case/index.ts'
import type { Recipe } from '../../report/index.ts'
import { headOf, isAsking, otherWays, type Reading, reportIds } from './readingStore.ts'

export interface Way {
  readonly recipe: Recipe
  /** Refs of the parts that it blames. */
  readonly parts: readonly string[]
}

export interface Undecided {
  /** Of the report. */
  readonly id: string
  readonly name: string
  readonly a: Way
  readonly b: Way
}

/** How it is read now, and the likeliest other way that blames other parts. */
export function twoWaysOf(reading: Reading): Pick<Undecided, 'a' | 'b'> | undefined {
  const { readWith, tally } = reading
  if (!isAsking(reading) || readWith === undefined || tally === undefined) return undefined
  const parts = tally.parts
    .filter((part) => part.errors > 0 || part.channels.some(({ lanes }) => lanes.some(({ state }) => state === 'fail')))
    .map(({ ref }) => ref)
  const other = otherWays(reading, reading.rejected).find(
    (way) => way.parts !== undefined && way.parts.toSorted().join() !== parts.toSorted().join(),
  )
  return other?.parts === undefined
    ? undefined
    : { a: { recipe: readWith, parts }, b: { recipe: other.recipe, parts: other.parts } }
}

/** The first report of the run that the station is about. */
export function undecidedAt(
  station: Station,
  reports: Case['reports'],
  readings: ReadonlyMap<string, Reading>,
): Undecided | undefined {
  const run = station === 'proof' ? 'retest' : 'first'
  for (const id of reportIds(run, reports, readings)) {
    const reading = readings.get(id)
    const two = reading === undefined ? undefined : twoWaysOf(reading)
    const name = headOf(id, reports, readings)?.name
    if (two !== undefined && name !== undefined) return { id, name, ...two }
  }
  return undefined
}
