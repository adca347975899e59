/**
 * What may be wrong with a card, as a short list of worlds: each a set of faults that a remedy can cure or not, with its
 * probability. It comes from the same sum as stories and lift list: way by way of the shared causes, package by package.
 */
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
}

/** Faults are bits; the one after the last says that something was wrong and was put right since. */
const MOST_FAULTS = 29
const PUT_RIGHT = 1 << 30
const MOST_WORLDS = 160
const LEAST = 1e-5
/** Sets of own faults that come to less than this share of a package are passed over. */
const TRACE = 1e-3

export function worldsOf(input: WorldsInput): Worlds {
  const book = faultBook(input)
  const worlds = new Map<number, number>()
  for (const { set, patterns, weight } of waysWithFaults(input, book)) {
    let open = new Map([[set, weight]])
    for (let group = 0; group < patterns.length; group++) {
      open = timesGroup(open, optionsOf(input, book, group, patterns[group] ?? 0))
    }
    for (const [each, mass] of open) worlds.set(each, (worlds.get(each) ?? 0) + mass)
  }
  return listed(book, worlds)
}

interface Option {
  readonly set: number
  readonly share: number
}

function timesGroup(open: ReadonlyMap<number, number>, options: readonly Option[]): Map<number, number> {
  const next = new Map<number, number>()
  for (const [set, mass] of open) {
    for (const option of options) {
      const weight = mass * option.share
      if (weight < LEAST) continue
      const both = set | option.set
      next.set(both, (next.get(both) ?? 0) + weight)
    }
  }
  return next
}

function listed(book: FaultBook, worlds: Map<number, number>): Worlds {
  // a world without any fault, open or put right, is one whose reason is not in the list of causes
  const nothing = worlds.get(0) ?? 0
  const open = new Map<number, number>()
  for (const [set, weight] of worlds)
    if (set !== 0) open.set(set & ~PUT_RIGHT, (open.get(set & ~PUT_RIGHT) ?? 0) + weight)
  const order = [...open].toSorted((a, b) => b[1] - a[1])
  const kept = order.slice(0, MOST_WORLDS)
  const held = kept.reduce((sum, [, weight]) => sum + weight, 0)
  const lumped = Math.max(0, 1 - held - nothing)
  const unknown = nothing + lumped
  const rows = unknown > 0 ? [...kept, [book.bit('unknown', '', book.all), unknown] as const] : kept
  const whole = rows.reduce((sum, [, weight]) => sum + weight, 0)
  return {
    faults: book.faults(),
    failing: book.failing,
    sets: Int32Array.from(rows, ([set]) => set),
    weights: Float64Array.from(rows, ([, weight]) => weight / whole),
    lumped,
  }
}

interface FaultBook {
  readonly failing: readonly string[]
  /** Every failing package, as bits. */
  readonly all: number
  /** @returns the fault as a bit; one that finds no room counts as unknown */
  readonly bit: (kind: FaultKind, at: string, touches: number) => number
  readonly faults: () => readonly WorldFault[]
}

/** With so few failing packages their own faults and the core's have their bits before rare ones elsewhere take them. */
const FEW_FAILING = 6

function faultBook({ posterior, core }: WorldsInput): FaultBook {
  const failing = posterior.groups.flatMap(({ group: { part, told } }) => (told && part !== undefined ? [part] : []))
  const all = failing.length >= 31 ? 2 ** 31 - 1 : (1 << failing.length) - 1
  const faults: { kind: FaultKind; at: string; touches: number }[] = [{ kind: 'unknown', at: '', touches: all }]
  const known = new Map<string, number>()
  const bit: FaultBook['bit'] = (kind, at, touches) => {
    if (kind === 'unknown') return 1
    const key = `${kind} ${at}`
    const before = known.get(key)
    if (before !== undefined) {
      const fault = faults[before]
      if (fault !== undefined) fault.touches |= touches
      return 1 << before
    }
    if (faults.length >= MOST_FAULTS) return 1
    const number = faults.push({ kind, at, touches }) - 1
    known.set(key, number)
    return 1 << number
  }
  if (failing.length <= FEW_FAILING) {
    for (const ref of [...(core === undefined ? [] : [core]), ...failing])
      for (const kind of ['beneath', 'joints', 'die'] as const) bit(kind, ref, 0)
  }
  return { failing, all, bit, faults: () => faults }
}

interface FaultyWay {
  readonly set: number
  readonly patterns: Int32Array
  readonly weight: number
}

/** Ways of the shared causes with the faults that these are, alike ones put together, likeliest first. */
function waysWithFaults(input: WorldsInput, book: FaultBook): FaultyWay[] {
  const ways = new Map<string, { set: number; patterns: Int32Array; weight: number }>()
  const setsOf = rememberedSets(input, book)
  for (const { probability, rare, likely, patterns } of input.posterior.kept) {
    for (const a of setsOf(rare)) {
      for (const b of setsOf(likely)) {
        const weight = probability * a.share * b.share
        if (weight < LEAST / 10) continue
        const set = a.set | b.set
        const key = `${set} ${patterns.join()}`
        const known = ways.get(key)
        if (known === undefined) ways.set(key, { set, patterns, weight })
        else known.weight += weight
      }
    }
  }
  return [...ways.values()].toSorted((a, b) => b.weight - a.weight)
}

