/**
 * Inference for many bad findings: configurations of the causes that parts share are enumerated, and given one, each
 * part sums over its own causes exactly. What the enumeration leaves out is said.
 */
import { type Condensed, condense } from './condensed.ts'
import { type Configuration, enumerateShared, type Shared } from './configurations.ts'
import { type OwnCauses, type OwnSum, ownSum } from './part-sum.ts'
import type { PartTable } from './part-table.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'
import { sharedSpatials, untouchingWithout } from './shared.ts'

const NEGLIGIBLE = 1e-7

/** A part with what only it suffers from. */
interface OwnPart {
  readonly own: OwnCauses
  readonly sum: OwnSum
  readonly table: PartTable
  /** Kept answers of `ratioWithout`. */
  readonly ratios: Map<string, Float64Array>
}

/** Everything about a problem that later questions share: the configurations kept, and each part with its own causes. */
interface Prepared {
  readonly problem: Problem
  readonly shared: Shared
  readonly sharedIndices: readonly number[]
  readonly kept: readonly Configuration[]
  readonly condensed: Condensed
  readonly parts: readonly OwnPart[]
  /** One over the mass of all configurations kept. */
  readonly norm: number
  readonly evidence: number
  readonly leftOut: readonly string[]
}

function prepare(problem: Problem): Prepared {
  const { owns, sharedIndices } = splitByPart(problem)
  const sums = owns.map((own) => ownSum(own, problem.leak, () => undefined))
  const points = sharedIndices.flatMap((index) => problem.points[index] ?? [])
  const shared: Shared = { n: problem.n, points, ...sharedSpatials(problem) }
  const { configurations: kept, evidence, tables, leftOut } = enumerateShared(shared, sums)
  const keptMass = kept.reduce((total, { mass }) => total + mass, 0)
  const parts = owns.flatMap((own, at) => {
    const sum = sums[at]
    const table = tables[at]
    return sum === undefined || table === undefined ? [] : [{ own, sum, table, ratios: new Map() }]
  })
  const condensed = condense(kept, shared, tables.length)
  const norm = keptMass > 0 ? 1 / keptMass : 0
  return { problem, shared, sharedIndices, kept, condensed, parts, norm, evidence, leftOut }
}

export function judgeByPackage(problem: Problem): Posterior {
  const prepared = prepare(problem)
  const { shared, sharedIndices, kept, condensed, parts, norm, evidence, leftOut } = prepared
  return {
    evidence,
    points: pointPosteriors(problem, parts, kept, condensed, sharedIndices, norm),
    groups: groupPosteriors(shared, kept, norm),
    noneLifted: (asked) => noneLifted(prepared, asPrepared(prepared), new Set(asked)) * norm,
    leftOut,
  }
}

/**
 * For problems that weigh the causes of one problem anew (a further outcome): its configurations are weighed anew too.
 * @returns for such a problem, the mass of what is kept in which nothing is there that lifts one of some parts
 */
export function massesByPackage(problem: Problem): {
  readonly massesOf: (weighedAnew: Problem) => (parts: readonly number[]) => number
  leftOut: readonly string[]
} {
  const prepared = prepare(problem)
  const massesOf = (weighedAnew: Problem) => {
    const anew: Anew =
      weighedAnew === problem
        ? asPrepared(prepared)
        : { problem: weighedAnew, mass: massAnew(prepared, weighedAnew), ratios: prepared.parts.map(() => new Map()) }
    return (parts: readonly number[]): number => noneLifted(prepared, anew, new Set(parts))
  }
  return { massesOf, leftOut: prepared.leftOut }
}

/** The prepared problem, or one that weighs its causes anew. */
interface Anew {
  readonly problem: Problem
  /** Of each configuration under that problem. */
  readonly mass: Float64Array
  /** By part: kept answers of `ratioWithout`, where its own causes weigh otherwise than before. */
  readonly ratios: readonly Map<string, Float64Array>[]
}

