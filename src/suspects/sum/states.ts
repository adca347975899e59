/** States of the shared variables with what they do to each group: listed ones one by one, those of a spill merged. */
import type { Item, ListedVariable, SharedTouch, SpillVariable } from '../network/cause.ts'
import { roleOf, seenGood } from '../network/observations.ts'
import type { CauseAt } from '../result.ts'
import type { EffectScratch, Healthy } from './effect.ts'
import type { Frame } from './frame.ts'
import { NEUTRAL } from './patterns.ts'

export interface ReducedState {
  /** Prior times the probability of what it leaves good. */
  readonly weight: number
  readonly patterns: Int32Array
  readonly healthy: Healthy | undefined
  /** Index of a part that has to come off, or -1. */
  readonly lifts: number
}

export interface ReducedVariable {
  readonly kind: ListedVariable['kind'] | SpillVariable['kind']
  /** A rail, a branch or a slip that nobody has put right yet. */
  readonly isOpen: boolean
  /** Weight of its absence, and of all states that touch nothing bad: the groups can't tell them apart. */
  readonly quiet: number
  readonly states: readonly ReducedState[]
  /** Numbers of the states that touch something bad, and of those that touch nothing. */
  readonly touching: readonly number[]
  readonly idle: readonly number[]
  /** Places that stories tell apart. */
  readonly labels: readonly CauseAt[]
  /** Row by state, column by label: share of the state's weight that lies there; rows sum to one. */
  readonly labelShare: (state: number, label: number) => number
  /** Of a spill: which merged state each of its places and bites is in, and its weight. */
  readonly parts: { readonly stateOf: Uint32Array; readonly weight: Float64Array; readonly bites: number } | undefined
}

/** The variable's states in their order without those of no weight; what they leave good is in their weights. */
export function reduceListed(
  scratch: EffectScratch,
  { kind, isOpen, absent, states }: ListedVariable,
): ReducedVariable {
  const labels: CauseAt[] = []
  const labelOf: number[] = []
  const reduced = states.flatMap(({ weight, at, touches, lifts }): ReducedState[] => {
    if (weight <= 0) return []
    scratch.start()
    for (const touch of touches) scratch.touch(touch, at.kind, 1)
    const { factor, healthy, patterns } = scratch.read()
    const known = labels.findIndex((label) => label.kind === at.kind && label.at === at.at)
    labelOf.push(known >= 0 ? known : labels.push(at) - 1)
    return [{ weight: weight * factor, patterns, healthy, lifts }]
  })
  const labelShare = (state: number, label: number): number => (labelOf[state] === label ? 1 : 0)
  return { kind, isOpen, ...quietOf(absent, reduced), states: reduced, labels, labelShare, parts: undefined }
}

function quietOf(
  absent: number,
  states: readonly ReducedState[],
): Pick<ReducedVariable, 'quiet' | 'touching' | 'idle'> {
  const isIdle = (state: number): boolean => states[state]?.patterns.every((pattern) => pattern === NEUTRAL) ?? true
  const idle = [...states.keys()].filter(isIdle)
  return {
    quiet: idle.reduce((sum, state) => sum + (states[state]?.weight ?? 0), absent),
    touching: [...states.keys()].filter((state) => !isIdle(state)),
    idle,
  }
}

/** Merges the states of one spill; its states may differ from call to call, what its items do may not. */
export type SpillMerger = (spill: SpillVariable) => ReducedVariable

const KEPT = 20_000
const WORD_BITS = 26

interface ItemTable {
  /** By bite: Π (1 - q) over what was seen to be good. */
  readonly good: readonly Float64Array[]
  /** Bit of the item in a state's key, or -1 where it touches nothing bad. */
  readonly keyBit: Int32Array
  readonly items: readonly Item[]
}

/**
 * Merges the states of spills that have these items: states that cover the same items that touch something bad become
 * one for each bite. Patterns are kept between calls.
 */
export function createSpillMerger(frame: Frame, scratch: EffectScratch, shape: SpillVariable): SpillMerger {
  const { bites, items } = shape
  let next = 0
  const tableOf = (list: readonly Item[]): ItemTable => ({
    good: bites.map(({ strength }) => Float64Array.from(list, (item) => goodFactor(frame, item, strength))),
    keyBit: Int32Array.from(list, (item) => (touchesBad(frame, item) ? next++ : -1)),
    items: list,
  })
  const tables = [tableOf(items.regions), tableOf(items.corridors), tableOf(items.areas)] as const
  const words = new Int32Array(Math.max(2, Math.ceil(next / WORD_BITS)))
  let patternsOf: Map<string | number, Int32Array>[] = bites.map(() => new Map())
  let equal = new Map<string, Int32Array>()

  const keyOf = (covered: readonly Uint16Array[]): string | number => {
    words.fill(0)
    for (let t = 0; t < tables.length; t++) {
      const list = covered[t]
      const keyBit = tables[t]?.keyBit
      if (list === undefined || keyBit === undefined) continue
      for (let i = 0; i < list.length; i++) setBit(words, keyBit[list[i] ?? 0] ?? -1)
    }
    return words.length === 2 ? (words[0] ?? 0) + (words[1] ?? 0) * 2 ** WORD_BITS : words.join()
  }
  const patternsFor = (key: string | number, bite: number, covered: readonly Uint16Array[]): Int32Array => {
    const before = patternsOf[bite]?.get(key)
    if (before !== undefined) return before
    scratch.start()
    for (const [t, table] of tables.entries()) {
      for (const index of covered[t] ?? []) {
        const item = table.items[index]
        if (item === undefined || (table.keyBit[index] ?? -1) < 0) continue
        for (const touch of item.harm)
          if (isBadTouch(frame, touch)) scratch.touch(touch, shape.kind, bites[bite]?.strength ?? 0)
        for (const touch of item.shows) if (isBadTouch(frame, touch)) scratch.touch(touch, shape.kind, 1)
      }
    }
    const { patterns: made } = scratch.read()
    const name = made.join()
    const patterns = equal.get(name) ?? made
    equal.set(name, patterns)
    patternsOf[bite]?.set(key, patterns)
    return patterns
  }
  return (spill) => {
    if (patternsOf.some(({ size }) => size > KEPT)) {
      patternsOf = bites.map(() => new Map())
      equal = new Map()
    }
    return merge({ spill, tables, keyOf, patternsFor })
  }
}

