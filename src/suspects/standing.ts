/**
 * What stands while a spill is dragged, combined once and kept: leaks, point causes, and the spatial causes that do not
 * move, as distributions over the set of bad findings explained so far.
 */
import { addScaled, fire, scale } from './lattice.ts'
import type { Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'

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
  return { n, withPoint, withoutSpatial, without: massesWithout(problem) }
}

/** Mass by explained set for banned parts. */
type MassFor = (parts: readonly number[]) => Float64Array

/**
 * Mass by explained set, with nothing there that lifts one of some parts; remembers what was asked before.
 * @param spatial what leaks and standing spatial causes come to, where that is known from a problem with the same ones
 */
export function massesWithout(problem: Omit<Problem, 'moving'>, spatial: MassFor = spatialMasses(problem)): MassFor {
  return remembered((parts) => {
    const banned = new Set(parts)
    const mass = spatial(parts).slice()
    for (const point of problem.points) {
      if (point.cause.lifts.some((part) => banned.has(part))) scale(mass, 1 - point.probability)
      else applyPoint(mass, point)
    }
    return mass
  })
}

/** The same for leaks and standing spatial causes alone, before any point cause. */
export function spatialMasses(problem: Omit<Problem, 'moving'>): MassFor {
  const [largest, ...others] = bySize(problem.standing)
  const known = new Map<string, { start: Float64Array; buckets: Float64Array[] }>()
  return remembered((parts) => {
    const banned = new Set(parts)
    const key = others.map((other) => other.liftSets.map((set) => (isAllowed(set, banned) ? 1 : 0)).join('')).join()
    let kept = known.get(key)
    if (kept === undefined) {
      const start = started(problem)
      for (const other of others) replace(start, spread(start, other, banned))
      kept = { start, buckets: largest === undefined ? [] : bucketsOf(start, largest) }
      known.set(key, kept)
    }
    return largest === undefined ? kept.start : sumOfBuckets(kept.start, largest, kept.buckets, banned)
  })
}

const isAllowed = (lifts: readonly number[], banned: ReadonlySet<number>): boolean =>
  !lifts.some((part) => banned.has(part))

function remembered(make: MassFor): MassFor {
  const kept = new Map<string, Float64Array>()
  return (parts) => {
    const key = parts.join()
    const known = kept.get(key)
    if (known !== undefined) return known
    const mass = make(parts)
    if (kept.size > 500) kept.clear()
    kept.set(key, mass)
    return mass
  }
}

/** All mass on "nothing explained", then the leaks. */
function started(problem: Omit<Problem, 'moving'>): Float64Array {
  const mass = new Float64Array(1 << problem.n)
  mass[0] = 1
  fire(mass, { bits: Uint8Array.from(problem.leak.keys()), q: problem.leak })
  return mass
}

/** The spatial cause with most groups first: it is kept by lift set, so that banning parts only leaves out some sums. */
const bySize = (spatials: readonly ReducedSpatial[]): ReducedSpatial[] =>
  [...spatials].toSorted((a, b) => b.groups.length - a.groups.length)

/** By lift set of the largest standing spatial cause: what its states explain beyond `start`. */
function bucketsOf(start: Float64Array, largest: ReducedSpatial): Float64Array[] {
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
  start: Float64Array,
  largest: ReducedSpatial,
  buckets: readonly Float64Array[],
  banned: ReadonlySet<number>,
): Float64Array {
  const mass = start.slice()
  scale(mass, largest.absent)
  for (const [set, bucket] of buckets.entries()) {
    if (isAllowed(largest.liftSets[set] ?? [], banned)) addScaled(mass, bucket, 1)
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