const asPrepared = ({ problem, condensed, parts }: Prepared): Anew => ({
  problem,
  mass: condensed.mass,
  ratios: parts.map(({ ratios }) => ratios),
})

/** Mass of each configuration if its shared causes weigh as they do in `anew`; what touches nothing is not in it. */
function massAnew({ problem, sharedIndices, kept }: Prepared, anew: Problem): Float64Array {
  const there = new Float64Array(sharedIndices.length)
  let noneThere = 1
  for (const [at, index] of sharedIndices.entries()) {
    const before = problem.points[index]?.probability ?? 0
    const after = anew.points[index]?.probability ?? 0
    const absent = before < 1 ? (1 - after) / (1 - before) : 1
    noneThere *= absent
    there[at] = before > 0 && absent > 0 ? after / before / absent : 0
  }
  const groupsAnew = spatialsIn(anew)
  const groupRatio = spatialsIn(problem).map((spatial, at) =>
    Float64Array.from(spatial.groups, ({ weight }, group) =>
      weight > 0 ? (groupsAnew[at]?.groups[group]?.weight ?? 0) / weight : 0,
    ),
  )
  return Float64Array.from(kept, ({ set, places, mass }) => {
    let weight = mass * noneThere
    for (const at of set.members) weight *= there[at] ?? 0
    for (const { chosen } of places)
      for (const { spatial, group } of chosen) weight *= groupRatio[spatial]?.[group] ?? 1
    return weight
  })
}

const spatialsIn = ({ standing, moving }: Problem): ReducedSpatial[] =>
  moving === undefined ? [...standing] : [...standing, moving]

function splitByPart(problem: Problem): { owns: OwnCauses[]; sharedIndices: number[] } {
  const byPart = new Map<string, { bits: number[]; indices: number[]; points: ReducedPoint[] }>()
  for (const [bit, part] of problem.partOfBit.entries()) {
    const own = byPart.get(part) ?? { bits: [], indices: [], points: [] }
    own.bits.push(bit)
    byPart.set(part, own)
  }
  const sharedIndices: number[] = []
  for (const [index, point] of problem.points.entries()) {
    const parts = new Set(Array.from(point.firing.bits, (bit) => problem.partOfBit[bit] ?? ''))
    const own = parts.size === 1 ? byPart.get([...parts][0] ?? '') : undefined
    if (own === undefined) sharedIndices.push(index)
    else {
      own.indices.push(index)
      own.points.push(point)
    }
  }
  return { owns: [...byPart.values()], sharedIndices }
}

/** Mass of all configurations in which nothing is there that lifts a banned part. */
function noneLifted(
  { shared, parts, condensed }: Prepared,
  { problem, mass, ratios }: Anew,
  banned: ReadonlySet<number>,
): number {
  const { liftSet, liftSets, untouched, untouchedSets, caseAt } = condensed
  const spatials = spatialsIn(problem)
  const spatialRatio = new Map<number, number>()
  for (const { index, untouching } of [...shared.grounds, ...shared.others]) {
    const reduced = spatials[index]
    if (reduced === undefined) continue
    spatialRatio.set(index, untouching > 0 ? untouchingWithout(reduced, banned) / untouching : 1)
  }
  const ofUntouched = untouchedSets.map((set) => set.reduce((product, at) => product * (spatialRatio.get(at) ?? 1), 1))
  const allowed = liftSets.map((set) => !set.some((part) => banned.has(part)))
  const factors = parts.flatMap((part, at) => {
    const ratio = ratioWithout(problem, part, ratios[at] ?? part.ratios, condensed.caseNumbers[at] ?? [], banned)
    const cases = caseAt[at]
    return ratio === undefined || cases === undefined ? [] : [{ ratio, cases }]
  })
  let total = 0
  for (let at = 0; at < mass.length; at++) {
    if (allowed[liftSet[at] ?? 0] !== true) continue
    let share = (mass[at] ?? 0) * (ofUntouched[untouched[at] ?? 0] ?? 1)
    for (let i = 0; i < factors.length; i++) {
      const factor = factors[i]
      if (factor !== undefined) share *= factor.ratio[factor.cases[at] ?? 0] ?? 1
    }
    total += share
  }
  return total
}

