/**
 * What may be wrong with a card, as a short list of worlds: each a set of faults that a remedy can cure or not, with its
 * probability. It comes from the same sum as stories and lift list: way by way of the shared causes, package by package.
 */
import { type FaultBook, faultBook, type OptionsOf, UNKNOWN, type WorldFault, type WorldsInput } from './fault-book.ts'
import { rememberedOptions } from './fault-options.ts'
import { type FaultyWay, openFault, waysWithFaults } from './fault-ways.ts'

export interface Worlds {
  readonly faults: readonly WorldFault[]
  /** Refs of the packages with failing lanes. */
  readonly failing: readonly string[]
  /** Faults of each world as bits of `faults`, likeliest first. */
  readonly sets: Int32Array
  /** Sums to one. */
  readonly weights: Float64Array
  /** Probability that was put under `unknown` because too rare to list. */
  readonly lumped: number
}

/** Faults are bits of a world, the likeliest of them; the first stands for all that finds no room, and for what is unknown. */
const MOST_FAULTS = 29
/**
 * Rarer faults count as unknown from the start: nobody works on them, and with many packages failing their combinations
 * would leave no world likely enough to be listed.
 */
const LEAST_FAULT = 0.01
/** Something was wrong and was put right since. */
const PUT_RIGHT = 1 << 30
const MOST_WORLDS = 160
/** Of its way: what is rarer is passed over. */
const LEAST_SHARE = 1e-4

/**
 * The likeliest worlds as sets of bits over at most as many faults as a word has bits; what finds no bit counts as
 * unknown. Packages are taken one by one, and what has become rare beside its way is dropped at each.
 */
export function worldsOf(input: WorldsInput): Worlds {
  const book = faultBook(input)
  const optionsOf = rememberedOptions(input, book)
  const ways = waysWithFaults(input, book)
  const bitOf = likeliestAsBits(book, weighed(ways, optionsOf), input.openAt)
  const bitsOf = (faults: readonly number[]): number => faults.reduce((bits, fault) => bits | bitOf(fault), 0)
  const worlds = new Map<number, number>()
  for (const { faults, patterns, weight } of ways) {
    let open = new Map([[bitsOf(faults), weight]])
    for (let group = 0; group < patterns.length; group++) {
      const options = optionsOf(group, patterns[group] ?? 0)
      open = timesGroup(
        open,
        options.map(({ faults: own, share }) => ({ bits: bitsOf(own), share })),
        weight * LEAST_SHARE,
      )
    }
    for (const [each, mass] of open) worlds.set(each, (worlds.get(each) ?? 0) + mass)
  }
  return {
    ...listed(withoutNeedlessOpen(worlds, bitOf(openFault(book, input.openAt))), input.failsNow),
    faults: book.faultsAt(bitOf),
    failing: book.failing,
  }
}

function timesGroup(
  open: ReadonlyMap<number, number>,
  options: readonly { readonly bits: number; readonly share: number }[],
  least: number,
): Map<number, number> {
  const next = new Map<number, number>()
  for (const [set, mass] of open) {
    for (const { bits, share } of options) {
      const weight = mass * share
      if (weight >= least) next.set(set | bits, (next.get(set | bits) ?? 0) + weight)
    }
  }
  return next
}

/**
 * By number of a fault: how often it is met, summed over ways, packages and options. A fault that several packages have
 * (what lies beneath the core) counts once for each, so this ranks faults and is no probability.
 */
function weighed(ways: readonly FaultyWay[], optionsOf: OptionsOf): ReadonlyMap<number, number> {
  const masses = new Map<number, number>()
  const add = (fault: number, mass: number): void => {
    masses.set(fault, (masses.get(fault) ?? 0) + mass)
  }
  for (const { faults, patterns, weight } of ways) {
    for (const fault of faults) add(fault, weight)
    for (let group = 0; group < patterns.length; group++) {
      for (const option of optionsOf(group, patterns[group] ?? 0)) {
        for (const fault of option.faults) add(fault, weight * option.share)
      }
    }
  }
  return masses
}

/** What lies in the open explains a failure only where nothing else does. */
function withoutNeedlessOpen(worlds: ReadonlyMap<number, number>, openBit: number): Map<number, number> {
  const left = new Map<number, number>()
  for (const [set, weight] of worlds) {
    const next = (set & ~(openBit | PUT_RIGHT)) === 0 ? set : set & ~openBit
    left.set(next, (left.get(next) ?? 0) + weight)
  }
  return left
}

/** Each of the likeliest has a bit of its own, what lies in the open among them; the rest counts as unknown. */
function likeliestAsBits(
  book: FaultBook,
  masses: ReadonlyMap<number, number>,
  openAt: ReadonlySet<string>,
): (fault: number) => number {
  const open = openFault(book, openAt)
  const order = [...masses]
    .filter(([fault, mass]) => book.kindOf(fault) === 'known' && fault !== open && mass >= LEAST_FAULT)
    .toSorted((a, b) => b[1] - a[1])
    .map(([fault]) => fault)
  const bits = new Map([open, ...order].slice(0, MOST_FAULTS - 1).map((fault, index) => [fault, 1 << (index + 1)]))
  return (fault) => (book.kindOf(fault) === 'put right' ? PUT_RIGHT : (bits.get(fault) ?? UNKNOWN))
}

/** @param failsNow a world with nothing but what was put right explains no failure either */
function listed(worlds: ReadonlyMap<number, number>, failsNow: boolean): Pick<Worlds, 'sets' | 'weights' | 'lumped'> {
  // a world without any fault, open or put right, is one whose reason is not in the list of causes
  const nothing = (worlds.get(0) ?? 0) + (failsNow ? (worlds.get(PUT_RIGHT) ?? 0) : 0)
  const open = new Map<number, number>()
  for (const [set, weight] of worlds) {
    const left = set & ~PUT_RIGHT
    if (set !== 0 && !(failsNow && left === 0)) open.set(left, (open.get(left) ?? 0) + weight)
  }
  const kept = [...open].toSorted((a, b) => b[1] - a[1]).slice(0, MOST_WORLDS)
  const held = kept.reduce((sum, [, weight]) => sum + weight, 0)
  const lumped = Math.max(0, 1 - held - nothing)
  const unknown = nothing + lumped
  const rows = unknown > 0 ? [...kept, [UNKNOWN, unknown] as const] : kept
  const whole = rows.reduce((sum, [, weight]) => sum + weight, 0)
  return {
    sets: Int32Array.from(rows, ([set]) => set),
    weights: Float64Array.from(rows, ([, weight]) => weight / whole),
    lumped,
  }
}
