/** The configurations of shared causes that are summed over, each with its mass, for the inference by package. */
import type { OwnSum } from './part-sum.ts'
import { createPartTable, type PartTable, patternsOf } from './part-table.ts'
import type { ReducedPoint } from './reduce.ts'
import { type Place, type PointSet, pointSet, rowsOf, type SharedSpatial } from './shared.ts'

const MAX_ROWS = 2000
const MAX_PLACES = 800
const MAX_FURTHER = 12_000
const SETS_WITH_FURTHER = 6
const MAX_PAIRED_POINTS = 10
const RARE = 1e-9
/** Configurations below this share of the likeliest are dropped at once. */
const NEGLIGIBLE = 1e-7
/** Of the rest, the rarest that together hold this share of the mass are dropped. */
const DROPPED_SHARE = 1e-4
const MAX_KEPT = 6000

export interface Configuration {
  readonly set: PointSet
  readonly places: readonly Place[]
  /** Case of each part, by part. */
  readonly cases: Float64Array
  readonly mass: number
}

export interface Shared {
  readonly n: number
  readonly points: readonly ReducedPoint[]
  readonly grounds: readonly SharedSpatial[]
  readonly others: readonly SharedSpatial[]
}

export interface Enumeration {
  readonly configurations: readonly Configuration[]
  readonly evidence: number
  readonly tables: readonly PartTable[]
  readonly leftOut: readonly string[]
}

/**
 * Sums over: every row with every set of up to three shared point causes, and for the likeliest sets one further place
 * beside the best rows.
 */
export function enumerateShared(shared: Shared, sums: readonly OwnSum[]): Enumeration {
  const { n, points, grounds, others } = shared
  const { rows, cut } = rowsOf(n, grounds, MAX_ROWS)
  const { sets, rare } = setsOf(n, points)
  const placed = rowsOf(n, others, MAX_PLACES)
  const further = placed.rows.filter(({ chosen }) => chosen.length > 0)
  const tables = sums.map(({ bits }) =>
    createPartTable(
      patternsOf(goodsOf(sets), bits),
      patternsOf(goodsOf(rows), bits),
      patternsOf([new Float64Array(n).fill(1), ...goodsOf(further)], bits),
    ),
  )
  const sink = createSink()
  const alone = others.reduce((product, other) => product * other.untouching, 1)
  const weighed = sets.map((set, at) => weighSet({ set, at, rows, tables, sums, alone, sink }))
  const leftOut = [
    ...(cut ? ['the rarest places of the reported spills'] : []),
    ...(placed.cut
      ? ['the rarest places of a patch of the core and of an unreported spill, most of them both at once']
      : []),
    ...(rare ? ['more than three causes at once that several parts share'] : []),
  ]
  if (further.length > 0) {
    const best = weighed.toSorted((a, b) => b.mass - a.mass).slice(0, SETS_WITH_FURTHER)
    const room = Math.max(4, Math.floor(MAX_FURTHER / further.length / best.length))
    if (best.length < sets.length || room < rows.length) {
      leftOut.push('rarer sets of shared causes and places of the reported spill, each together with one more place')
    }
    for (const one of best) addFurther(one, room, { rows, tables, sums, further, sink })
  }
  const { kept, evidence } = sink.result()
  const configurations = kept.flatMap(({ numbers: [set, row, place], mass }) => {
    const chosen = sets[set]
    const ground = rows[row]
    const more = further[place - 1]
    if (chosen === undefined || ground === undefined) return []
    const places = more === undefined ? [ground] : [ground, more]
    return [{ set: chosen, places, cases: casesOf(tables, set, row, place), mass }]
  })
  const dropped = 1 - configurations.reduce((sum, { mass }) => sum + mass, 0) / evidence
  if (dropped > DROPPED_SHARE / 10)
    leftOut.push(`rare configurations that together hold ${(dropped * 100).toFixed(2)} %`)
  return { configurations, evidence, tables, leftOut }
}

const goodsOf = (things: readonly { readonly good: Float64Array }[]): Float64Array[] => things.map(({ good }) => good)

/** Adds up masses and remembers which configuration (set, row, place; place 0 is none) had which. */
function createSink() {
  const entries: { readonly numbers: readonly [number, number, number]; readonly mass: number }[] = []
  let largest = 0
  let evidence = 0
  const add = (mass: number, set: number, row: number, place: number): void => {
    evidence += mass
    if (mass <= 0 || mass < largest * NEGLIGIBLE) return
    if (mass > largest) largest = mass
    entries.push({ numbers: [set, row, place], mass })
  }
  const result = () => {
    const mattering = entries.filter(({ mass }) => mass >= largest * NEGLIGIBLE).toSorted((a, b) => b.mass - a.mass)
    let held = 0
    const enough = mattering.findIndex(({ mass }) => {
      held += mass
      return held >= evidence * (1 - DROPPED_SHARE)
    })
    return { evidence, kept: mattering.slice(0, Math.min(MAX_KEPT, enough < 0 ? mattering.length : enough + 1)) }
  }
  return { add, result }
}

