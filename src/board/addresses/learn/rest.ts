/** What a mod digit leaves of addresses, and when plain low bits make its modulus even. */
import { bitRuns, gather } from '../tables.ts'
import { isSpanned } from './elimination.ts'
import { bitAt } from './halves.ts'
import type { Residue } from './residues.ts'

/** n div modulus above the bits that were not gathered, as an address map's `rest`. */
export function restsOf(addresses: Float64Array, { modulus, gathered }: Residue, addressBits: number): Float64Array {
  const kept = keptBits(gathered, addressBits)
  const runs = bitRuns(gathered)
  const keptRuns = bitRuns(kept)
  const above = 2 ** kept.length
  return addresses.map((address) => Math.floor(gather(address, runs) / modulus) * above + gather(address, keptRuns))
}

/** The address with this residue and rest; its bits beyond those gathered are lost. */
export function addressOfRest(rest: number, residue: number, split: Residue, addressBits: number): number {
  const kept = keptBits(split.gathered, addressBits)
  const above = 2 ** kept.length
  const n = Math.floor(rest / above) * split.modulus + residue
  return scatter(n, split.gathered) + scatter(rest % above, kept)
}

const scatter = (value: number, bits: readonly number[]): number =>
  bits.reduce((sum, bit, place) => sum + bitAt(value, place) * 2 ** bit, 0)

/** Address bits below `addressBits` that the mod digit does not gather, ascending. */
export const keptBits = (gathered: readonly number[], addressBits: number): number[] =>
  Array.from({ length: addressBits }, (_, bit) => bit).filter((bit) => !gathered.includes(bit))

const MOST_MODULUS = 64

/**
 * n mod m and the lowest bits of n together are n mod 2m, 4m …; n div m then loses as many low bits. So where these
 * bits are functions by themselves, one digit of even modulus says the same: mod 12 in place of mod 3 and two bits.
 * @param functions masks of address bits that are constant in each channel
 */
export function withPlainBits({ modulus, gathered }: Residue, functions: readonly number[]): Residue {
  const isPlain = (bit: number | undefined): boolean => bit !== undefined && isSpanned(2 ** bit, functions)
  const whole = [...gathered]
  while (isPlain(nextBelow(whole))) whole.unshift(nextBelow(whole) ?? 0)
  let even = modulus
  for (let place = 0; isPlain(whole[place]) && even * 2 <= MOST_MODULUS; place++) even *= 2
  return even === modulus ? { modulus, gathered } : { modulus: even, gathered: whole }
}

const nextBelow = (gathered: readonly number[]): number | undefined =>
  gathered[0] === undefined || gathered[0] === 0 ? undefined : gathered[0] - 1
