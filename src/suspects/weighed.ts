/** One card, weighed: what the words and the lift list are made from. */
import type { Assumptions } from './assumptions.ts'
import type { LiftQuestion } from './lift-list.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedPoint, ReducedSpatial } from './reduce.ts'
import type { CauseAt, Findings } from './result.ts'
import type { ReportedSpill, Setting } from './setting.ts'

export interface Weighed {
  readonly findings: Findings
  readonly spills: readonly ReportedSpill[]
  readonly assumptions: Assumptions
  readonly setting: Setting
  readonly problem: Problem
  readonly posterior: Posterior
}

/** Spatial causes in the order of `Posterior.groups`. */
export const spatialsOf = (problem: Problem): ReducedSpatial[] =>
  problem.moving === undefined ? [...problem.standing] : [...problem.standing, problem.moving]

/** Probability that each part needs lifting, and the exact joint probability that none of some does. */
export function liftQuestion(weighed: Weighed, liftCost: Float64Array, comebackCost: number): LiftQuestion {
  const { setting, posterior, problem } = weighed
  const parts = setting.frame.network.parts
  const idle = idleNone(setting.idle, parts.length)
  const touched = liftedByTouching(problem)
  const noneNeeds = (asked: readonly number[]): number => {
    const relevant = asked.filter((part) => touched.has(part))
    return (relevant.length === 0 ? 1 : posterior.noneLifted(relevant)) * idle(asked)
  }
  const probability = Float64Array.from(parts, (_, part) => Math.min(1, Math.max(0, 1 - noneNeeds([part]))))
  return { probability, liftCost, comebackCost, noneNeeds }
}

/** Probability that no idle cause (which touches nothing bad) lifts any of some parts. */
export function idleNone(idle: readonly ReducedPoint[], count: number): (asked: readonly number[]) => number {
  const single = new Float64Array(count).fill(1)
  const several: ReducedPoint[] = []
  for (const point of idle) {
    const [part] = point.cause.lifts
    if (part === undefined) continue
    if (point.cause.lifts.length > 1) several.push(point)
    else single[part] = (single[part] ?? 1) * (1 - point.probability)
  }
  return (asked) => {
    let none = 1
    for (const part of asked) none *= single[part] ?? 1
    for (const { cause, probability } of several) {
      if (cause.lifts.some((part) => asked.includes(part))) none *= 1 - probability
    }
    return none
  }
}

/** Parts that something which touches a bad finding lifts, or a spatial cause. */
export function liftedByTouching(problem: Problem): ReadonlySet<number> {
  const touched = new Set<number>()
  for (const { cause } of problem.points) for (const part of cause.lifts) touched.add(part)
  for (const spatial of spatialsOf(problem))
    for (const set of spatial.liftSets) for (const part of set) touched.add(part)
  return touched
}

/** What one spatial cause means for each part (by index among the network's parts). */
export interface SpatialShare {
  readonly spatial: ReducedSpatial
  /** Probability that it is in a state that lifts the part. */
  readonly lifts: Float64Array
  /** Probability that it touches a bad lane of the part without lifting it. */
  readonly explains: Float64Array
}

export function spatialShares(weighed: Weighed): SpatialShare[] {
  const { problem, posterior, setting } = weighed
  const indexOf = new Map(setting.frame.network.parts.map((ref, index) => [ref, index]))
  const partOfBit = Int32Array.from(problem.partOfBit, (ref) => indexOf.get(ref) ?? -1)
  return spatialsOf(problem).map((spatial, at) => {
    const lifts = new Float64Array(indexOf.size)
    const explains = new Float64Array(indexOf.size)
    const seen = new Int32Array(indexOf.size).fill(-1)
    for (const [number, group] of spatial.groups.entries()) {
      const probability = posterior.groups[at]?.[number] ?? 0
      if (probability === 0) continue
      for (const part of group.lifts) {
        lifts[part] = (lifts[part] ?? 0) + probability
        seen[part] = number
      }
      for (let i = 0; i < group.firing.bits.length; i++) {
        const part = partOfBit[group.firing.bits[i] ?? 0] ?? -1
        if (part < 0 || seen[part] === number) continue
        seen[part] = number
        explains[part] = (explains[part] ?? 0) + probability
      }
    }
    return { spatial, lifts, explains }
  })
}

/** One kind of reason why a part may need lifting, or why its lanes may fail. */
export interface Reason {
  readonly at: CauseAt
  readonly probability: number
}

const byProbability = (a: Reason, b: Reason): number => b.probability - a.probability

/** What may make the part need lifting with at least `least`, likeliest first. */
export function reasonsToLift(weighed: Weighed, shares: readonly SpatialShare[], part: number, least: number) {
  const reasons: Reason[] = []
  for (const [index, { cause }] of weighed.problem.points.entries()) {
    const probability = weighed.posterior.points[index] ?? 0
    if (probability >= least && cause.lifts.includes(part)) reasons.push({ at: cause.at, probability })
  }
  for (const { cause, probability } of weighed.setting.idle) {
    if (probability >= least && cause.lifts.includes(part)) reasons.push({ at: cause.at, probability })
  }
  for (const { spatial, lifts } of shares) pushSpatial(reasons, spatial, lifts[part] ?? 0, least)
  return reasons.toSorted(byProbability)
}

/** What touches a failing lane of the part but would not need it lifted, likeliest first. */
export function otherExplanations(
  weighed: Weighed,
  shares: readonly SpatialShare[],
  ref: string,
  part: number,
  least: number,
): Reason[] {
  const { problem, posterior } = weighed
  const reasons: Reason[] = []
  for (const [index, { cause, firing }] of problem.points.entries()) {
    const probability = posterior.points[index] ?? 0
    if (probability < least || cause.lifts.includes(part)) continue
    if (firing.bits.some((bit) => problem.partOfBit[bit] === ref)) reasons.push({ at: cause.at, probability })
  }
  for (const { spatial, explains } of shares) pushSpatial(reasons, spatial, explains[part] ?? 0, least)
  return reasons.toSorted(byProbability)
}

function pushSpatial(reasons: Reason[], spatial: ReducedSpatial, probability: number, least: number): void {
  const [label] = spatial.cause.labels
  if (label === undefined || probability < least) return
  reasons.push({ at: spatial.cause.labels.length > 1 ? { ...label, at: anywhereWord(label) } : label, probability })
}

const anywhereWord = (label: CauseAt): string =>
  label.kind === 'core-patch' ? `a patch of ${label.refs[0] ?? 'the core'}` : 'anywhere'
