/**
 * Given what the shared variables do to a group, its own causes are summed out by themselves: every set of those that
 * touch several bits (or whose kind shows in the look), the others in closed form. A package's look is one likelihood: the
 * mean of its kinds' looks, each kind that touches a failing lane by how surely it makes one fail.
 */
import type { OwnCause } from '../network/cause.ts'
import { roleOf, seenBad, seenGood } from '../network/observations.ts'
import type { Frame, Group, Look } from './frame.ts'

/** An own cause given all that was seen to be good. */
export interface WeighedCause {
  readonly cause: OwnCause
  readonly probability: number
  /** By bit of its group: the probability that it makes it bad; empty where it touches none. */
  readonly bits: readonly { readonly bit: number; readonly q: number }[]
}

/**
 * Bayes' rule over what was seen to be good: prior · Π (1 - q) against 1 - prior. What it makes bad is kept by bit of
 * its group.
 */
export function weighOwn(frame: Frame, cause: OwnCause): WeighedCause {
  let present = cause.prior
  const bits: { bit: number; q: number }[] = []
  for (const { finding, q } of cause.touches) {
    const observation = frame.list[finding]
    if (observation === undefined) continue
    const role = roleOf(observation, cause.rightFrom, cause.wrongFrom)
    if (role === 'good' || role === 'both') present *= 1 - seenGood(role, q, observation)
    const bad = role === 'bad' || role === 'both' ? seenBad(role, q, observation) : 0
    if (bad > 0) bits.push({ bit: frame.bitOf[finding] ?? -1, q: bad })
  }
  const absent = 1 - cause.prior
  return {
    cause,
    probability: present + absent > 0 ? present / (present + absent) : 1,
    bits: bits.filter(({ bit }) => bit >= 0),
  }
}

/** A kind's part in the look: how surely it makes a lane fail, and that times the probability of the look. */
interface Shown {
  readonly weight: number
  readonly looks: number
}
const UNSEEN: Shown = { weight: 0, looks: 0 }

/** Own causes that are there together: which, how likely, what they leave good, how they show. */
export interface OwnSet {
  readonly members: readonly number[]
  readonly weight: number
  readonly good: Float64Array
  readonly shown: Shown
  readonly lifts: boolean
}

/** The causes of one bit whose kind is the same: there or not, in closed form. */
interface Singles {
  /** Indices into `OwnSum.causes`. */
  readonly members: readonly number[]
  /** Probability that none is there. */
  readonly none: number
  /** By bit, all states of them together: what they leave good. */
  readonly good: Float64Array
  readonly shown: Shown
}

export interface OwnSum {
  readonly causes: readonly WeighedCause[]
  readonly sets: readonly OwnSet[]
  readonly joints: Singles
  readonly tracks: Singles
  readonly leakGood: Float64Array
  readonly unknown: Shown
  /** Whether the package can still come off for its own causes. */
  readonly liftable: boolean
  /** True where sets of more than `MOST_AT_ONCE` causes were left out. */
  readonly cut: boolean
}

const IN_FULL = 10
const MOST_AT_ONCE = 3

/**
 * The own causes of one group, split so that they sum fast: joints and tracks that touch one bit alone go into closed
 * form, the rest into sets. From 11 of the rest on, sets hold at most three, and `cut` says so.
 */
export function ownSum(frame: Frame, group: Group, all: readonly WeighedCause[]): OwnSum {
  const causes = all.filter(({ bits }) => bits.length > 0)
  const indices = [...causes.keys()]
  const alone = (kind: 'joints' | 'corridor'): number[] =>
    indices.filter((index) => causes[index]?.bits.length === 1 && causes[index]?.cause.kind === kind)
  const joints = alone('joints')
  const tracks = alone('corridor')
  const several = indices.filter((index) => !joints.includes(index) && !tracks.includes(index))
  const shownBy = (kind: OwnCause['kind'] | 'unknown', weight: number): Shown =>
    group.look === undefined ? UNSEEN : { weight, looks: weight * frame.looks(kind, group.look) }
  const singles = (members: readonly number[]): Singles => {
    const good = new Float64Array(group.bits.length).fill(1)
    let none = 1
    let strongest = 0
    for (const index of members) {
      const { probability = 0, bits = [] } = causes[index] ?? {}
      none *= 1 - probability
      for (const { bit, q } of bits) good[bit] = (good[bit] ?? 1) * (1 - probability * q)
      strongest = Math.max(strongest, strongestOnLane(group, bits))
    }
    const kind = causes[members[0] ?? -1]?.cause.kind
    return { members, none, good, shown: kind === undefined ? UNSEEN : shownBy(kind, strongest) }
  }
  return {
    causes,
    sets: setsOf(causes, several, group, shownBy),
    joints: singles(joints),
    tracks: singles(tracks),
    leakGood: group.leak.map((leak) => 1 - leak),
    unknown: shownBy('unknown', Math.max(1e-9, ...group.leak.filter((_, bit) => group.isLane[bit]))),
    liftable: causes.some(({ cause }) => cause.lifts),
    cut: several.length > IN_FULL,
  }
}

function setsOf(
  causes: readonly WeighedCause[],
  several: readonly number[],
  group: Group,
  shownBy: (kind: OwnCause['kind'], weight: number) => Shown,
): OwnSet[] {
  const most = several.length > IN_FULL ? MOST_AT_ONCE : several.length
  const sets: OwnSet[] = []
  const visit = (from: number, set: OwnSet, kinds: ReadonlyMap<OwnCause['kind'], number>): void => {
    sets.push(set)
    if (set.members.length === most) return
    for (let at = from; at < several.length; at++) {
      const index = several[at] ?? -1
      const weighed = causes[index]
      if (weighed === undefined || weighed.probability === 0) continue
      const good = set.good.slice()
      for (const { bit, q } of weighed.bits) good[bit] = (good[bit] ?? 1) * (1 - q)
      const strongest = Math.max(kinds.get(weighed.cause.kind) ?? 0, strongestOnLane(group, weighed.bits))
      const then = new Map(kinds).set(weighed.cause.kind, strongest)
      // Depth first in ascending order, so that every set comes once; a member turns the set's weight from its
      // absence to its presence, which is one product with its odds.
      const odds = weighed.probability / Math.max(1e-12, 1 - weighed.probability)
      const next: OwnSet = {
        members: [...set.members, index],
        weight: set.weight * odds,
        good,
        shown: sumOf([...then].map(([kind, weight]) => shownBy(kind, weight))),
        lifts: set.lifts || weighed.cause.lifts,
      }
      visit(at + 1, next, then)
    }
  }
  const none = several.reduce((product, index) => product * Math.max(1e-12, 1 - (causes[index]?.probability ?? 0)), 1)
  const empty: OwnSet = {
    members: [],
    weight: none,
    good: new Float64Array(group.bits.length).fill(1),
    shown: UNSEEN,
    lifts: false,
  }
  visit(0, empty, new Map())
  return sets
}

function strongestOnLane({ isLane }: Group, bits: WeighedCause['bits']): number {
  return bits.reduce((most, { bit, q }) => (isLane[bit] === true ? Math.max(most, q) : most), 0)
}

/** What shows of several kinds together, as sums; the mean is taken when a look is read. */
export const sumOf = (all: readonly Shown[]): Shown => {
  let weight = 0
  let looks = 0
  for (const each of all) {
    weight += each.weight
    looks += each.looks
  }
  return { weight, looks }
}

/** P(look) for what shows: 1 where the look is not known. */
export const likelihoodOfLook = ({ weight, looks }: Shown): number => (weight > 0 ? looks / weight : 1)

export type { Look, Shown }
