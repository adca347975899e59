/**
 * From the whole network to what matters for the bad findings, exactly. Good findings and causes that touch no bad
 * finding are summed out in closed form: a cause's weight is multiplied by Π (1 - q) over the good findings that it
 * touches. States of a spatial cause that do the same to the bad findings and lift the same parts merge.
 */
import type { Firing } from './lattice.ts'
import type { Item, Network, PointCause, SpatialCause, SpatialState, Touch } from './network.ts'

/** A point cause given all good findings and signatures: independent of the others but for the bad findings. */
export interface ReducedPoint {
  readonly cause: PointCause
  /** Probability that it is there, by the good findings alone. */
  readonly probability: number
  readonly firing: Firing
}

export interface ReducedGroup {
  /** Share among all states and absence; by the good findings alone. */
  readonly weight: number
  readonly firing: Firing
  /** Parts that it lifts, ascending, and the number of that set in `liftSets`. */
  readonly lifts: readonly number[]
  readonly liftSet: number
}

export interface ReducedSpatial {
  readonly cause: SpatialCause
  readonly absent: number
  readonly groups: readonly ReducedGroup[]
  readonly liftSets: readonly (readonly number[])[]
  /** Group of each state of the cause, and the state's own share of the total (as `ReducedGroup.weight`). */
  readonly groupOf: Uint32Array
  readonly stateWeight: Float64Array
  /** Row by group, column by label: weight of the group that lies under the label. */
  readonly labelWeight: Float64Array
}

const NO_FIRING: Firing = { bits: new Uint8Array(0), q: new Float64Array(0) }
const LEAST_LEAK = 1e-12

/** What does not depend on any one spill: which findings are bad bits, which areas fold into one spatial cause. */
export interface Frame {
  readonly network: Network
  readonly bad: readonly number[]
  readonly leak: Float64Array
  /** Bit of each finding, or -1. */
  readonly bitOf: Int16Array
  /** Bad findings that only one spatial cause touches: index of that cause. They weigh its states and are no bits. */
  readonly foldedInto: ReadonlyMap<number, number>
}

export function frameOf(network: Network): Frame {
  const pointTouched = new Set(network.points.flatMap((cause) => cause.touches.map((touch) => touch.finding)))
  const bitOf = new Int16Array(network.findings.length).fill(-1)
  const foldedInto = new Map<number, number>()
  const bad: number[] = []
  for (const [index, finding] of network.findings.entries()) {
    if (!finding.bad) continue
    const touching = network.spatials.flatMap((cause, spatial) => (touchesFinding(cause, index) ? [spatial] : []))
    const only = touching.length === 1 ? touching[0] : undefined
    if (finding.kind === 'area' && only !== undefined && !pointTouched.has(index)) foldedInto.set(index, only)
    else if (touching.length > 0 || pointTouched.has(index)) {
      bitOf[index] = bad.length
      bad.push(index)
    }
  }
  const leak = Float64Array.from(bad, (index) => network.findings[index]?.leak ?? 0)
  return { network, bad, leak, bitOf, foldedInto }
}

function touchesFinding(cause: SpatialCause, finding: number): boolean {
  if (cause.states.length === 0) return false
  const touches = (item: Item): boolean => item.touches.some((touch) => touch.finding === finding)
  return cause.regionItems.some(touches) || cause.corridorItems.some(touches) || cause.areaItems.some(touches)
}

export function reducePoints(frame: Frame): { points: ReducedPoint[]; idle: ReducedPoint[] } {
  const points: ReducedPoint[] = []
  const idle: ReducedPoint[] = []
  for (const cause of frame.network.points) {
    const { goodFactor, firing } = split(frame, cause.touches)
    const present = cause.prior * goodFactor * signatureFactor(frame, cause, firing)
    const absent = 1 - cause.prior
    const probability = present + absent > 0 ? present / (present + absent) : 1
    ;(firing.bits.length > 0 ? points : idle).push({ cause, probability, firing })
  }
  return { points, idle }
}

