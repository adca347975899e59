/**
 * States of a spatial cause that do the same to the bad findings and lift the same parts become one group. Groups are
 * remembered from one spill to the next of the same card, so that dragging a spill only weighs them anew.
 */
import type { Firing } from './lattice.ts'
import type { Item, SpatialCause, SpatialState, Touch } from './network.ts'
import { type Frame, NO_FIRING, type ReducedGroup, type ReducedSpatial, signatureFactor } from './reduce.ts'

/** Merges the states of one spatial cause; the states may differ from call to call, what items do may not. */
export type Merger = (cause: SpatialCause) => ReducedSpatial | undefined

interface KnownGroup {
  readonly firing: Firing
  readonly lifts: readonly number[]
  readonly liftSet: number
  /** What the signatures make of it. */
  readonly factor: number
}

interface Memory {
  readonly numbers: Map<number | string, number>
  readonly groups: KnownGroup[]
  readonly liftSets: number[][]
  readonly liftSetNumbers: Map<string, number>
}

const KEPT_GROUPS = 20_000
const LEAST_LEAK = 1e-12
const WORD_BITS = 26

const emptyMemory = (): Memory => ({ numbers: new Map(), groups: [], liftSets: [], liftSetNumbers: new Map() })

/**
 * @param index where the cause stands among the network's spatial ones
 * @param shape the cause, for its items
 */
export function createMerger(frame: Frame, index: number, shape: SpatialCause): Merger {
  const tables = tablesOf(frame, index, shape)
  let memory = emptyMemory()
  return (cause) => {
    if (cause.states.length === 0 || cause.prior <= 0) return undefined
    if (memory.groups.length > KEPT_GROUPS) memory = emptyMemory()
    return merge(frame, cause, tables, memory)
  }
}

function merge(frame: Frame, cause: SpatialCause, tables: Tables, memory: Memory): ReducedSpatial {
  const count = cause.states.length
  const groupOf = new Uint32Array(count)
  const stateWeight = new Float64Array(count)
  const places = new Map<number, number>()
  const used: KnownGroup[] = []
  let total = 1 - cause.prior
  for (let state = 0; state < count; state++) {
    const covered = cause.states[state]
    if (covered === undefined) continue
    const { key, factor } = keyOf(tables, covered)
    let number = memory.numbers.get(key)
    if (number === undefined) {
      number = memory.groups.push(groupFor(frame, cause, tables, covered, memory)) - 1
      memory.numbers.set(key, number)
    }
    const group = memory.groups[number]
    let place = places.get(number)
    if (place === undefined && group !== undefined) {
      place = used.push(group) - 1
      places.set(number, place)
    }
    groupOf[state] = place ?? 0
    const weight = cause.prior * covered.weight * factor * (group?.factor ?? 1)
    stateWeight[state] = weight
    total += weight
  }
  const norm = total > 0 ? 1 / total : 0
  const { weight, labelWeight } = weigh(cause, used.length, groupOf, stateWeight, norm)
  const groups: ReducedGroup[] = used.map(({ firing, lifts, liftSet }, at) => {
    return { weight: weight[at] ?? 0, firing, lifts, liftSet }
  })
  const { liftSets } = memory
  return { cause, absent: (1 - cause.prior) * norm, groups, liftSets, groupOf, stateWeight, labelWeight }
}

/** Scales the states' weights by `norm`, in place, and adds them up by group and by label. */
function weigh(cause: SpatialCause, groups: number, groupOf: Uint32Array, stateWeight: Float64Array, norm: number) {
  const labels = cause.labels.length
  const labelWeight = new Float64Array(groups * labels)
  const weight = new Float64Array(groups)
  for (let state = 0; state < groupOf.length; state++) {
    const group = groupOf[state] ?? 0
    const own = (stateWeight[state] ?? 0) * norm
    stateWeight[state] = own
    weight[group] = (weight[group] ?? 0) + own
    for (let label = 0; label < labels; label++) {
      const at = group * labels + label
      labelWeight[at] = (labelWeight[at] ?? 0) + own * (cause.labelShare[state * labels + label] ?? 0)
    }
  }
  return { weight, labelWeight }
}

/** What covering an item does, made ready for the loop over states. */
interface ItemTable {
  readonly weight: Float64Array
  /** Bit of the item in a state's key, or -1 where it touches no bad finding. */
  readonly keyBit: Int32Array
  /** Bit of the item's part in a state's key, or -1. */
  readonly partBit: Int32Array
  readonly part: Int32Array
  readonly bad: readonly (readonly Touch[])[]
}

interface Tables extends Readonly<Record<'regions' | 'corridors' | 'areas', ItemTable>> {
  /** Scratch for the key of one state, 26 bits a word. */
  readonly words: Int32Array
}

