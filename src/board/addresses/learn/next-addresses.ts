/**
 * Which addresses to label next. What a label can tell: it puts the address in a place with others, and the difference
 * from them is one more that every function must be constant on. That halves the functions still possible, whichever
 * known label it gets, if the address has values of them that no labelled address of its residue has. Where all
 * functions are settled the same addresses lie in places whose label is not known yet.
 *
 * Where labels stay unexplained, wrong labels hide a function. The addresses then are a labelled one with single bits
 * turned over: each tells of one bit whether any function holds it.
 *
 * Candidates are labelled addresses with one bit or two of the address, or of the rest, turned over; those that turn
 * fewer bits come first. An address is passed over if it tells nothing that those before it leave open.
 */
import { bitAt } from './halves.ts'
import type { Occupancy } from './occupancy.ts'
import { placesOfAddresses, valuesOf } from './places.ts'
import { addressOfRest, restsOf } from './rest.ts'
import { residuesOf } from './residues.ts'
import type { LearntSplit } from './split.ts'

const MOST_ADDRESSES = 8
const STARTS = 4

export interface Asked {
  readonly split: LearntSplit
  readonly occupancy: Occupancy
  readonly addresses: Float64Array
  readonly labelOf: Int32Array
  /** Labels stay unexplained: a function is missing. */
  readonly isMissing: boolean
}

/** @returns at most 8 addresses, none above the highest seen; none where they could tell nothing new */
export function nextAddresses({ split, occupancy, addresses, labelOf, isMissing }: Asked): number[] {
  const byPlace = new Map<number, number>()
  let highest = 0
  for (let i = 0; i < labelOf.length; i++) {
    const place = occupancy.ofRow[i] ?? -1
    const address = addresses[i] ?? 0
    highest = Math.max(highest, address)
    if (occupancy.holds(labelOf[i] ?? -1, place) && !byPlace.has(place)) byPlace.set(place, address)
  }
  const starts = [...byPlace.values()].slice(0, STARTS)
  const offered = turnedOver(starts, split).filter((address) => address <= highest)
  const chosen = choose(offered, [...byPlace], split)
  if (chosen.length > 0 || !isMissing) return chosen
  const known = new Set(addresses)
  return offered.filter((address) => !known.has(address)).slice(0, MOST_ADDRESSES)
}

/** The first of those offered that lie in no place seen, nor in one with an address chosen before. */
function choose(
  offered: readonly number[],
  seen: readonly (readonly [number, number])[],
  split: LearntSplit,
): number[] {
  const keyOf = (place: number, address: number): string => `${place} ${valuesOf(address, split.untold)}`
  const taken = new Set(seen.map(([place, address]) => keyOf(place, address)))
  const chosen: number[] = []
  for (const [i, place] of placesOfAddresses(Float64Array.from(offered), split).entries()) {
    const address = offered[i] ?? 0
    const key = keyOf(place, address)
    if (taken.has(key)) continue
    chosen.push(address)
    taken.add(key)
    if (chosen.length === MOST_ADDRESSES) break
  }
  return chosen
}

/** Addresses beside those given, those with fewest bits turned over first, each once. */
function turnedOver(starts: readonly number[], split: LearntSplit): number[] {
  const bits = Array.from({ length: split.addressBits }, (_, bit) => bit)
  const pairs = bits.flatMap((bit, i) => bits.slice(i + 1).map((other) => [bit, other]))
  const turns = [...bits.map((bit) => [bit]), ...pairs]
  return [...new Set(turns.flatMap((turn) => starts.flatMap((start) => turned(start, turn, split))))]
}

/** The address with some bits turned over, and the one whose rest has them turned over. */
function turned(address: number, bits: readonly number[], { residue, addressBits }: LearntSplit): number[] {
  const flip = (value: number): number =>
    bits.reduce((sum, bit) => sum + (bitAt(sum, bit) === 1 ? -(2 ** bit) : 2 ** bit), value)
  if (residue.modulus === 1) return [flip(address)]
  const one = Float64Array.of(address)
  const rest = restsOf(one, residue, addressBits)[0] ?? 0
  const left = residuesOf(one, residue)[0] ?? 0
  return [addressOfRest(flip(rest), left, residue, addressBits), flip(address)]
}
