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
  fire,
  fireBack,
  firedInto,
  scale,
} from './lattice.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'

/** A state whose posterior can't exceed this counts as impossible: its weight over the evidence bounds it. */
const NEGLIGIBLE = 1e-14

/** Everything that does not depend on the moving spill. */
export interface Standing {
  readonly n: number
  /** For each point cause: mass with the cause there, by explained set. */
  readonly withPoint: readonly Float64Array[]
  /** For each standing spatial cause: what all the others explain. */
  readonly withoutSpatial: readonly Float64Array[]
  /** Mass by explained set, with nothing there that lifts one of these parts. */
  readonly without: (parts: readonly number[]) => Float64Array
}

export function createStanding(problem: Omit<Problem, 'moving'>): Standing {
  const { n, points, standing } = problem
  const spatialOf = (left: ReducedSpatial | undefined): Float64Array => {
    const mass = started(problem)
    for (const spatial of standing) if (spatial !== left) replace(mass, spread(mass, spatial))
    return mass
  }
  const withPoint: Float64Array[] = points.map(() => new Float64Array(0))
  leaveEachOut(spatialOf(undefined), points, 0, points.length, (index, mass) => {
    const point = points[index]
    if (point === undefined) return
    fire(mass, point.firing)
    scale(mass, point.probability)
    withPoint[index] = mass
  })
  const withoutSpatial = standing.map((spatial) => {
    const mass = spatialOf(spatial)
    for (const point of points) applyPoint(mass, point)
    return mass
  })
  const buckets = bucketsOf(problem)
  const kept = new Map<string, Float64Array>()
  const without = (parts: readonly number[]): Float64Array => {
    const key = parts.join()
    const known = kept.get(key)
    if (known !== undefined) return known
    const mass = massWithout(problem, buckets, parts)
    if (kept.size > 500) kept.clear()
    kept.set(key, mass)
    return mass
  }
  return { n, withPoint, withoutSpatial, without }
}

/** All mass on "nothing explained", then the leaks. */
function started(problem: Omit<Problem, 'moving'>): Float64Array {
  const mass = new Float64Array(1 << problem.n)
  mass[0] = 1
  fire(mass, { bits: Uint8Array.from(problem.leak.keys()), q: problem.leak })
  return mass
}

function massWithout(
  problem: Omit<Problem, 'moving'>,
  buckets: readonly Float64Array[],
  parts: readonly number[],
): Float64Array {
  const banned = new Set(parts)
  const [largest, ...others] = bySize(problem.standing)
  const mass = largest === undefined ? started(problem) : sumOfBuckets(problem, largest, buckets, banned)
  for (const point of problem.points) {
    if (point.cause.lifts.some((part) => banned.has(part))) scale(mass, 1 - point.probability)
    else applyPoint(mass, point)
  }
  for (const spatial of others) replace(mass, spread(mass, spatial, banned))
  return mass
}

/** The spatial cause with most groups first: it is kept by lift set, so that banning parts only leaves out some sums. */
const bySize = (spatials: readonly ReducedSpatial[]): ReducedSpatial[] =>
  [...spatials].toSorted((a, b) => b.groups.length - a.groups.length)

/** By lift set of the largest standing spatial cause: what leaks and its states explain. */
function bucketsOf(problem: Omit<Problem, 'moving'>): Float64Array[] {
  const [largest] = bySize(problem.standing)
  if (largest === undefined) return []
  const start = started(problem)
  const buckets = largest.liftSets.map(() => new Float64Array(start.length))
  const fired = new Float64Array(start.length)
  for (const group of largest.groups) {
    const bucket = buckets[group.liftSet]
    if (bucket === undefined || group.weight === 0) continue
    fired.set(start)
    fire(fired, group.firing)
    addScaled(bucket, fired, group.weight)
  }
  return buckets
}

function sumOfBuckets(
  problem: Omit<Problem, 'moving'>,
  largest: ReducedSpatial,
  buckets: readonly Float64Array[],
  banned: ReadonlySet<number>,
): Float64Array {
  const mass = started(problem)
  scale(mass, largest.absent)
  for (const [set, bucket] of buckets.entries()) {
    if (!largest.liftSets[set]?.some((part) => banned.has(part))) addScaled(mass, bucket, 1)
  }
  return mass
}

const replace = (target: Float64Array, source: Float64Array): void => target.set(source)

function applyPoint(mass: Float64Array, point: ReducedPoint): void {
  const { bits, q } = point.firing
  if (bits.length === 1) {
    fire(mass, { bits, q: q.map((value) => value * point.probability) })
    return
  }
  const fired = mass.slice()
  fire(fired, point.firing)
  scale(mass, 1 - point.probability)
  addScaled(mass, fired, point.probability)
}

/** Mass after a spatial cause in any of its states, those apart that lift a banned part. */
function spread(mass: Float64Array, spatial: ReducedSpatial, banned?: ReadonlySet<number>): Float64Array {
  const result = new Float64Array(mass.length)
  let still = spatial.absent
  const fired = new Float64Array(mass.length)
  for (const group of spatial.groups) {
    if (group.weight === 0 || (banned !== undefined && group.lifts.some((part) => banned.has(part)))) continue
    if (group.firing.bits.length === 0) {
      still += group.weight
      continue
    }
    fired.set(mass)
    fire(fired, group.firing)
    addScaled(result, fired, group.weight)
  }
  addScaled(result, mass, still)
  return result
}

/** Calls `visit` for each point with the mass of `base` after all other points: halves again and again. */
function leaveEachOut(
  base: Float64Array,
  points: readonly ReducedPoint[],
  from: number,
  to: number,
  visit: (index: number, mass: Float64Array) => void,
): void {
  if (to - from < 1) return
  if (to - from === 1) {
    visit(from, base.slice())
    return
  }
  const middle = (from + to) >> 1
  const left = base.slice()
  for (const point of points.slice(middle, to)) applyPoint(left, point)
  leaveEachOut(left, points, from, middle, visit)
  const right = base.slice()
  for (const point of points.slice(from, middle)) applyPoint(right, point)
  leaveEachOut(right, points, middle, to, visit)
}

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