function split(frame: Frame, touches: readonly Touch[]): { goodFactor: number; firing: Firing } {
  let goodFactor = 1
  const bits: number[] = []
  const q: number[] = []
  for (const touch of touches) {
    if (!frame.network.findings[touch.finding]?.bad) goodFactor *= 1 - touch.q
    const bit = frame.bitOf[touch.finding] ?? -1
    if (bit < 0 || touch.q <= 0) continue
    bits.push(bit)
    q.push(touch.q)
  }
  return {
    goodFactor,
    firing: bits.length === 0 ? NO_FIRING : { bits: Uint8Array.from(bits), q: Float64Array.from(q) },
  }
}

/** Product of the signature's ratio over the parts of which the cause touches a bad lane. */
function signatureFactor(frame: Frame, cause: { readonly kind: PointCause['kind'] }, firing: Firing): number {
  const parts = new Set<string>()
  for (const bit of firing.bits) {
    const part = frame.network.findings[frame.bad[bit] ?? -1]?.part
    if (part !== undefined) parts.add(part)
  }
  let factor = 1
  for (const part of parts) factor *= frame.network.signatureRatio(part, cause.kind)
  return factor
}

/** What covering an item does, made ready for the loop over states. */
interface ItemTable {
  readonly weight: Float64Array
  /** Bit of the item in a state's key, or -1 where it touches no bad finding. */
  readonly keyBit: Int32Array
  /** Bit of the item's part in a state's key, or -1. */
  readonly partBit: Int32Array
  readonly bad: readonly (readonly Touch[])[]
}

/**
 * Merges the states of a spatial cause.
 * @param index where the cause stands among the network's spatial ones; its states may be others than there
 * @returns undefined where it has no states or can't be there
 */
export function reduceSpatial(frame: Frame, index: number, cause: SpatialCause): ReducedSpatial | undefined {
  if (cause.states.length === 0 || cause.prior <= 0) return undefined
  const counter = { next: frame.network.parts.length }
  const tables = {
    regions: tableOf(frame, index, cause.regionItems, counter),
    corridors: tableOf(frame, index, cause.corridorItems, counter),
    areas: tableOf(frame, index, cause.areaItems, counter),
  }
  const gathered = gather(frame, cause, tables, counter.next)
  let total = 1 - cause.prior
  for (const weight of gathered.stateWeight) total += weight
  const norm = total > 0 ? 1 / total : 0
  const labels = cause.labels.length
  for (let state = 0; state < cause.states.length; state++) {
    gathered.stateWeight[state] = (gathered.stateWeight[state] ?? 0) * norm
  }
  const labelWeight = new Float64Array(gathered.groups.length * labels)
  const weight = new Float64Array(gathered.groups.length)
  for (let state = 0; state < cause.states.length; state++) {
    const group = gathered.groupOf[state] ?? 0
    const own = gathered.stateWeight[state] ?? 0
    weight[group] = (weight[group] ?? 0) + own
    for (let label = 0; label < labels; label++) {
      const at = group * labels + label
      labelWeight[at] = (labelWeight[at] ?? 0) + own * (cause.labelShare[state * labels + label] ?? 0)
    }
  }
  const groups = gathered.groups.map((group, at) => ({ ...group, weight: weight[at] ?? 0 }))
  const { groupOf, stateWeight, liftSets } = gathered
  return { cause, absent: (1 - cause.prior) * norm, groups, liftSets, groupOf, stateWeight, labelWeight }
}

/** Leaks of folded areas are common to all states of their cause, so states are weighed by the ratio to them. */
const foldedLeak = (frame: Frame, finding: number): number =>
  Math.max(frame.network.findings[finding]?.leak ?? 0, LEAST_LEAK)

function tableOf(frame: Frame, index: number, items: readonly Item[], counter: { next: number }): ItemTable {
  const weight = new Float64Array(items.length)
  const keyBit = new Int32Array(items.length).fill(-1)
  const partBit = new Int32Array(items.length).fill(-1)
  const bad: Touch[][] = []
  for (const [at, item] of items.entries()) {
    weight[at] = itemWeight(frame, index, item)
    partBit[at] = item.part
    const touches = item.touches.filter((touch) => (frame.bitOf[touch.finding] ?? -1) >= 0 && touch.q > 0)
    bad.push(touches)
    if (touches.length > 0) keyBit[at] = counter.next++
  }
  return { weight, keyBit, partBit, bad }
}

