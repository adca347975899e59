/** One card, weighed: what the words and the lift list are made from. */
import type { Assumptions } from './assumptions.ts'
import type { LiftQuestion } from './lift-list.ts'
import type { Posterior, Problem } from './posterior.ts'
import type { ReducedSpatial } from './reduce.ts'
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
  const { setting, posterior } = weighed
  const idle = (parts: readonly number[]): number => {
    let none = 1
    for (const { cause, probability } of setting.idle) {
      if (cause.lifts.some((part) => parts.includes(part))) none *= 1 - probability
    }
    return none
  }
  const noneNeeds = (parts: readonly number[]): number => posterior.noneLifted(parts) * idle(parts)
  const probability = Float64Array.from(setting.frame.network.parts, (_, part) =>
    Math.min(1, Math.max(0, 1 - noneNeeds([part]))),
  )
  return { probability, liftCost, comebackCost, noneNeeds }
}

/** One kind of reason why a part may need lifting, or why its lanes may fail. */
export interface Reason {
  readonly at: CauseAt
  readonly probability: number
}

/** Probability that a spatial cause is in a state that lifts the part. */
export function reachOf(spatial: ReducedSpatial, posterior: Float64Array, part: number): number {
  let sum = 0
  for (const [group, { lifts }] of spatial.groups.entries()) {
    if (lifts.includes(part)) sum += posterior[group] ?? 0
  }
  return Math.min(1, sum)
}

/** What may make the part need lifting, likeliest first. */
export function reasonsToLift(weighed: Weighed, part: number): Reason[] {
  const { problem, posterior, setting } = weighed
  const points = problem.points.flatMap(({ cause }, index) =>
    cause.lifts.includes(part) ? [{ at: cause.at, probability: posterior.points[index] ?? 0 }] : [],
  )
  const idle = setting.idle.flatMap(({ cause, probability }) =>
    cause.lifts.includes(part) ? [{ at: cause.at, probability }] : [],
  )
  const spatials = spatialsOf(problem).flatMap((spatial, index) => {
    const probability = reachOf(spatial, posterior.groups[index] ?? new Float64Array(0), part)
    const [label] = spatial.cause.labels
    if (label === undefined || probability === 0) return []
    const anywhere = spatial.cause.labels.length > 1 ? { ...label, at: anywhereWord(label) } : label
    return [{ at: anywhere, probability }]
  })
  return [...points, ...idle, ...spatials].sort((a, b) => b.probability - a.probability)
}

const anywhereWord = (label: CauseAt): string =>
  label.kind === 'core-patch' ? `a patch of ${label.refs[0] ?? 'the core'}` : 'anywhere'

/** What touches a failing lane of the part but would not need it lifted, likeliest first. */
export function otherExplanations(weighed: Weighed, ref: string, part: number): Reason[] {
  const { problem, posterior } = weighed
  const bits = new Set([...problem.partOfBit.keys()].filter((bit) => problem.partOfBit[bit] === ref))
  const touches = (own: Uint8Array): boolean => own.some((bit) => bits.has(bit))
  const points = problem.points.flatMap(({ cause, firing }, index) =>
    touches(firing.bits) && !cause.lifts.includes(part)
      ? [{ at: cause.at, probability: posterior.points[index] ?? 0 }]
      : [],
  )
  const spatials = spatialsOf(problem).flatMap((spatial, index) => {
    let probability = 0
    for (const [group, { firing, lifts }] of spatial.groups.entries()) {
      if (touches(firing.bits) && !lifts.includes(part)) probability += posterior.groups[index]?.[group] ?? 0
    }
    const [label] = spatial.cause.labels
    if (label === undefined || probability === 0) return []
    return [{ at: spatial.cause.labels.length > 1 ? { ...label, at: anywhereWord(label) } : label, probability }]
  })
  return [...points, ...spatials].sort((a, b) => b.probability - a.probability)
}
