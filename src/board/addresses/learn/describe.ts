/** A learnt map as the address map of a board description. */
import type { AddressMapDescription, Digit } from '../../schema.ts'
import { hexOf } from '../hex.ts'
import type { LearntMap } from './learn.ts'

/**
 * First the mod digit, then the functions in their order; each label stands where its addresses lie, that of a package at
 * each of its places, unless labels of channels name all places. Rows, banks and columns can't be learnt from labels, nor
 * can the end of the memory: the map ends with its highest address bit, and one with a modulus, which shares out no power of
 * two fairly, at the next modulus times a power of two above the highest address seen.
 * @returns undefined where the map is not settled, a place has no known label, or has more than one
 */
export function describeLearntMap(map: LearntMap): AddressMapDescription | undefined {
  const { functions, modulus, isSettled, places, addressBits } = map
  const size = modulus * 2 ** functions.length
  if (!isSettled || addressBits === 0 || size > places.length) return undefined
  const digits = [
    ...modDigits(map),
    ...functions.map(({ mask, from }): Digit => ({ kind: 'xor', mask: hexOf(mask), from })),
  ]
  if (digits.length === 0) return undefined
  const isByChannel = places.every(({ channel }) => channel !== undefined)
  const order = places.flatMap((place) => (isByChannel ? place.channel : place.package) ?? [])
  if (order.length !== size) return undefined
  return { ...endOf(map), channel: { digits, order } }
}

function endOf({ modulus, gathered, addressBits, highestAddress }: LearntMap): {
  addressBits: number
  limit?: string
} {
  if (modulus === 1) return { addressBits }
  const doublings = Math.max(0, Math.ceil(Math.log2((highestAddress + 1) / modulus)))
  const limit = modulus * 2 ** doublings
  const bits = Math.ceil(Math.log2(limit))
  // where the modulus does not read the highest bits, one bit more would be another map
  if (bits > addressBits && gathered.at(-1) !== addressBits - 1) return { addressBits }
  return bits > 52 ? { addressBits } : { addressBits: Math.max(bits, addressBits), limit: hexOf(limit) }
}

function modDigits({ modulus, gathered, addressBits }: LearntMap): Digit[] {
  if (modulus === 1) return []
  const stretches: { low: number; high?: number }[] = []
  for (const bit of gathered) {
    const last = stretches.at(-1)
    if (last?.high === bit - 1) last.high = bit
    else stretches.push({ low: bit, high: bit })
  }
  const bits = stretches.map(({ low, high }) => (high === addressBits - 1 ? { low } : { low, high }))
  return [{ kind: 'mod', modulus, bits, from: 'address' }]
}
