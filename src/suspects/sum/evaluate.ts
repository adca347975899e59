/**
 * Probability of all that was seen at one group under a pattern: in all, and without anything that the package, or the
 * core, would have to come off for. Harm at one end that did not happen is (1 - q) for each bit that it might have made bad.
 */
import type { Frame, Group } from './frame.ts'
import { likelihoodOfLook, type OwnSet, type OwnSum, type Shown, sumOf } from './own-sum.ts'
import { MARGIN_COUNT, type PatternBook, SHARED_KINDS } from './patterns.ts'

export interface GroupValue {
  readonly all: number
  /** With nothing at the package that it has to come off for. */
  readonly packageSound: number
  /** With nothing at the core's end of its lanes that the core has to come off for. */
  readonly coreSound: number
  readonly bothSound: number
}

/** What the ends of a pattern leave good that are taken to be sound. */
type Spared = 'none' | 'package' | 'core' | 'both'

export interface GroupSum {
  readonly group: Group
  readonly own: OwnSum
  readonly book: PatternBook
  readonly margins: readonly number[]
  /** P(look | kind) by shared kind; absent where the look is not known. */
  readonly sharedLooks: readonly number[] | undefined
}

export function groupSum(frame: Frame, group: Group, own: OwnSum, book: PatternBook): GroupSum {
  const { look } = group
  const sharedLooks = look === undefined ? undefined : SHARED_KINDS.map((kind) => frame.looks(kind, look))
  return { group, own, book, margins: frame.margins, sharedLooks }
}

export function valueOf(sum: GroupSum, pattern: number): GroupValue {
  const all = likelihood(sum, pattern, 'none')
  const core = touchesEnd(sum, pattern, 'core')
  const packageSound =
    sum.own.liftable || touchesEnd(sum, pattern, 'memory') ? likelihood(sum, pattern, 'package') : all
  const coreSound = core ? likelihood(sum, pattern, 'core') : all
  const bothSound = core ? likelihood(sum, pattern, 'both') : packageSound
  return { all, packageSound, coreSound, bothSound }
}

function touchesEnd({ book }: GroupSum, number: number, end: 'memory' | 'core'): boolean {
  const { layout } = book
  const pattern = book.pattern(number)
  for (let bit = 0; bit < layout.bits; bit++) if ((pattern[layout[end] + bit] ?? 1) < 1) return true
  return false
}

function likelihood(sum: GroupSum, number: number, spared: Spared): number {
  const { book, margins, own } = sum
  const sets = spared === 'package' || spared === 'both' ? own.sets.filter(({ lifts }) => !lifts) : own.sets
  if (!book.byMargin(number)) return underMargin(sum, number, spared, sets, 0)
  let total = 0
  for (let margin = 0; margin < MARGIN_COUNT; margin++) {
    const share = margins[margin] ?? 0
    if (share > 0) total += share * underMargin(sum, number, spared, sets, margin)
  }
  return total
}

function underMargin(
  { own, book, sharedLooks }: GroupSum,
  number: number,
  spared: Spared,
  sets: readonly OwnSet[],
  margin: number,
): number {
  const { layout } = book
  const pattern = book.pattern(number)
  const { bits } = layout
  const spareMemory = spared === 'package' || spared === 'both'
  const spareCore = spared === 'core' || spared === 'both'
  const good = new Float64Array(bits)
  let weight = pattern[layout.pass + margin] ?? 1
  for (let bit = 0; bit < bits; bit++) {
    const memory = pattern[layout.memory + bit] ?? 1
    const core = pattern[layout.core + bit] ?? 1
    if (spareMemory) weight *= memory
    if (spareCore) weight *= core
    good[bit] =
      (own.leakGood[bit] ?? 1) *
      (pattern[layout.other + margin * bits + bit] ?? 1) *
      (spareMemory ? 1 : memory) *
      (spareCore ? 1 : core)
  }
  if (weight === 0) return 0
  const noJoints = spareMemory && own.liftable
  if (sharedLooks === undefined) return weight * plain(own, sets, good, noJoints)
  return weight * looking(own, sets, good, noJoints, shownByPattern(own, pattern, layout.kinds, sharedLooks))
}

function shownByPattern(own: OwnSum, pattern: Float64Array, from: number, sharedLooks: readonly number[]): Shown {
  let weight = own.unknown.weight
  let looks = own.unknown.looks
  for (let kind = 0; kind < sharedLooks.length; kind++) {
    const q = pattern[from + kind] ?? 0
    weight += q
    looks += q * (sharedLooks[kind] ?? 0)
  }
  return { weight, looks }
}

function plain(own: OwnSum, sets: readonly OwnSet[], good: Float64Array, noJoints: boolean): number {
  const { joints, tracks } = own
  const left = new Float64Array(good.length)
  for (let bit = 0; bit < left.length; bit++) {
    left[bit] = (good[bit] ?? 1) * (tracks.good[bit] ?? 1) * (noJoints ? 1 : (joints.good[bit] ?? 1))
  }
  let total = 0
  for (const set of sets) total += set.weight * allBad(left, set.good)
  return total * (noJoints ? joints.none : 1)
}

function looking(own: OwnSum, sets: readonly OwnSet[], good: Float64Array, noJoints: boolean, shared: Shown): number {
  const { joints, tracks } = own
  const withJoints = product(good, joints.good)
  const withTracks = product(good, tracks.good)
  const withBoth = product(withJoints, tracks.good)
  const anyJoints = !noJoints && joints.members.length > 0
  const anyTracks = tracks.members.length > 0
  let total = 0
  for (const set of sets) {
    const none = joints.none * tracks.none * allBad(good, set.good)
    const jointsOrNone = anyJoints ? tracks.none * allBad(withJoints, set.good) : none
    const tracksOrNone = anyTracks ? joints.none * allBad(withTracks, set.good) : none
    const base = sumOf([shared, set.shown])
    let sum = none * likelihoodOfLook(base)
    if (anyJoints) sum += (jointsOrNone - none) * likelihoodOfLook(sumOf([base, joints.shown]))
    if (anyTracks) sum += (tracksOrNone - none) * likelihoodOfLook(sumOf([base, tracks.shown]))
    if (anyJoints && anyTracks) {
      const both = allBad(withBoth, set.good) - jointsOrNone - tracksOrNone + none
      sum += Math.max(0, both) * likelihoodOfLook(sumOf([base, joints.shown, tracks.shown]))
    }
    total += set.weight * sum
  }
  return total
}

const product = (a: Float64Array, b: Float64Array): Float64Array => a.map((value, bit) => value * (b[bit] ?? 1))

/** Π (1 - good): the probability that all bits are bad. */
export function allBad(good: Float64Array, further: Float64Array): number {
  let result = 1
  for (let bit = 0; bit < good.length; bit++) result *= 1 - (good[bit] ?? 1) * (further[bit] ?? 1)
  return result
}
