/**
 * Probability of all that was seen at one group under a pattern: in all, and without anything that the package, or the
 * core, would have to come off for. Harm at one end that did not happen is (1 - q) for each bit that it might have made bad.
 */
import type { Frame, Group } from './frame.ts'
import type { OwnSet, OwnSum, Shown } from './own-sum.ts'
import { type Dependence, rowShares, rowsOf } from './margins.ts'
import { type PatternBook, SHARED_KINDS } from './patterns.ts'

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
  /** By dependence on margins, by row: how likely what it stands for is. */
  readonly margins: Readonly<Record<Dependence, readonly number[]>>
  /** P(look | kind) by shared kind; absent where the look is not known. */
  readonly sharedLooks: readonly number[] | undefined
  /** Room for one pattern, and for what is left good of each bit: written anew by each evaluation. */
  readonly scratch: Float64Array
  readonly good: Float64Array
}

/** A group made ready to be evaluated, with room that every evaluation of it writes anew. */
export function groupSum(frame: Frame, group: Group, own: OwnSum, book: PatternBook): GroupSum {
  const { look } = group
  const sharedLooks = look === undefined ? undefined : SHARED_KINDS.map((kind) => frame.looks(kind, look))
  const { length, bits } = book.layout
  const room = { scratch: new Float64Array(length), good: new Float64Array(bits) }
  return { group, own, book, margins: rowShares(frame.margins), sharedLooks, ...room }
}

/** Of two patterns at once, in all: for the table of the sum, which asks this for many pairs that it then forgets. */
export function valueOfBoth(sum: GroupSum, a: number, b: number): number {
  const { book } = sum
  const first = book.pattern(a)
  const second = book.pattern(b)
  const { layout } = book
  const both = sum.scratch
  for (let i = 0; i < layout.kinds; i++) both[i] = (first[i] ?? 1) * (second[i] ?? 1)
  for (let i = layout.kinds; i < layout.length; i++) both[i] = Math.max(first[i] ?? 0, second[i] ?? 0)
  const dependence = book.dependence(a) > book.dependence(b) ? book.dependence(a) : book.dependence(b)
  return overMargins(sum, both, dependence, 'none', sum.own.sets)
}

/**
 * The four probabilities of one pattern; those that the pattern can not change are handed on without being summed
 * again.
 */
export function valueOf(sum: GroupSum, pattern: number): GroupValue {
  const all = likelihood(sum, pattern, 'none')
  const core = sum.book.touches(pattern, 'core')
  const packageSound =
    sum.own.liftable || sum.book.touches(pattern, 'memory') ? likelihood(sum, pattern, 'package') : all
  const coreSound = core ? likelihood(sum, pattern, 'core') : all
  const bothSound = core ? likelihood(sum, pattern, 'both') : packageSound
  return { all, packageSound, coreSound, bothSound }
}

function likelihood(sum: GroupSum, number: number, spared: Spared): number {
  const { book, own } = sum
  const sets = spared === 'package' || spared === 'both' ? own.sets.filter(({ lifts }) => !lifts) : own.sets
  return overMargins(sum, book.pattern(number), book.dependence(number), spared, sets)
}

function overMargins(
  sum: GroupSum,
  pattern: Float64Array,
  dependence: Dependence,
  spared: Spared,
  sets: readonly OwnSet[],
): number {
  const rows = rowsOf(dependence)
  const shares = sum.margins[dependence]
  let total = 0
  for (let row = 0; row < rows.length; row++) {
    const share = shares[row] ?? 0
    if (share > 0) total += share * underMargin(sum, pattern, spared, sets, rows[row] ?? 0)
  }
  return total
}

function underMargin(
  { own, book, sharedLooks, good }: GroupSum,
  pattern: Float64Array,
  spared: Spared,
  sets: readonly OwnSet[],
  pair: number,
): number {
  const { layout } = book
  const { bits } = layout
  const spareMemory = spared === 'package' || spared === 'both'
  const spareCore = spared === 'core' || spared === 'both'
  let weight = pattern[layout.pass + pair] ?? 1
  for (let bit = 0; bit < bits; bit++) {
    const memory = pattern[layout.memory + bit] ?? 1
    const core = pattern[layout.core + bit] ?? 1
    // An end that is taken to be sound explains no bad bit; in its place stands the probability that its harm did not
    // happen, (1 - q) a bit.
    if (spareMemory) weight *= memory
    if (spareCore) weight *= core
    good[bit] =
      (own.leakGood[bit] ?? 1) *
      (pattern[layout.other + pair * bits + bit] ?? 1) *
      (spareMemory ? 1 : memory) *
      (spareCore ? 1 : core)
  }
  if (weight === 0) return 0
  const noJoints = spareMemory && own.liftable
  if (sharedLooks === undefined) return weight * plain(own, sets, good, noJoints)
  return weight * looking(own, sets, good, noJoints, shownByPattern(own, pattern, layout.kinds, sharedLooks))
}