function rememberedSets(input: WorldsInput, book: FaultBook): (bundle: Bundle) => readonly Option[] {
  const known = new Map<Bundle, readonly Option[]>()
  return (bundle) => {
    const before = known.get(bundle)
    if (before !== undefined) return before
    const shares = new Map<number, number>()
    for (const { chosen, weight } of bundle.ways) {
      let set = 0
      for (const { variable, state } of chosen) set |= sharedFault(input, book, variable, state)
      shares.set(set, (shares.get(set) ?? 0) + weight / bundle.weight)
    }
    const made = [...shares].map(([set, share]) => ({ set, share }))
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
): number {
  const reduced = posterior.variables[variable]
  const at = reduced?.states[state]
  if (reduced === undefined || at === undefined) return 0
  if (reduced.kind === 'spill' || reduced.kind === 'unreported-spill') return worked ? PUT_RIGHT : 0
  const label = labelOf(reduced.labels, (index) => reduced.labelShare(state, index))
  const touches = touchedBy(posterior, at.patterns, book)
  const part = parts[at.lifts]
  if (part === undefined)
    return label === undefined || !reduced.isOpen ? PUT_RIGHT : book.bit('beside', placeOf(label), touches)
  return book.bit(label?.kind === 'core-patch' ? 'joints' : 'die', part, touches)
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
    if ((patterns[group] ?? 0) !== 0) touches |= bitOf(failing, of.part)
  }
  return touches
}

function bitOf(failing: readonly string[], part: string | undefined): number {
  const at = part === undefined ? -1 : failing.indexOf(part)
  return at < 0 ? 0 : 1 << at
}

const optionsKept = new WeakMap<FaultBook, Map<string, readonly Option[]>>()

/**
 * What a package has under a pattern: nothing, faults of its own, something beneath it or beneath the core's end of its
 * lanes. Chances that it and the core need work are those of the sum (see `GroupValue`); where an own fault would have it
 * come off already, nothing beneath it is asked for.
 */
function optionsOf(input: WorldsInput, book: FaultBook, group: number, pattern: number): readonly Option[] {
  const kept = optionsKept.get(book) ?? new Map<string, readonly Option[]>()
  optionsKept.set(book, kept)
  const key = `${group} ${pattern}`
  const before = kept.get(key)
  if (before !== undefined) return before
  const made = optionsUnder(input, book, group, pattern)
  kept.set(key, made)
  return made
}

function optionsUnder(input: WorldsInput, book: FaultBook, group: number, pattern: number): readonly Option[] {
  const { posterior, values, core } = input
  const sum = posterior.groups[group]
  const value = values.of(group, pattern)
  if (sum === undefined || value.all <= 0) return [{ set: 0, share: 1 }]
  const touches = bitOf(book.failing, sum.group.part)
  const own = ownSets(input, book, group, pattern)
  const lifting = own.filter(({ lifts }) => lifts).reduce((total, { share }) => total + share, 0)
  const under = (ref: string | undefined): number => (ref === undefined ? 0 : book.bit('beneath', ref, touches))
  return joint(value).flatMap(({ share, needed, coreNeeded }) => {
    if (share < LEAST) return []
    const atCore = coreNeeded ? under(core) : 0
    const among = own.filter(({ lifts }) => lifts === needed)
    const whole = among.reduce((total, each) => total + each.share, 0)
    if (!needed) return spread(among, whole, share).map((each) => ({ ...each, set: each.set | atCore }))
    const byOwn = Math.min(share, share * Math.min(1, lifting / Math.max(1e-12, 1 - packageSound(value))))
    return [
      ...spread(among, whole, byOwn).map((each) => ({ ...each, set: each.set | atCore })),
      ...(share - byOwn < LEAST ? [] : [{ set: under(sum.group.part) | atCore, share: share - byOwn }]),
    ]
  })
}

const packageSound = ({ all, packageSound: sound }: GroupValue): number => sound / all

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

const spread = (among: readonly (Option & { lifts: boolean })[], whole: number, share: number): Option[] =>
  whole <= 0 ? [{ set: 0, share }] : among.map((each) => ({ set: each.set, share: (share * each.share) / whole }))

function ownSets(input: WorldsInput, book: FaultBook, group: number, pattern: number) {
  const sum = input.posterior.groups[group]
  const causes = sum?.own.causes ?? []
  const touches = bitOf(book.failing, sum?.group.part)
  const stories = input.values.stories(group, pattern)
  const whole = stories.reduce((total, { mass }) => total + mass, 0)
  const told = stories.filter(({ mass }) => mass >= TRACE * whole)
  const sets = told.map(({ members, mass }) => {
    let set = 0
    let lifts = false
    for (const index of members) {
      const cause = causes[index]?.cause
      if (cause === undefined) continue
      lifts ||= cause.lifts
      if (cause.rightFrom !== NEVER) {
        set |= PUT_RIGHT
        continue
      }
      if (!cause.lifts) set |= book.bit('beside', placeOf(cause.at), touches)
      else set |= book.bit(cause.kind === 'die' ? 'die' : 'joints', cause.part, touches)
    }
    return { set, lifts, share: whole > 0 ? mass / whole : 0 }
  })
  return sets.length === 0 ? [{ set: 0, lifts: false, share: 1 }] : sets
}

/** What is to be put right beside the parts: a rail whichever branch of it, a track by its lane, what a tool hit. */
function placeOf({ kind, at }: CauseAt): string {
  if (kind === 'corridor') return `the track of ${at}`
  return at.replace(/^branch .* of /, '')
}