function itemWeight(frame: Frame, index: number, item: Item): number {
  let weight = 1
  for (const touch of item.touches) {
    const finding = frame.network.findings[touch.finding]
    if (finding === undefined) continue
    if (!finding.bad) weight *= 1 - touch.q
    else if (frame.foldedInto.get(touch.finding) === index) {
      const leak = foldedLeak(frame, touch.finding)
      weight *= (1 - (1 - leak) * (1 - touch.q)) / leak
    }
  }
  return weight
}

interface Gathered {
  readonly groups: Omit<ReducedGroup, 'weight'>[]
  /** What the signatures make of each group. */
  readonly factor: number[]
  readonly liftSets: number[][]
  readonly groupOf: Uint32Array
  readonly stateWeight: Float64Array
}

type Tables = Readonly<Record<'regions' | 'corridors' | 'areas', ItemTable>>

/** Numbers the states by what they do: a key of bits, in two halves of 26 bits where it fits, as text where not. */
function gather(frame: Frame, cause: SpatialCause, tables: Tables, keyBits: number): Gathered {
  const words = new Int32Array(Math.max(2, Math.ceil(keyBits / 26)))
  const known = new Map<number | string, number>()
  const liftSetNumbers = new Map<string, number>()
  const result: Gathered = {
    groups: [],
    factor: [],
    liftSets: [],
    groupOf: new Uint32Array(cause.states.length),
    stateWeight: new Float64Array(cause.states.length),
  }
  for (const [at, state] of cause.states.entries()) {
    words.fill(0)
    const factor =
      mark(words, tables.regions, state.regions) *
      mark(words, tables.corridors, state.corridors) *
      mark(words, tables.areas, state.areas)
    const key = words.length === 2 ? (words[0] ?? 0) + (words[1] ?? 0) * 0x400_0000 : words.join()
    let group = known.get(key)
    if (group === undefined) {
      group = result.groups.length
      known.set(key, group)
      const made = groupFor(frame, tables, state, liftSetNumbers, result.liftSets)
      result.groups.push(made)
      result.factor.push(signatureFactor(frame, cause, made.firing))
    }
    result.groupOf[at] = group
    result.stateWeight[at] = cause.prior * state.weight * factor * (result.factor[group] ?? 1)
  }
  return result
}

/** Sets the key bits of what a state covers; answers the product of the items' weights. */
function mark(words: Int32Array, table: ItemTable, covered: Uint16Array): number {
  let weight = 1
  for (let i = 0; i < covered.length; i++) {
    const item = covered[i] ?? 0
    weight *= table.weight[item] ?? 1
    const keyBit = table.keyBit[item] ?? -1
    const partBit = table.partBit[item] ?? -1
    if (keyBit >= 0) setBit(words, keyBit)
    if (partBit >= 0) setBit(words, partBit)
  }
  return weight
}

function setBit(words: Int32Array, bit: number): void {
  const word = Math.floor(bit / 26)
  words[word] = (words[word] ?? 0) | (1 << (bit % 26))
}

function groupFor(
  frame: Frame,
  tables: Tables,
  state: SpatialState,
  liftSetNumbers: Map<string, number>,
  liftSets: number[][],
): Omit<ReducedGroup, 'weight'> {
  const good = new Float64Array(frame.bad.length).fill(1)
  const lifts: number[] = []
  cover(frame, tables.regions, state.regions, good, lifts)
  cover(frame, tables.corridors, state.corridors, good, lifts)
  cover(frame, tables.areas, state.areas, good, lifts)
  lifts.sort((a, b) => a - b)
  const key = lifts.join()
  let liftSet = liftSetNumbers.get(key)
  if (liftSet === undefined) {
    liftSet = liftSets.push(lifts) - 1
    liftSetNumbers.set(key, liftSet)
  }
  return { firing: firingOf(good), lifts, liftSet }
}

/** Multiplies into `good` what covering these items does, and adds the parts that they lift. */
function cover(frame: Frame, table: ItemTable, covered: Uint16Array, good: Float64Array, lifts: number[]): void {
  for (let i = 0; i < covered.length; i++) {
    const item = covered[i] ?? 0
    const part = table.partBit[item] ?? -1
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
