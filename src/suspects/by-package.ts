/**
 * Inference for many bad findings: configurations of the causes that parts share are enumerated, and given one, each
 * part sums over its own causes exactly. What the enumeration leaves out is said.
 */
import { type Condensed, condense } from './condensed.ts'
import { type Configuration, enumerateShared, type Shared } from './configurations.ts'
import { type OwnCauses, type OwnSum, ownSum } from './part-sum.ts'
import type { PartTable } from './part-table.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint } from './reduce.ts'
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

export function judgeByPackage(problem: Problem): Posterior {
  const { owns, sharedIndices } = splitByPart(problem)
  const sums = owns.map((own) => ownSum(own, problem.leak, () => undefined))
  const points = sharedIndices.flatMap((index) => problem.points[index] ?? [])
  const shared: Shared = { n: problem.n, points, ...sharedSpatials(problem) }
  const { configurations: kept, evidence, tables, leftOut } = enumerateShared(shared, sums)
  const keptMass = kept.reduce((total, { mass }) => total + mass, 0)
  const norm = keptMass > 0 ? 1 / keptMass : 0
  const condensed = condense(kept, shared, tables.length)
  const parts = owns.flatMap((own, at) => {
    const sum = sums[at]
    const table = tables[at]
    return sum === undefined || table === undefined ? [] : [{ own, sum, table, ratios: new Map() }]
  })
  return {
    evidence,
    points: pointPosteriors(problem, parts, kept, condensed, sharedIndices, norm),
    groups: groupPosteriors(shared, kept, norm),
    noneLifted: (asked) => noneLifted(problem, shared, parts, condensed, new Set(asked)) * norm,
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
  condensed: Condensed,
  banned: ReadonlySet<number>,
): number {
  const { mass, liftSet, liftSets, untouched, untouchedSets, caseAt } = condensed
  const spatialRatio = new Map<number, number>()
  for (const { reduced, index, untouching } of [...shared.grounds, ...shared.others]) {
    spatialRatio.set(index, untouching > 0 ? untouchingWithout(reduced, banned) / untouching : 1)
  }
  const ofUntouched = untouchedSets.map((set) => set.reduce((product, at) => product * (spatialRatio.get(at) ?? 1), 1))
  const allowed = liftSets.map((set) => !set.some((part) => banned.has(part)))
  const share = new Float64Array(mass.length)
  for (let at = 0; at < mass.length; at++) {
    if (allowed[liftSet[at] ?? 0]) share[at] = (mass[at] ?? 0) * (ofUntouched[untouched[at] ?? 0] ?? 1)
  }
  for (const [at, part] of parts.entries()) {
    const ratio = ratioWithout(problem, part, condensed.caseNumbers[at] ?? [], banned)
    const cases = caseAt[at]
    if (ratio === undefined || cases === undefined) continue
    for (let i = 0; i < share.length; i++) share[i] = (share[i] ?? 0) * (ratio[cases[i] ?? 0] ?? 1)
  }
  return share.reduce((sum, value) => sum + value, 0)
}

/** By case of a part: its sum without the own causes that lift a banned part, over its plain sum; undefined where equal. */
function ratioWithout(
  problem: Problem,
  { own, sum, table, ratios }: OwnPart,
  cases: readonly number[],
  banned: ReadonlySet<number>,
): Float64Array | undefined {
  const barred = own.points.map((point) => point.cause.lifts.some((part) => banned.has(part)))
  if (!barred.includes(true)) return undefined
  const key = barred.join()
  const known = ratios.get(key)
  if (known !== undefined) return known
  const without = ownSum(own, problem.leak, (point) => (barred[own.points.indexOf(point)] ? false : undefined))
  const ratio = Float64Array.from(cases, (number) => {
    const whole = table.value(sum, number)
    return whole > 0 ? table.value(without, number) / whole : 0
  })
  ratios.set(key, ratio)
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
