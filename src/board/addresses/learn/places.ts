/** The place of an address under a learnt map: residue and function values in one number. */
import { halvesOf, parityAt } from './halves.ts'
import { commonest, wordsOf } from './groups.ts'
import { residuesOf } from './residues.ts'
import { restsOf } from './rest.ts'
import type { LearntSplit } from './split.ts'

export interface Places {
  readonly ofRow: Float64Array
  /** Where most rows of each group lie; -1 for a group without rows. */
  readonly ofGroup: Float64Array
}

/** More functions than this come of too few rows only; the first then stand for all. */
const MOST_FUNCTIONS = 30

/** The place of each row's address, and for each group the one that most of its rows have. */
export function placesOf(addresses: Float64Array, group: Int32Array, groupCount: number, split: LearntSplit): Places {
  const ofRow = placesOfAddresses(addresses, split)
  return { ofRow, ofGroup: commonest(ofRow, group, groupCount) }
}

/** Bit i of the word is the value of function i. */
export const partsOf = (place: number, modulus: number): { residue: number; word: number } => ({
  residue: place % modulus,
  word: Math.floor(place / modulus),
})

/** residue + modulus * word, see `partsOf`. */
export function placesOfAddresses(addresses: Float64Array, split: LearntSplit): Float64Array {
  const { residue, addressBits } = split
  const functions = split.functions.slice(0, MOST_FUNCTIONS)
  const masks = (from: 'address' | 'rest'): number[] => functions.map((one) => (one.from === from ? one.mask : 0))
  const direct = wordsOf(halvesOf(addresses), masks('address'))
  if (residue.modulus === 1) return Float64Array.from(direct)
  const rests = wordsOf(halvesOf(restsOf(addresses, residue, addressBits)), masks('rest'))
  const residues = residuesOf(addresses, residue)
  return Float64Array.from(direct, (word, i) => (residues[i] ?? 0) + residue.modulus * (word | (rests[i] ?? 0)))
}

/** Values of masks of address bits on one address, as text. */
export const valuesOf = (address: number, masks: readonly number[]): string =>
  masks.map((mask) => parityAt(address, mask)).join('')