/** What shows of the shared kinds that touch a group, and of the unknown. */
export function shownByPattern(
  own: OwnSum,
  pattern: Float64Array,
  from: number,
  sharedLooks: readonly number[],
): Shown {
  let weight = own.unknown.weight
  let looks = own.unknown.looks
  for (let kind = 0; kind < sharedLooks.length; kind++) {
    const q = pattern[from + kind] ?? 0
    weight += q
    looks += q * (sharedLooks[kind] ?? 0)
  }
  return { weight, looks }
}

/** Consumes `good`. */
function plain(own: OwnSum, sets: readonly OwnSet[], good: Float64Array, noJoints: boolean): number {
  const { joints, tracks } = own
  for (let bit = 0; bit < good.length; bit++) {
    good[bit] = (good[bit] ?? 1) * (tracks.good[bit] ?? 1) * (noJoints ? 1 : (joints.good[bit] ?? 1))
  }
  let total = 0
  for (let at = 0; at < sets.length; at++) {
    const set = sets[at]
    if (set !== undefined) total += set.weight * allBad(good, set.good)
  }
  return total * (noJoints ? joints.none : 1)
}

function looking(own: OwnSum, sets: readonly OwnSet[], good: Float64Array, noJoints: boolean, shared: Shown): number {
  const { joints, tracks } = own
  const anyJoints = !noJoints && joints.members.length > 0
  const anyTracks = tracks.members.length > 0
  let total = 0
  for (let at = 0; at < sets.length; at++) {
    const set = sets[at]
    if (set === undefined) continue
    const weight = shared.weight + set.shown.weight
    const looks = shared.looks + set.shown.looks
    // The look hangs on which kinds are there, so joints and tracks can't be summed out at once: four products over
    // the bits, with each of them left out or summed over being there and not.
    let none = 1
    let withJoints = 1
    let withTracks = 1
    let withBoth = 1
    for (let bit = 0; bit < good.length; bit++) {
      const left = (good[bit] ?? 1) * (set.good[bit] ?? 1)
      const jointsGood = joints.good[bit] ?? 1
      const tracksGood = tracks.good[bit] ?? 1
      none *= 1 - left
      withJoints *= 1 - left * jointsGood
      withTracks *= 1 - left * tracksGood
      withBoth *= 1 - left * jointsGood * tracksGood
    }
    // From here on as probabilities: neither is there, joints or none, tracks or none.
    none *= joints.none * tracks.none
    const jointsOrNone = anyJoints ? tracks.none * withJoints : none
    const tracksOrNone = anyTracks ? joints.none * withTracks : none
    // 'There' is 'there or not' less 'not'; each case is weighed by the look that it would have.
    let sum = none * lookOf(weight, looks)
    if (anyJoints) sum += (jointsOrNone - none) * lookOf(weight + joints.shown.weight, looks + joints.shown.looks)
    if (anyTracks) sum += (tracksOrNone - none) * lookOf(weight + tracks.shown.weight, looks + tracks.shown.looks)
    if (anyJoints && anyTracks) {
      // Inclusion and exclusion; rounding may leave a trace below zero.
      const both = Math.max(0, withBoth - jointsOrNone - tracksOrNone + none)
      sum +=
        both *
        lookOf(weight + joints.shown.weight + tracks.shown.weight, looks + joints.shown.looks + tracks.shown.looks)
    }
    total += set.weight * sum
  }
  return total
}

const lookOf = (weight: number, looks: number): number => (weight > 0 ? looks / weight : 1)

/** Π (1 - good): the probability that all bits are bad. */
export function allBad(good: Float64Array, further: Float64Array): number {
  let result = 1
  for (let bit = 0; bit < good.length; bit++) result *= 1 - (good[bit] ?? 1) * (further[bit] ?? 1)
  return result
}