interface SetWork {
  readonly set: PointSet
  /** Position of the set in the list of sets. */
  readonly at: number
  readonly rows: readonly Place[]
  readonly tables: readonly PartTable[]
  readonly sums: readonly OwnSum[]
  readonly alone: number
  readonly sink: ReturnType<typeof createSink>
}

interface WeighedSet {
  readonly set: PointSet
  readonly at: number
  readonly massByRow: Float64Array
  readonly mass: number
}

function weighSet({ set, at, rows, tables, sums, alone, sink }: SetWork): WeighedSet {
  const massByRow = Float64Array.from(rows, ({ weight }) => weight * set.weight * alone)
  for (const [part, table] of tables.entries()) {
    const sum = sums[part]
    if (sum === undefined) continue
    const own = table.sets.of[at] ?? 0
    const values = Float64Array.from(table.rows.distinct.keys(), (row) => table.value(sum, table.caseOf(own, row, 0)))
    for (let row = 0; row < massByRow.length; row++) {
      massByRow[row] = (massByRow[row] ?? 0) * (values[table.rows.of[row] ?? 0] ?? 0)
    }
  }
  let total = 0
  for (let row = 0; row < massByRow.length; row++) {
    const mass = massByRow[row] ?? 0
    total += mass
    sink.add(mass, at, row, 0)
  }
  return { set, at, massByRow, mass: total }
}

const casesOf = (tables: readonly PartTable[], set: number, row: number, place: number): Float64Array =>
  Float64Array.from(tables, ({ sets, rows, places, caseOf }) =>
    caseOf(sets.of[set] ?? 0, rows.of[row] ?? 0, places.of[place] ?? 0),
  )

interface FurtherWork {
  readonly rows: readonly Place[]
  readonly tables: readonly PartTable[]
  readonly sums: readonly OwnSum[]
  readonly further: readonly Place[]
  readonly sink: ReturnType<typeof createSink>
}

function addFurther({ set, at, massByRow }: WeighedSet, room: number, work: FurtherWork): void {
  const { rows, tables, sums, further, sink } = work
  for (const number of bestRows(massByRow, room)) {
    const row = rows[number]
    if (row === undefined) continue
    for (const [index, place] of further.entries()) {
      let mass = set.weight * row.weight * place.weight
      for (let part = 0; part < tables.length && mass > 0; part++) {
        const table = tables[part]
        const sum = sums[part]
        if (table === undefined || sum === undefined) continue
        const { sets: setPatterns, rows: rowPatterns, places } = table
        const own = table.caseOf(setPatterns.of[at] ?? 0, rowPatterns.of[number] ?? 0, places.of[index + 1] ?? 0)
        mass *= table.value(sum, own)
      }
      sink.add(mass, at, number, index + 1)
    }
  }
}

/** Half of the room for rows that explain best, half for those that are likeliest beforehand (as rows stand). */
function bestRows(massByRow: Float64Array, room: number): Set<number> {
  const all = [...massByRow.keys()]
  if (all.length <= room) return new Set(all)
  const byMass = all.toSorted((a, b) => (massByRow[b] ?? 0) - (massByRow[a] ?? 0))
  return new Set([...byMass.slice(0, Math.ceil(room / 2)), ...all.slice(0, Math.floor(room / 2))])
}

/** Rough order of use: a likely cause that touches much. */
const weightOf = (point: ReducedPoint | undefined): number =>
  point === undefined ? 0 : point.probability * point.firing.bits.length

/** Sets of up to three of the shared points; beyond the likeliest points, single ones only. */
function setsOf(n: number, points: readonly ReducedPoint[]): { sets: PointSet[]; rare: boolean } {
  const usual = [...points.keys()]
    .filter((at) => (points[at]?.probability ?? 0) > RARE)
    .toSorted((a, b) => weightOf(points[b]) - weightOf(points[a]))
    .slice(0, MAX_PAIRED_POINTS)
  const members: number[][] = [[], ...[...points.keys()].map((at) => [at])]
  for (const [i, first] of usual.entries()) {
    for (const [j, second] of usual.entries()) {
      if (j <= i) continue
      members.push([first, second])
      for (const third of usual.slice(j + 1)) members.push([first, second, third])
    }
  }
  return { sets: members.map((list) => pointSet(n, points, list)), rare: points.length > 3 }
}
