/** The configurations of shared causes that are summed over, each with its mass, for the inference by package. */
import { createPartTable, type PartTable } from './part-table.ts'
import type { OwnSum } from './part-sum.ts'
import type { ReducedPoint } from './reduce.ts'
import { type Place, type PointSet, placesOf, pointSet, rowsOf, type SharedSpatial } from './shared.ts'

const MAX_ROWS = 3000
const MAX_FURTHER = 60_000
const SETS_WITH_FURTHER = 6
const PAIRS_EXTENDED = 8
const RARE = 1e-9

export interface Configuration {
  readonly set: PointSet
  readonly places: readonly Place[]
  /** Case of each part, by part. */
  readonly cases: Int32Array
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
  readonly tables: readonly PartTable[]
  readonly leftOut: readonly string[]
}

/**
 * Sums over: every row with every set of up to two shared point causes, triples of the likeliest pairs, and for the
 * likeliest sets one further place beside the best rows.
 */
export function enumerateShared(shared: Shared, sums: readonly OwnSum[]): Enumeration {
  const { n, points, grounds, others } = shared
  const tables = sums.map((sum) => createPartTable(sum.bits))
  const leftOut = new Set<string>()
  const { rows, cut } = rowsOf(n, grounds, MAX_ROWS)
  if (cut) leftOut.add('the rarest places of the reported spills')
  const untouching = others.reduce((product, other) => product * other.untouching, 1)
  const massOf = (weight: number, cases: Int32Array): number => {
    let mass = weight
    for (let part = 0; part < cases.length && mass > 0; part++) {
      const sum = sums[part]
      if (sum !== undefined) mass *= tables[part]?.value(sum, cases[part] ?? 0) ?? 1
    }
    return mass
  }
  const patterns = patternsOf(rows, sums)
  const withRows = (set: PointSet): Configuration[] => {
    const caseOf = tables.map((table, part) =>
      Int32Array.from(patterns.distinct[part] ?? [], (good) => table.caseOf([set.good, good])),
    )
    return rows.map((row, at) => {
      const cases = Int32Array.from(tables.keys(), (part) => caseOf[part]?.[patterns.of[part]?.[at] ?? 0] ?? 0)
      return { set, places: [row], cases, mass: massOf(set.weight * row.weight * untouching, cases) }
    })
  }
  const { sets, rare } = pointSetsBy(n, points, withRows)
  if (rare) leftOut.add('rarer sets of three and more causes that several parts share')
  const plain = sets.flatMap(({ configurations }) => configurations)
  const further = others.flatMap((other) => placesOf(n, other).map((place) => ({ place, rest: except(others, other) })))
  if (further.length === 0) return { configurations: plain, tables, leftOut: [...leftOut] }
  if (others.length > 1) leftOut.add('a patch of the core and an unreported spill at the same time')
  const best = [...sets].sort((a, b) => b.mass - a.mass).slice(0, SETS_WITH_FURTHER)
  const room = Math.max(4, Math.floor(MAX_FURTHER / further.length / best.length))
  if (best.length < sets.length || room < rows.length) {
    leftOut.add('rarer sets of shared causes and places of the reported spill, each together with one more place')
  }
  const beside = best.flatMap(({ configurations }) =>
    bestRows(configurations, room).flatMap(({ set, places: [row] }) =>
      row === undefined
        ? []
        : further.map(({ place, rest }) => {
            const cases = Int32Array.from(tables, (table) => table.caseOf([set.good, row.good, place.good]))
            const mass = massOf(set.weight * row.weight * place.weight * rest, cases)
            return { set, places: [row, place], cases, mass }
          }),
    ),
  )
  return { configurations: [...plain, ...beside], tables, leftOut: [...leftOut] }
}

const except = (others: readonly SharedSpatial[], one: SharedSpatial): number =>
  others.reduce((product, other) => (other === one ? product : product * other.untouching), 1)

/** By part: the distinct ways in which rows touch it, and which of them each row is. */
function patternsOf(rows: readonly Place[], sums: readonly OwnSum[]) {
  const distinct: Float64Array[][] = []
  const of = sums.map(({ bits }, part) => {
    const known = new Map<string, number>()
    const own: Float64Array[] = []
    distinct[part] = own
    return Int32Array.from(rows, ({ good }) => {
      const key = bits.map((bit) => good[bit]).join()
      const number = known.get(key) ?? own.push(good) - 1
      known.set(key, number)
      return number
    })
  })
  return { distinct, of }
}

interface WeighedSet {
  readonly set: PointSet
  readonly configurations: readonly Configuration[]
  readonly mass: number
}

function pointSetsBy(
  n: number,
  points: readonly ReducedPoint[],
  withRows: (set: PointSet) => Configuration[],
): { sets: WeighedSet[]; rare: boolean } {
  const weigh = (members: readonly number[]): WeighedSet => {
    const configurations = withRows(pointSet(n, points, members))
    const set = configurations[0]?.set ?? pointSet(n, points, members)
    return { set, configurations, mass: configurations.reduce((sum, { mass }) => sum + mass, 0) }
  }
  const usual = [...points.keys()].filter((at) => (points[at]?.probability ?? 0) > RARE)
  const singles = [...points.keys()].map((at) => weigh([at]))
  const pairs = usual.flatMap((first, i) => usual.slice(i + 1).map((second) => weigh([first, second])))
  const likeliest = [...pairs].sort((a, b) => b.mass - a.mass).slice(0, PAIRS_EXTENDED)
  const triples = new Map<string, readonly number[]>()
  for (const { set } of likeliest) {
    for (const third of usual) {
      if (set.members.includes(third)) continue
      const members = [...set.members, third].sort((a, b) => a - b)
      triples.set(members.join(), members)
    }
  }
  const sets = [weigh([]), ...singles, ...pairs, ...[...triples.values()].map(weigh)]
  return { sets, rare: usual.length > 3 }
}

/** Half of the room for those that explain best, half for those that are likeliest beforehand (as rows stand). */
function bestRows(configurations: readonly Configuration[], room: number): Configuration[] {
  if (configurations.length <= room) return [...configurations]
  const byMass = [...configurations].sort((a, b) => b.mass - a.mass).slice(0, Math.ceil(room / 2))
  return [...new Set([...byMass, ...configurations.slice(0, Math.floor(room / 2))])]
}
