/**
 * Inference for many bad findings: configurations of the causes that parts share are enumerated, and given one, each
 * part sums over its own causes exactly. What the enumeration leaves out is said.
 */
import { type Configuration, enumerateShared, type Shared } from './configurations.ts'
import { type OwnCauses, type OwnSum, ownSum } from './part-sum.ts'
import type { PartTable } from './part-table.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint } from './reduce.ts'
import { sharedSpatials, untouchingWithout } from './shared.ts'

const NEGLIGIBLE = 1e-9

/** A part with what only it suffers from. */
interface OwnPart {
  readonly own: OwnCauses
  readonly sum: OwnSum
  readonly table: PartTable
}

export function judgeByPackage(problem: Problem): Posterior {
  const { owns, sharedIndices } = splitByPart(problem)
  const sums = owns.map((own) => ownSum(own, problem.leak, () => undefined))
  const points = sharedIndices.flatMap((index) => problem.points[index] ?? [])
  const shared: Shared = { n: problem.n, points, ...sharedSpatials(problem) }
  const { configurations, tables, leftOut } = enumerateShared(shared, sums)
  const evidence = configurations.reduce((total, { mass }) => total + mass, 0)
  const norm = evidence > 0 ? 1 / evidence : 0
  const kept = configurations.filter(({ mass }) => mass > 0 && mass * norm >= NEGLIGIBLE / 1000)
  const parts = owns.flatMap((own, at) => {
    const sum = sums[at]
    const table = tables[at]
    return sum === undefined || table === undefined ? [] : [{ own, sum, table }]
  })
  return {
    evidence,
    points: pointPosteriors(problem, parts, kept, sharedIndices, norm),
    groups: groupPosteriors(shared, kept, norm),
    noneLifted: (asked) => noneLifted(problem, shared, parts, kept, new Set(asked)) * norm,
    leftOut,
  }
}

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
  problem: Problem,
  shared: Shared,
  parts: readonly OwnPart[],
  kept: readonly Configuration[],
  banned: ReadonlySet<number>,
): number {
  const lifts = (list: readonly number[]): boolean => list.some((part) => banned.has(part))
  const decided = (point: ReducedPoint): false | undefined => (lifts(point.cause.lifts) ? false : undefined)
  const changed = parts.flatMap(({ own, sum, table }, at) =>
    own.points.some((point) => lifts(point.cause.lifts))
      ? [{ at, sum, table, without: ownSum(own, problem.leak, decided) }]
      : [],
  )
  const ratios = new Map<number, number>()
  for (const { reduced, index, untouching } of [...shared.grounds, ...shared.others]) {
    ratios.set(index, untouching > 0 ? untouchingWithout(reduced, banned) / untouching : 1)
  }
  let total = 0
  for (const { set, places, cases, mass } of kept) {
    if (places.some((place) => lifts(place.lifts))) continue
    if (set.members.some((at) => lifts(shared.points[at]?.cause.lifts ?? []))) continue
    let share = mass
    for (const [index, ratio] of ratios) if (!isChosen(places, index)) share *= ratio
    for (const { at, sum, table, without } of changed) {
      const whole = table.value(sum, cases[at] ?? 0)
      share *= whole > 0 ? table.value(without, cases[at] ?? 0) / whole : 0
    }
    total += share
  }
  return total
}

const isChosen = (places: Configuration['places'], spatial: number): boolean =>
  places.some(({ chosen }) => chosen.some((choice) => choice.spatial === spatial))

function pointPosteriors(
  problem: Problem,
  parts: readonly OwnPart[],
  kept: readonly Configuration[],
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
    const massOfCase = new Map<number, number>()
    for (const { cases, mass } of kept) {
      const number = cases[at] ?? 0
      massOfCase.set(number, (massOfCase.get(number) ?? 0) + mass * norm)
    }
    for (const index of own.indices) {
      const there = ownSum(own, problem.leak, (_, other) => (other === index ? true : undefined))
      let total = 0
      for (const [number, mass] of massOfCase) {
        const whole = table.value(sum, number)
        if (whole > 0 && mass > NEGLIGIBLE) total += (mass * table.value(there, number)) / whole
      }
      posterior[index] = total
    }
  }
  return posterior
}

function groupPosteriors(shared: Shared, kept: readonly Configuration[], norm: number): Float64Array[] {
  const spatials = [...shared.grounds, ...shared.others].sort((a, b) => a.index - b.index)
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
