/** What may be wrong with a card as numbered faults: each that is met, with the packages whose lanes fail with it. */
import { railOf } from '../causes/places.ts'
import type { CauseAt } from '../result.ts'
import type { Posterior } from '../sum/posterior.ts'
import type { GroupValues } from '../sum/values.ts'

/** `die`: the part itself. `joints`: its joints. `beneath`: what lies under it. `open`: what lies on tracks, under no part. `beside`: a rail, a track, what a tool hit. `unknown`: nothing in the list. */
export type FaultKind = 'die' | 'joints' | 'beneath' | 'open' | 'beside' | 'unknown'

export interface WorldFault {
  readonly kind: FaultKind
  /** The part that has it; of `beside` what is to be put right, in the board's words; empty for `unknown`. */
  readonly at: string
  /** Packages (by index of `Worlds.failing`) whose lanes fail with it, as bits. */
  readonly touches: number
}

export interface WorldsInput {
  readonly posterior: Posterior
  readonly values: GroupValues
  /** Refs of the parts that can come off, by index. */
  readonly parts: readonly string[]
  readonly core: string | undefined
  /** Packages with a lane that fails and whose track nobody cleaned yet: what was spilled may lie there still. */
  readonly openAt: ReadonlySet<string>
  /** A lane failed in the newest run of it: what was put right by then explains no failure. */
  readonly failsNow: boolean
}

/** What may be wrong in one place, as numbers of the fault book, and its share. */
export interface Option {
  readonly faults: readonly number[]
  readonly share: number
}

export type OptionsOf = (group: number, pattern: number) => readonly Option[]

/** The bit of all that finds no room, and of what is unknown. */
export const UNKNOWN = 1
/** Packages beyond so many share one bit, and are told apart no more. */
const MOST_TOUCHED = 30

/** Numbers every fault that is met, with what it touches. */
export interface FaultBook {
  readonly failing: readonly string[]
  readonly number: (kind: Exclude<FaultKind, 'unknown'>, at: string, touches: number) => number
  readonly kindOf: (fault: number) => 'known' | 'put right'
  /** By bit of a world. */
  readonly faultsAt: (bitOf: (fault: number) => number) => readonly WorldFault[]
}

/** Stands in a set of faults for one that was put right. */
export const RIGHT = -1

/**
 * An empty book over the packages that fail. A fault that is met again keeps its number and touches what either met;
 * a fault without a bit of its own counts as unknown.
 */
export function faultBook({ posterior }: WorldsInput): FaultBook {
  const failing = posterior.groups.flatMap(({ group: { part, told } }) => (told && part !== undefined ? [part] : []))
  const faults: { kind: FaultKind; at: string; touches: number }[] = []
  const known = new Map<string, number>()
  return {
    failing,
    number: (kind, at, touches) => {
      const key = `${kind} ${at}`
      const number = known.get(key) ?? faults.push({ kind, at, touches: 0 }) - 1
      known.set(key, number)
      const fault = faults[number]
      if (fault !== undefined) fault.touches |= touches
      return number
    },
    kindOf: (fault) => (fault === RIGHT ? 'put right' : 'known'),
    faultsAt: (bitOf) => {
      const all = failing.reduce((bits, _, index) => bits | touchOf(index), 0)
      const listedFaults: WorldFault[] = [{ kind: 'unknown', at: '', touches: all }]
      for (const [number, fault] of faults.entries()) {
        const bit = bitOf(number)
        if (bit !== UNKNOWN) listedFaults[Math.log2(bit)] = fault
      }
      return listedFaults
    },
  }
}

/** The bit of a failing package by its index; 0 for -1. Packages from the 31st on share one bit. */
export const touchOf = (index: number): number => (index < 0 ? 0 : 1 << Math.min(index, MOST_TOUCHED))

/** What is to be put right beside the parts: a rail whichever branch of it, a track by its lane, what a tool hit. */
export const placeOf = ({ kind, at }: CauseAt): string => (kind === 'corridor' ? `the track of ${at}` : railOf(at))
