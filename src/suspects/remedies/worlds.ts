/**
 * What may be wrong with a card, as a short list of worlds: each a set of faults that a remedy can cure or not, with its
 * probability. It comes from the same sum as stories and lift list: way by way of the shared causes, package by package.
 */
import { railOf } from '../causes/places.ts'
import type { OwnCause } from '../network/cause.ts'
import { NEVER } from '../network/observations.ts'
import type { CauseAt } from '../result.ts'
import type { Bundle } from '../sum/bundle.ts'
import type { GroupValue } from '../sum/evaluate.ts'
import type { Posterior } from '../sum/posterior.ts'
import type { GroupValues } from '../sum/values.ts'

/** `die`: the part itself. `joints`: its joints. `beneath`: what lies under it. `beside`: a rail, a track, what a tool hit. `unknown`: nothing in the list. */
export type FaultKind = 'die' | 'joints' | 'beneath' | 'beside' | 'unknown'

export interface WorldFault {
  readonly kind: FaultKind
  /** The part that has it; of `beside` what is to be put right, in the board's words; empty for `unknown`. */
  readonly at: string
  /** Packages (by index of `Worlds.failing`) whose lanes fail with it, as bits. */
  readonly touches: number
}

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

export interface WorldsInput {
  readonly posterior: Posterior
  readonly values: GroupValues
  /** Refs of the parts that can come off, by index. */
  readonly parts: readonly string[]
  readonly core: string | undefined
  /** Work was done and followed by a run: a spill that has nothing lie under a part any more was cleaned away. */
  readonly worked: boolean
  /** A lane failed in the newest run of it: what was put right by then explains no failure. */
  readonly failsNow: boolean
}

/** Faults are bits of a world, the likeliest of them; the first stands for all that finds no room, and for what is unknown. */
const MOST_FAULTS = 29
const UNKNOWN = 1
/** Something was wrong and was put right since. */
const PUT_RIGHT = 1 << 30
const MOST_WORLDS = 160
/** Of its way: what is rarer is passed over. */
const LEAST_SHARE = 1e-4
/** Sets of own faults that come to less than this share of a package are passed over. */
const TRACE = 1e-3
/** Packages beyond so many share one bit, and are told apart no more. */
const MOST_TOUCHED = 30

export function worldsOf(input: WorldsInput): Worlds {
  const book = faultBook(input)
  const optionsOf = rememberedOptions(input, book)
  const ways = waysWithFaults(input, book)
  const bitOf = likeliestAsBits(book, weighed(ways, optionsOf))
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
  return { ...listed(worlds, input.failsNow), faults: book.faultsAt(bitOf), failing: book.failing }
}

/** What may be wrong in one place, as numbers of the fault book, and its share. */
interface Option {
  readonly faults: readonly number[]
  readonly share: number
}

type OptionsOf = (group: number, pattern: number) => readonly Option[]

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

/** By number of a fault: the probability that it is there, whatever else is. */
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