/** By case of a part: its sum without the own causes that lift a banned part, over its plain sum; undefined where equal. */
function ratioWithout(
  problem: Problem,
  { own, sum, table, ratios: before }: OwnPart,
  anew: Map<string, Float64Array>,
  cases: readonly number[],
  banned: ReadonlySet<number>,
): Float64Array | undefined {
  const points = own.indices.flatMap((index) => problem.points[index] ?? [])
  const barred = points.map((point) => point.cause.lifts.some((part) => banned.has(part)))
  const asBefore = points.every((point, at) => point === own.points[at])
  if (asBefore && !barred.includes(true)) return undefined
  const key = barred.join()
  const kept = asBefore ? before : anew
  const known = kept.get(key)
  if (known !== undefined) return known
  const causes = asBefore ? own : { ...own, points }
  const without = ownSum(causes, problem.leak, (point) => (barred[points.indexOf(point)] ? false : undefined))
  const ratio = Float64Array.from(cases, (number) => {
    const whole = table.value(sum, number)
    return whole > 0 ? table.value(without, number) / whole : 0
  })
  kept.set(key, ratio)
  return ratio
}

function pointPosteriors(
  problem: Problem,
  parts: readonly OwnPart[],
  kept: readonly Configuration[],
  condensed: Condensed,
  sharedIndices: readonly number[],
  norm: number,
): Float64Array {
  const posterior = new Float64Array(problem.points.length)
  for (const { set, mass } of kept) {
    for (const at of set.members) {
      const index = sharedIndices[at] ?? -1
      posterior[index] = (posterior[index] ?? 0) + mass * norm
    }
  }
  for (const [at, { own, sum, table }] of parts.entries()) {
    const numbers = condensed.caseNumbers[at] ?? []
    const massOfCase = new Float64Array(numbers.length)
    for (let i = 0; i < condensed.mass.length; i++) {
      const place = condensed.caseAt[at]?.[i] ?? 0
      massOfCase[place] = (massOfCase[place] ?? 0) + (condensed.mass[i] ?? 0) * norm
    }
    for (const index of own.indices) {
      const there = ownSum(own, problem.leak, (_, other) => (other === index ? true : undefined))
      let total = 0
      for (const [place, number] of numbers.entries()) {
        const mass = massOfCase[place] ?? 0
        const whole = table.value(sum, number)
        if (whole > 0 && mass > NEGLIGIBLE) total += (mass * table.value(there, number)) / whole
      }
      posterior[index] = total
    }
  }
  return posterior
}

function groupPosteriors(shared: Shared, kept: readonly Configuration[], norm: number): Float64Array[] {
  const spatials = [...shared.grounds, ...shared.others].toSorted((a, b) => a.index - b.index)
  const result = spatials.map(({ reduced }) => new Float64Array(reduced.groups.length))
  const untouched = new Float64Array(spatials.length).fill(1)
  for (const { places, mass } of kept) {
    for (const { chosen } of places) {
      for (const { spatial, group } of chosen) {
        const own = result[spatial]
        if (own === undefined) continue
        own[group] = (own[group] ?? 0) + mass * norm
        untouched[spatial] = (untouched[spatial] ?? 0) - mass * norm
      }
    }
  }
  for (const [at, { reduced, untouching }] of spatials.entries()) {
    for (const [group, { firing, weight }] of reduced.groups.entries()) {
      if (firing.bits.length > 0 || untouching <= 0) continue
      const own = result[at]
      if (own !== undefined) own[group] = (Math.max(0, untouched[at] ?? 0) * weight) / untouching
    }
  }
  return result
}
