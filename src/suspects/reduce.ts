/**
 * From the whole network to what matters for the bad findings, exactly. Good findings and causes that touch no bad
 * finding are summed out in closed form: a cause's weight is multiplied by Π (1 - q) over the good findings that it
 * touches. States of a spatial cause that do the same to the bad findings and lift the same parts merge.
 */
import type { Firing } from './lattice.ts'
import type { Item, Network, PointCause, SpatialCause, Touch } from './network.ts'

/** A point cause given all good findings and signatures: independent of the others but for the bad findings. */
export interface ReducedPoint {
  readonly cause: PointCause
  /** Probability that it is there, by the good findings alone. */
  readonly probability: number
  readonly firing: Firing
}

/** States of a spatial cause that do the same. */
export interface ReducedGroup {
  /** Share among all states and absence; by the good findings alone. */
  readonly weight: number
  readonly firing: Firing
  /** Parts that it lifts, ascending, and the number of that set in `liftSets`. */
  readonly lifts: readonly number[]
  readonly liftSet: number
}

export interface ReducedSpatial {
  readonly cause: SpatialCause
  readonly absent: number
  readonly groups: readonly ReducedGroup[]
  readonly liftSets: readonly (readonly number[])[]
  /** Group of each state of the cause, and the state's own share of the total (as `ReducedGroup.weight`). */
  readonly groupOf: Uint32Array
  readonly stateWeight: Float64Array
  /** Row by group, column by label: weight of the group that lies under the label. */
  readonly labelWeight: Float64Array
}

export const NO_FIRING: Firing = { bits: new Uint8Array(0), q: new Float64Array(0) }

/** What does not depend on any one spill: which findings are bad bits, which areas fold into one spatial cause. */
export interface Frame {
  readonly network: Network
  readonly bad: readonly number[]
  readonly leak: Float64Array
  /** Bit of each finding, or -1. */
  readonly bitOf: Int16Array
  /** Bad findings that only one spatial cause touches: index of that cause. They weigh its states and are no bits. */
  readonly foldedInto: ReadonlyMap<number, number>
}

export function frameOf(network: Network): Frame {
  const pointTouched = new Set(network.points.flatMap((cause) => cause.touches.map((touch) => touch.finding)))
  const bitOf = new Int16Array(network.findings.length).fill(-1)
  const foldedInto = new Map<number, number>()
  const bad: number[] = []
  for (const [index, finding] of network.findings.entries()) {
    if (!finding.bad) continue
    const touching = network.spatials.flatMap((cause, spatial) => (touchesFinding(cause, index) ? [spatial] : []))
    const only = touching.length === 1 ? touching[0] : undefined
    if (finding.kind === 'area' && only !== undefined && !pointTouched.has(index)) foldedInto.set(index, only)
    else if (touching.length > 0 || pointTouched.has(index)) {
      bitOf[index] = bad.length
      bad.push(index)
    }
  }
  const leak = Float64Array.from(bad, (index) => network.findings[index]?.leak ?? 0)
  return { network, bad, leak, bitOf, foldedInto }
}

function touchesFinding(cause: SpatialCause, finding: number): boolean {
  if (cause.states.length === 0) return false
  const touches = (item: Item): boolean => item.touches.some((touch) => touch.finding === finding)
  return cause.regionItems.some(touches) || cause.corridorItems.some(touches) || cause.areaItems.some(touches)
}

export function reducePoints(frame: Frame): { points: ReducedPoint[]; idle: ReducedPoint[] } {
  const points: ReducedPoint[] = []
  const idle: ReducedPoint[] = []
  for (const cause of frame.network.points) {
    const { goodFactor, firing } = split(frame, cause.touches)
    const present = cause.prior * goodFactor * signatureFactor(frame, cause, firing)
    const absent = 1 - cause.prior
    const probability = present + absent > 0 ? present / (present + absent) : 1
    ;(firing.bits.length > 0 ? points : idle).push({ cause, probability, firing })
  }
  return { points, idle }
}

function split(frame: Frame, touches: readonly Touch[]): { goodFactor: number; firing: Firing } {
  let goodFactor = 1
  const bits: number[] = []
  const q: number[] = []
  for (const touch of touches) {
    const finding = frame.network.findings[touch.finding]
    if (finding?.asked !== true && !finding?.bad) goodFactor *= 1 - touch.q
    const bit = frame.bitOf[touch.finding] ?? -1
    if (bit < 0 || touch.q <= 0) continue
    bits.push(bit)
    q.push(touch.q)
  }
  return {
    goodFactor,
    firing: bits.length === 0 ? NO_FIRING : { bits: Uint8Array.from(bits), q: Float64Array.from(q) },
  }
}

/** Product of the signature's ratio over the parts of which the cause touches a bad lane. */
export function signatureFactor(frame: Frame, cause: { readonly kind: PointCause['kind'] }, firing: Firing): number {
  const parts = new Set<string>()
  for (const bit of firing.bits) {
    const part = frame.network.findings[frame.bad[bit] ?? -1]?.part
    if (part !== undefined) parts.add(part)
  }
  let factor = 1
  for (const part of parts) factor *= frame.network.signatureRatio(part, cause.kind)
  return factor
}