/** Each of the likeliest has a bit of its own; the rest counts as unknown. */
function likeliestAsBits({ kindOf }: FaultBook, masses: ReadonlyMap<number, number>): (fault: number) => number {
  const order = [...masses].filter(([fault]) => kindOf(fault) === 'known').toSorted((a, b) => b[1] - a[1])
  const bits = new Map(order.slice(0, MOST_FAULTS - 1).map(([fault], index) => [fault, 1 << (index + 1)]))
  return (fault) => (kindOf(fault) === 'put right' ? PUT_RIGHT : (bits.get(fault) ?? UNKNOWN))
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

/** Numbers every fault that is met, with what it touches. */
interface FaultBook {
  readonly failing: readonly string[]
  readonly number: (kind: Exclude<FaultKind, 'unknown'>, at: string, touches: number) => number
  readonly kindOf: (fault: number) => 'known' | 'put right'
  /** By bit of a world. */
  readonly faultsAt: (bitOf: (fault: number) => number) => readonly WorldFault[]
}

/** Stands in a set of faults for one that was put right. */
const RIGHT = -1

function faultBook({ posterior }: WorldsInput): FaultBook {
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

const touchOf = (index: number): number => (index < 0 ? 0 : 1 << Math.min(index, MOST_TOUCHED))

interface FaultyWay {
  readonly faults: readonly number[]
  readonly patterns: Int32Array
  readonly weight: number
}

/** Ways of the shared causes with the faults that these are; alike ones are put together. */
function waysWithFaults(input: WorldsInput, book: FaultBook): FaultyWay[] {
  const ways = new Map<string, { faults: readonly number[]; patterns: Int32Array; weight: number }>()
  const setsOf = rememberedSets(input, book)
  for (const { probability, rare, likely, patterns } of input.posterior.kept) {
    for (const a of setsOf(rare)) {
      for (const b of setsOf(likely)) {
        const weight = probability * a.share * b.share
        if (weight <= 0) continue
        const faults = [...a.faults, ...b.faults]
        const key = `${faults.join()} ${patterns.join()}`
        const known = ways.get(key)
        if (known === undefined) ways.set(key, { faults, patterns, weight })
        else known.weight += weight
      }
    }
  }
  return [...ways.values()]
}

function rememberedSets(input: WorldsInput, book: FaultBook): (bundle: Bundle) => readonly Option[] {
  const known = new Map<Bundle, readonly Option[]>()
  return (bundle) => {
    const before = known.get(bundle)
    if (before !== undefined) return before
    const sets = new Map<string, { faults: readonly number[]; share: number }>()
    for (const { chosen, weight } of bundle.ways) {
      const faults = [...new Set(chosen.flatMap(({ variable, state }) => sharedFault(input, book, variable, state)))]
      const key = faults.toSorted((a, b) => a - b).join()
      const set = sets.get(key) ?? { faults, share: 0 }
      sets.set(key, set)
      set.share += weight / bundle.weight
    }
    const made = [...sets.values()]
    known.set(bundle, made)
    return made
  }
}

/** What a state of a shared variable is as a fault; a spill's are found package by package. */
function sharedFault(
  { posterior, parts, worked }: WorldsInput,
  book: FaultBook,
  variable: number,
  state: number,
): readonly number[] {
  const reduced = posterior.variables[variable]
  const at = reduced?.states[state]
  if (reduced === undefined || at === undefined) return []
  if (reduced.kind === 'spill' || reduced.kind === 'unreported-spill') return worked ? [RIGHT] : []
  const label = labelOf(reduced.labels, (index) => reduced.labelShare(state, index))
  const touches = touchedBy(posterior, at.patterns, book)
  const part = parts[at.lifts]
  if (part !== undefined) return [book.number(label?.kind === 'core-patch' ? 'joints' : 'die', part, touches)]
  return label === undefined || !reduced.isOpen ? [RIGHT] : [book.number('beside', placeOf(label), touches)]
}

function labelOf(labels: readonly CauseAt[], share: (label: number) => number): CauseAt | undefined {
  let best: CauseAt | undefined
  let most = 0
  for (const [index, label] of labels.entries()) {
    if (share(index) <= most) continue
    best = label
    most = share(index)
  }
  return best
}

/** Failing packages whose lanes it touches, as bits of the book's. */
function touchedBy({ groups }: Posterior, patterns: Int32Array, { failing }: FaultBook): number {
  let touches = 0
  for (const [group, { group: of }] of groups.entries()) {
    if ((patterns[group] ?? 0) !== 0 && of.part !== undefined) touches |= touchOf(failing.indexOf(of.part))
  }
  return touches
}

function rememberedOptions(input: WorldsInput, book: FaultBook): OptionsOf {
  const kept = input.posterior.groups.map(() => new Map<number, readonly Option[]>())
  return (group, pattern) => {
    const before = kept[group]?.get(pattern)
    if (before !== undefined) return before
    const made = optionsUnder(input, book, group, pattern)
    kept[group]?.set(pattern, made)
    return made
  }
}

/**
 * What a package has under a pattern: nothing, faults of its own, something beneath it or beneath the core's end of its
 * lanes. Chances that it and the core need work are those of the sum (see `GroupValue`); where an own fault would have it
 * come off already, nothing beneath it is asked for.
 */
function optionsUnder(input: WorldsInput, book: FaultBook, group: number, pattern: number): readonly Option[] {
  const { posterior, values, core } = input
  const sum = posterior.groups[group]
  const value = values.of(group, pattern)
  if (sum === undefined || value.all <= 0) return [{ faults: [], share: 1 }]
  const { part } = sum.group
  const touches = part === undefined ? 0 : touchOf(book.failing.indexOf(part))
  const own = ownSets(input, book, group, pattern)
  const lifting = own.filter(({ lifts }) => lifts).reduce((total, { share }) => total + share, 0)
  const under = (ref: string | undefined): number[] => (ref === undefined ? [] : [book.number('beneath', ref, touches)])
  return joint(value).flatMap(({ share, needed, coreNeeded }): Option[] => {
    if (share <= 0) return []
    const atCore = coreNeeded ? under(core) : []
    const among = own.filter(({ lifts }) => lifts === needed)
    if (!needed) return spread(among, share, atCore)
    const byOwn = share * Math.min(1, lifting / Math.max(1e-12, 1 - value.packageSound / value.all))
    const rest = { faults: [...under(part), ...atCore], share: share - byOwn }
    return [...spread(among, byOwn, atCore), ...(rest.share > 0 ? [rest] : [])]
  })
}

/** Whether the package, and the core for its sake, need work: four chances that sum to one. */
function joint(value: GroupValue): { share: number; needed: boolean; coreNeeded: boolean }[] {
  const { all } = value
  const neither = value.bothSound / all
  const coreOnly = Math.max(0, value.packageSound / all - neither)
  const packageOnly = Math.max(0, value.coreSound / all - neither)
  const both = Math.max(0, 1 - neither - coreOnly - packageOnly)
  return [
    { share: neither, needed: false, coreNeeded: false },
    { share: coreOnly, needed: false, coreNeeded: true },
    { share: packageOnly, needed: true, coreNeeded: false },
    { share: both, needed: true, coreNeeded: true },
  ]
}

function spread(among: readonly Option[], share: number, also: readonly number[]): Option[] {
  const whole = among.reduce((total, each) => total + each.share, 0)
  if (whole <= 0) return [{ faults: also, share }]
  return among.map((each) => ({ faults: [...each.faults, ...also], share: (share * each.share) / whole }))
}

function ownSets(
  input: WorldsInput,
  book: FaultBook,
  group: number,
  pattern: number,
): (Option & { readonly lifts: boolean })[] {
  const sum = input.posterior.groups[group]
  const causes = sum?.own.causes ?? []
  const part = sum?.group.part
  const touches = part === undefined ? 0 : touchOf(book.failing.indexOf(part))
  const stories = input.values.stories(group, pattern)
  const whole = stories.reduce((total, { mass }) => total + mass, 0)
  const told = stories.filter(({ mass }) => mass >= TRACE * whole)
  const sets = told.map(({ members, mass }) => {
    const there = members.flatMap((index) => causes[index]?.cause ?? [])
    const faults = new Set(there.map((cause) => ownFault(book, cause, touches)))
    return { faults: [...faults], lifts: there.some(({ lifts }) => lifts), share: mass / whole }
  })
  return sets.length === 0 ? [{ faults: [], lifts: false, share: 1 }] : sets
}

function ownFault(book: FaultBook, { kind, at, part, lifts, rightFrom }: OwnCause, touches: number): number {
  if (rightFrom !== NEVER) return RIGHT
  if (!lifts) return book.number('beside', placeOf(at), touches)
  return book.number(kind === 'die' ? 'die' : 'joints', part, touches)
}

/** What is to be put right beside the parts: a rail whichever branch of it, a track by its lane, what a tool hit. */
const placeOf = ({ kind, at }: CauseAt): string => (kind === 'corridor' ? `the track of ${at}` : railOf(at))