function tablesOf(frame: Frame, index: number, shape: SpatialCause): Tables {
  const partBits = new Map<number, number>()
  let next = 0
  const tableOf = (items: readonly Item[]): ItemTable => {
    const bad = items.map((item) =>
      item.touches.filter((touch) => (frame.bitOf[touch.finding] ?? -1) >= 0 && touch.q > 0),
    )
    const partBit = items.map(({ part }) => {
      if (part >= 0 && !partBits.has(part)) partBits.set(part, next++)
      return partBits.get(part) ?? -1
    })
    return {
      weight: Float64Array.from(items, (item) => itemWeight(frame, index, item)),
      keyBit: Int32Array.from(bad, (touches) => (touches.length > 0 ? next++ : -1)),
      partBit: Int32Array.from(partBit),
      part: Int32Array.from(items, ({ part }) => part),
      bad,
    }
  }
  const regions = tableOf(shape.regionItems)
  const corridors = tableOf(shape.corridorItems)
  const areas = tableOf(shape.areaItems)
  return { regions, corridors, areas, words: new Int32Array(Math.max(2, Math.ceil(next / WORD_BITS))) }
}

/** Π (1 - q) over good findings; for an area that folds into this cause, the ratio of "seen" here to elsewhere. */
function itemWeight(frame: Frame, index: number, item: Item): number {
  let weight = 1
  for (const touch of item.touches) {
    const finding = frame.network.findings[touch.finding]
    if (finding === undefined || finding.asked === true) continue
    if (!finding.bad) weight *= 1 - touch.q
    else if (frame.foldedInto.get(touch.finding) === index) {
      const leak = Math.max(finding.leak, LEAST_LEAK)
      weight *= (1 - (1 - leak) * (1 - touch.q)) / leak
    }
  }
  return weight
}

/** A state's key (a number of up to 52 bits where it fits, else text) and the product of its items' weights. */
function keyOf(tables: Tables, state: SpatialState): { key: number | string; factor: number } {
  const { words } = tables
  words.fill(0)
  const factor =
    mark(words, tables.regions, state.regions) *
    mark(words, tables.corridors, state.corridors) *
    mark(words, tables.areas, state.areas)
  const key = words.length === 2 ? (words[0] ?? 0) + (words[1] ?? 0) * 2 ** WORD_BITS : words.join()
  return { key, factor }
}

function mark(words: Int32Array, table: ItemTable, covered: Uint16Array): number {
  let weight = 1
  for (let i = 0; i < covered.length; i++) {
    const item = covered[i] ?? 0
    weight *= table.weight[item] ?? 1
    setBit(words, table.keyBit[item] ?? -1)
    setBit(words, table.partBit[item] ?? -1)
  }
  return weight
}

function setBit(words: Int32Array, bit: number): void {
  if (bit < 0) return
  const word = (bit / WORD_BITS) | 0
  words[word] = (words[word] ?? 0) | (1 << (bit - word * WORD_BITS))
}

function groupFor(frame: Frame, cause: SpatialCause, tables: Tables, state: SpatialState, memory: Memory): KnownGroup {
  const good = new Float64Array(frame.bad.length).fill(1)
  const lifts: number[] = []
  cover(frame, tables.regions, state.regions, good, lifts)
  cover(frame, tables.corridors, state.corridors, good, lifts)
  cover(frame, tables.areas, state.areas, good, lifts)
  lifts.sort((a, b) => a - b)
  const key = lifts.join()
  let liftSet = memory.liftSetNumbers.get(key)
  if (liftSet === undefined) {
    liftSet = memory.liftSets.push(lifts) - 1
    memory.liftSetNumbers.set(key, liftSet)
  }
  const firing = firingOf(good)
  return { firing, lifts, liftSet, factor: signatureFactor(frame, cause, firing) }
}

/** Multiplies into `good` what covering these items does, and adds the parts that they lift. */
function cover(frame: Frame, table: ItemTable, covered: Uint16Array, good: Float64Array, lifts: number[]): void {
  for (let i = 0; i < covered.length; i++) {
    const item = covered[i] ?? 0
    const part = table.part[item] ?? -1
    if (part >= 0 && !lifts.includes(part)) lifts.push(part)
    for (const touch of table.bad[item] ?? []) {
      const bit = frame.bitOf[touch.finding] ?? -1
      good[bit] = (good[bit] ?? 1) * (1 - touch.q)
    }
  }
}

function firingOf(good: Float64Array): Firing {
  let count = 0
  for (let bit = 0; bit < good.length; bit++) if ((good[bit] ?? 1) < 1) count++
  if (count === 0) return NO_FIRING
  const bits = new Uint8Array(count)
  const q = new Float64Array(count)
  let at = 0
  for (let bit = 0; bit < good.length; bit++) {
    const left = good[bit] ?? 1
    if (left >= 1) continue
    bits[at] = bit
    q[at++] = 1 - left
  }
  return { bits, q }
}
