/**
 * How the sum is divided: given what the shared variables do, memory packages are independent of each other. Each bad
 * observation is a bit of a group: its package's, or one of its own where it belongs to no package.
 */
import type { Signature } from '../../report/index.ts'
import type { Assumptions } from '../assumptions.ts'
import type { OwnCause } from '../network/cause.ts'
import { isBad, type Observation, type Observed } from '../network/observations.ts'
import type { CauseKind } from '../result.ts'

export type Look = 'cells' | 'line' | 'sparse' | 'whole'

export interface Group {
  /** Memory package, or undefined where the group is one observation by itself. */
  readonly part: string | undefined
  /** Observation of each bit. */
  readonly bits: readonly number[]
  readonly leak: Float64Array
  /** By bit: whether it is a lane; the look of a package is about its lanes alone. */
  readonly isLane: readonly boolean[]
  /** How the package's errors look; undefined where that is not known. */
  readonly look: Look | undefined
  /** Whether a lane is among the bits, or anything else that stories are about. */
  readonly told: boolean
}

export interface Frame {
  readonly list: readonly Observation[]
  readonly groups: readonly Group[]
  /** By observation: its group and its bit there, or -1. */
  readonly groupOf: Int32Array
  readonly bitOf: Int32Array
  /** By observation: number of the memory package that its lane belongs to, or -1. */
  readonly packageOf: Int32Array
  /** By number of a memory package: its group, or -1. */
  readonly groupOfPackage: Int32Array
  /** How likely each pair of margins is; sums to one. */
  readonly margins: readonly number[]
  /** P(look | kind), for kinds and for an unknown cause. */
  readonly looks: (kind: CauseKind | 'unknown', look: Look) => number
}

export interface FrameInput {
  readonly observed: Observed
  readonly own: readonly OwnCause[]
  readonly packages: readonly string[]
  readonly signatures: ReadonlyMap<string, Signature>
  readonly assumptions: Assumptions
  readonly margins: readonly number[]
  /** Whether anything could have left residue: without that, residue says nothing. */
  readonly spills: boolean
}

/**
 * Groups in the order of the observations, with which bit of which group each bad one is; -1 for one that was good.
 * Areas count only where something was spilled or may have been.
 */
export function frameOf(input: FrameInput): Frame {
  const { observed, packages, signatures, assumptions, margins, spills } = input
  const { list } = observed
  const bits = new Map<string, number[]>()
  for (const [index, observation] of list.entries()) {
    if (!isBad(observation) || (observation.kind === 'area' && !spills)) continue
    const key = observation.part === undefined ? `#${index}` : observation.part
    bits.set(key, [...(bits.get(key) ?? []), index])
  }
  const groupOf = new Int32Array(list.length).fill(-1)
  const bitOf = new Int32Array(list.length).fill(-1)
  const groups = [...bits].map(([key, members], group): Group => {
    for (const [bit, index] of members.entries()) {
      groupOf[index] = group
      bitOf[index] = bit
    }
    const part = key.startsWith('#') ? undefined : key
    return {
      part,
      bits: members,
      leak: Float64Array.from(members, (index) => list[index]?.leak ?? 0),
      isLane: members.map((index) => list[index]?.kind === 'lane'),
      look: part === undefined ? undefined : lookOf(signatures.get(part)?.kind),
      told: members.some((index) => list[index]?.kind !== 'area'),
    }
  })
  const numberOf = new Map(packages.map((ref, number) => [ref, number]))
  return {
    list,
    groups,
    groupOf,
    bitOf,
    packageOf: Int32Array.from(list, ({ kind, part }) => (kind === 'lane' ? (numberOf.get(part ?? '') ?? -1) : -1)),
    groupOfPackage: Int32Array.from(packages, (ref) => groups.findIndex(({ part }) => part === ref)),
    margins,
    looks: (kind, look) => assumptions.signature[kind][look],
  }
}

/** Byte, channel and package are one look: which lanes fail is told by the lanes themselves. */
function lookOf(kind: Signature['kind'] | undefined): Look | undefined {
  if (kind === undefined || kind === 'clean') return undefined
  return kind === 'cells' || kind === 'line' || kind === 'sparse' ? kind : 'whole'
}
