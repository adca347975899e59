/**
 * The noisy-OR network of one card: findings that are bad or good, causes that are there or not, and spatial causes
 * that are in one of many states. A finding is good with probability (1 - leak) · Π (1 - q) over what touches it.
 */
import type { CauseAt, CauseKind } from './result.ts'

/** A lane that was tested, an area that was looked at, a rail or stage that was measured, a check that was done. Untested ones are not findings. */
export interface Finding {
  readonly id: string
  readonly kind: 'lane' | 'area' | 'rail' | 'stage' | 'check'
  readonly bad: boolean
  /** Only asked for: its outcome is not known, and it says nothing yet. */
  readonly asked?: true
  readonly leak: number
  /** Memory part that a lane belongs to. */
  readonly part: string | undefined
}

/** What a cause does to a finding: index into the findings, and the probability that it makes it bad. */
export interface Touch {
  readonly finding: number
  readonly q: number
}

export interface PointCause {
  readonly kind: CauseKind
  readonly at: CauseAt
  readonly prior: number
  readonly touches: readonly Touch[]
  /** Indices into `Network.parts`: what must come off if the cause is there. */
  readonly lifts: readonly number[]
}

/** One state of a spatial cause: what it covers. */
export interface SpatialState {
  readonly weight: number
  readonly regions: Uint16Array
  readonly corridors: Uint16Array
  readonly areas: Uint16Array
}

/** What covering one region, corridor or area does. */
export interface Item {
  readonly touches: readonly Touch[]
  /** Index into `Network.parts` of the part that must come off, or -1. */
  readonly part: number
}

export interface SpatialCause {
  readonly kind: CauseKind
  /** Probability that it is there at all; the weights of the states sum to one. */
  readonly prior: number
  readonly states: readonly SpatialState[]
  /** Places that stories tell apart. */
  readonly labels: readonly CauseAt[]
  /** Row by state, column by label: which share of the state's weight lies there; rows sum to one. */
  readonly labelShare: Float64Array
  readonly regionItems: readonly Item[]
  readonly corridorItems: readonly Item[]
  readonly areaItems: readonly Item[]
}

export interface Network {
  readonly findings: readonly Finding[]
  readonly points: readonly PointCause[]
  readonly spatials: readonly SpatialCause[]
  /** Refs of the parts that can come off. */
  readonly parts: readonly string[]
  /** P(signature | kind) / P(signature | unknown), for a part that has a bad lane. */
  readonly signatureRatio: (part: string, kind: CauseKind) => number
}
