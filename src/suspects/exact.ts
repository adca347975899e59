/**
 * Exact inference for few bad findings (up to about a dozen): distributions over the set of findings explained so far.
 * Everything but the moving spill is combined once and kept; the spill then costs 2^(findings it touches) a group.
 */
import {
  addScaled,
  type CoverScratch,
  coverInto,
  coverScratch,
  dot,
  type Firing,
  fireBack,
  firedInto,
} from './lattice.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'
import { massesWithout, spatialMasses, type Standing } from './standing.ts'

/** A state whose posterior can't exceed this counts as impossible: its weight over the evidence bounds it. */
const NEGLIGIBLE = 1e-14

export function judgeExactly(problem: Problem, standing: Standing): Posterior {
  const { moving, n } = problem
  const mass = standing.without([])
  const cover = moving === undefined ? nothingMoves(n) : coverOf(n, moving, mass)
  const evidence = dot(mass, cover.all)
  const norm = evidence > 0 ? 1 / evidence : 0
  const points = Float64Array.from(standing.withPoint, (present) => dot(present, cover.all) * norm)
  const groups = problem.standing.map((spatial, index) => {
    const rest = standing.withoutSpatial[index]
    return rest === undefined ? new Float64Array(0) : standingGroups(spatial, rest, cover.all, norm)
  })
  if (moving !== undefined) groups.push(cover.groups.map((joint) => joint * norm))
  const noneLifted = (parts: readonly number[]): number => dot(standing.without(parts), cover.without(parts)) * norm
  return { evidence, points, groups, noneLifted, leftOut: [] }
}

/**
 * For problems that weigh the causes of one problem anew (a further outcome): what stays as it was is summed once.
 * @returns for such a problem, the mass of everything in which nothing is there that lifts one of some parts
 */
export function exactMasses(problem: Problem): (weighedAnew: Problem) => (parts: readonly number[]) => number {
  const coverFor = ({ n, moving }: Problem): Cover =>
    moving === undefined ? nothingMoves(n) : coverOf(n, moving, new Float64Array(1 << n))
  const spatialBefore = spatialMasses(problem)
  const coverBefore = coverFor(problem)
  return (anew) => {
    const isStanding = anew.standing.every((spatial, index) => spatial === problem.standing[index])
    const without = massesWithout(anew, isStanding ? spatialBefore : spatialMasses(anew))
    const cover = anew.moving === problem.moving ? coverBefore : coverFor(anew)
    return (parts) => dot(without(parts), cover.without(parts))
  }
}

interface Cover {
  /** By explained set: the probability that the moving spill makes (at least) the rest bad. */
  readonly all: Float64Array
  /** The same without the groups that lift one of these parts. */
  readonly without: (parts: readonly number[]) => Float64Array
  /** By group of the moving spill: its probability together with the bad findings. */
  readonly groups: Float64Array
}

function nothingMoves(n: number): Cover {
  const all = new Float64Array(1 << n)
  all[all.length - 1] = 1
  return { all, without: () => all, groups: new Float64Array(0) }
}

function coverOf(n: number, moving: ReducedSpatial, mass: Float64Array): Cover {
  const size = 1 << n
  const scratch = coverScratch(n)
  const buckets: (Float64Array | undefined)[] = []
  const groups = new Float64Array(moving.groups.length)
  for (let at = 0; at < groups.length; at++) {
    const group = moving.groups[at]
    if (group === undefined || group.weight === 0) continue
    const bucket = buckets[group.liftSet] ?? new Float64Array(size)
    buckets[group.liftSet] = bucket
    const count = coverInto(scratch, size - 1, group.firing)
    groups[at] = addCover(bucket, mass, scratch, count, group.weight)
  }
  const without = (parts: readonly number[]): Float64Array => {
    const sum = new Float64Array(size)
    sum[size - 1] = moving.absent
    for (let set = 0; set < buckets.length; set++) {
      const bucket = buckets[set]
      if (bucket === undefined || moving.liftSets[set]?.some((part) => parts.includes(part))) continue
      addScaled(sum, bucket, 1)
    }
    return sum
  }
  return { all: without([]), without, groups }
}

/** Adds a group's cover to its bucket; answers the group's probability together with the bad findings. */
function addCover(
  bucket: Float64Array,
  mass: Float64Array,
  scratch: CoverScratch,
  count: number,
  weight: number,
): number {
  const { sets, values } = scratch
  let joint = 0
  for (let entry = 0; entry < count; entry++) {
    const set = sets[entry] ?? 0
    const value = weight * (values[entry] ?? 0)
    bucket[set] = (bucket[set] ?? 0) + value
    joint += value * (mass[set] ?? 0)
  }
  return joint
}

/** Up to so many bad findings a table by fired set (4^n products, once) is cheaper than a transform for each group. */
const TABLE_UP_TO = 9

function standingGroups(spatial: ReducedSpatial, rest: Float64Array, cover: Float64Array, norm: number): Float64Array {
  const n = Math.log2(cover.length)
  const jointOf = n <= TABLE_UP_TO ? jointByTable(n, rest, cover) : jointByTransform(rest, cover)
  const result = new Float64Array(spatial.groups.length)
  for (let at = 0; at < result.length; at++) {
    const group = spatial.groups[at]
    if (group === undefined || group.weight * norm < NEGLIGIBLE) continue
    result[at] = group.weight * jointOf(group.firing) * norm
  }
  return result
}

/** Probability of the bad findings if a state fires: the others explain `rest`, and `cover` is still to come. */
function jointByTransform(rest: Float64Array, cover: Float64Array): (firing: Firing) => number {
  const values = new Float64Array(cover.length)
  return (firing) => {
    values.set(cover)
    fireBack(values, firing)
    return dot(rest, values)
  }
}

function jointByTable(n: number, rest: Float64Array, cover: Float64Array): (firing: Firing) => number {
  const byFired = new Float64Array(cover.length)
  for (let fired = 0; fired < byFired.length; fired++) {
    let sum = 0
    for (let set = 0; set < rest.length; set++) sum += (rest[set] ?? 0) * (cover[set | fired] ?? 0)
    byFired[fired] = sum
  }
  const scratch = coverScratch(n)
  return (firing) => {
    const count = firedInto(scratch, firing)
    let sum = 0
    for (let entry = 0; entry < count; entry++) {
      sum += (scratch.values[entry] ?? 0) * (byFired[scratch.sets[entry] ?? 0] ?? 0)
    }
    return sum
  }
}