interface MergeWork {
  readonly spill: SpillVariable
  readonly tables: readonly [ItemTable, ItemTable, ItemTable]
  readonly keyOf: (covered: readonly Uint16Array[]) => string | number
  /** Equal patterns are the same object. */
  readonly patternsFor: (key: string | number, bite: number, covered: readonly Uint16Array[]) => Int32Array
}

function merge({ spill, tables, keyOf, patternsFor }: MergeWork): ReducedVariable {
  const { states, bites, prior } = spill
  const parts = states.length * bites.length
  const stateOf = new Uint32Array(parts)
  const weight = new Float64Array(parts)
  const merged: { weight: number; patterns: Int32Array }[] = []
  const placeOf = new Map<Int32Array, number>()
  for (const [index, { weight: own, regions, corridors, areas }] of states.entries()) {
    const covered = [regions, corridors, areas]
    // Places that cover the same of what matters have one key and one pattern: thousands of places become few states.
    const key = keyOf(covered)
    for (const [bite, { share }] of bites.entries()) {
      const patterns = patternsFor(key, bite, covered)
      let place = placeOf.get(patterns)
      if (place === undefined) {
        place = merged.push({ weight: 0, patterns }) - 1
        placeOf.set(patterns, place)
      }
      const mass = prior * own * share * goodOver(tables, covered, bite)
      const at = index * bites.length + bite
      stateOf[at] = place
      weight[at] = mass
      const state = merged[place]
      if (state !== undefined) state.weight += mass
    }
  }
  const labels = spill.labels.length
  // Each merged state remembers where its weight lay, so that stories can still say where it was spilled.
  const shares = new Float64Array(merged.length * labels)
  for (let at = 0; at < parts; at++) {
    const state = stateOf[at] ?? 0
    const whole = merged[state]?.weight ?? 0
    const share = whole > 0 ? (weight[at] ?? 0) / whole : 0
    const row = Math.floor(at / bites.length) * labels
    for (let label = 0; label < labels; label++) {
      shares[state * labels + label] =
        (shares[state * labels + label] ?? 0) + share * (spill.labelShare[row + label] ?? 0)
    }
  }
  const reduced = merged.map(({ weight: mass, patterns }) => ({
    weight: mass,
    patterns,
    healthy: undefined,
    lifts: -1,
  }))
  return {
    kind: spill.kind,
    isOpen: false,
    ...quietOf(1 - prior, reduced),
    states: reduced,
    labels: spill.labels,
    labelShare: (state, label) => shares[state * labels + label] ?? 0,
    parts: { stateOf, weight, bites: bites.length },
  }
}

function goodOver(
  tables: readonly [ItemTable, ItemTable, ItemTable],
  covered: readonly Uint16Array[],
  bite: number,
): number {
  let factor = 1
  for (let t = 0; t < tables.length; t++) {
    const list = covered[t]
    const good = tables[t]?.good[bite]
    if (list === undefined || good === undefined) continue
    for (let i = 0; i < list.length; i++) factor *= good[list[i] ?? 0] ?? 1
  }
  return factor
}

const roleIn = (frame: Frame, { finding, rightFrom, wrongFrom }: SharedTouch) => {
  const observation = frame.list[finding]
  return observation === undefined ? 'none' : roleOf(observation, rightFrom, wrongFrom)
}

function isBadTouch(frame: Frame, touch: SharedTouch): boolean {
  const role = roleIn(frame, touch)
  return touch.q > 0 && (role === 'bad' || role === 'both') && (frame.groupOf[touch.finding] ?? -1) >= 0
}

const touchesBad = (frame: Frame, { harm, shows }: Item): boolean =>
  harm.some((touch) => isBadTouch(frame, touch)) || shows.some((touch) => isBadTouch(frame, touch))

function goodFactor(frame: Frame, { harm, shows }: Item, strength: number): number {
  let factor = 1
  for (const touch of harm) factor *= 1 - leftGood(frame, touch, touch.q * strength)
  for (const touch of shows) factor *= 1 - leftGood(frame, touch, touch.q)
  return factor
}

function leftGood(frame: Frame, touch: SharedTouch, q: number): number {
  const observation = frame.list[touch.finding]
  const role = roleIn(frame, touch)
  return observation === undefined || role === 'none' || role === 'bad' ? 0 : seenGood(role, q, observation)
}

function setBit(words: Int32Array, bit: number): void {
  if (bit < 0) return
  const word = (bit / WORD_BITS) | 0
  words[word] = (words[word] ?? 0) | (1 << (bit - word * WORD_BITS))
}
