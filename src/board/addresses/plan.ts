/**
 * An address map laid out for computing: which source each digit reads, its rows over GF(2), its weight in the number.
 * Source 0 is the address after `subtract`; every further source is the rest that one mod digit leaves. The row, bank
 * and column digits each start from the rest that the channel digits leave.
 */
import { bad, type Fault, good, type Result, say } from '../../base/index.ts'
import type { AddressMapDescription, Digit } from '../schema.ts'
import { checkDigit, checkRange, type DigitPlace } from './digit-checks.ts'

/** rest = (n div modulus) above the kept bits, where n is the gathered bits of the parent source, lowest first. */
export interface RestSource {
  readonly parent: number
  readonly gathered: readonly number[]
  readonly kept: readonly number[]
  readonly modulus: number
  /** Place of the mod digit in its number. */
  readonly digit: number
}

/** One bit of a number that is linear over GF(2): parity(source AND mask). */
export interface LinearBit {
  readonly source: number
  readonly mask: bigint
  /** Place of the digit in its number, for naming it. */
  readonly digit: number
}

/** A number is the sum of its terms: a stretch of linear bits, or a residue, each times its weight. */
export type Term =
  | { readonly kind: 'bits'; readonly lowest: number; readonly width: number; readonly weight: number }
  | { readonly kind: 'residue'; readonly source: number; readonly weight: number }

export interface NumberPlan {
  /** How many values the number can take: the product of its digits' radices. */
  readonly radix: number
  readonly bits: readonly LinearBit[]
  readonly terms: readonly Term[]
}

export const CELL_NUMBERS = ['row', 'bank', 'column'] as const
export type CellNumber = (typeof CELL_NUMBERS)[number]

export interface AddressPlan {
  readonly addressBits: number
  /** First mapped address, and first beyond: whole numbers. */
  readonly first: number
  readonly end: number
  /** Source i is `rests[i - 1]`. */
  readonly rests: readonly RestSource[]
  readonly channel: NumberPlan
  readonly cells: ReadonlyMap<CellNumber, NumberPlan>
}

const MAX_RADIX = 2 ** 31

/**
 * Checks a description and lays it out.
 * @returns the plan, or every fault: masks and bits beyond the address, bits gathered twice, numbers of 2^31 and more,
 * an order that is not as long as the digits count, an empty range of addresses
 */
export function planAddressMap(map: AddressMapDescription, pathPrefix = '$.addressMap'): Result<AddressPlan> {
  const faults = [...checkRange(map, pathPrefix), ...digitFaults(map, pathPrefix)]
  if (faults.length > 0) return bad(...faults)
  const rests: RestSource[] = []
  const channel = planNumber(map.channel.digits, map.addressBits, rests, 0)
  const left = rests.length
  const cells = new Map<CellNumber, NumberPlan>()
  for (const key of CELL_NUMBERS) {
    const digits = map[key]
    if (digits !== undefined) cells.set(key, planNumber(digits, map.addressBits, rests, left))
  }
  faults.push(...orderFaults(map, channel.radix, pathPrefix))
  for (const [key, { radix }] of cells) if (radix > MAX_RADIX) faults.push(tooManyValues(`${pathPrefix}.${key}`, radix))
  if (faults.length > 0) return bad(...faults)
  const first = map.subtract === undefined ? 0 : Number(map.subtract)
  const end = map.limit === undefined ? 2 ** map.addressBits : Number(map.limit)
  return good({ addressBits: map.addressBits, first, end, rests, channel, cells })
}

function digitFaults(map: AddressMapDescription, pathPrefix: string): Fault[] {
  const places: DigitPlace[] = map.channel.digits.map((digit, i) => ({
    digit,
    path: `${pathPrefix}.channel.digits[${i}]`,
  }))
  for (const key of CELL_NUMBERS) {
    for (const [i, digit] of (map[key] ?? []).entries()) places.push({ digit, path: `${pathPrefix}.${key}[${i}]` })
  }
  return places.flatMap((place) => checkDigit(place, map.addressBits))
}

function orderFaults(map: AddressMapDescription, radix: number, pathPrefix: string): Fault[] {
  const { digits, order } = map.channel
  if (order.length === radix) return []
  return [
    {
      path: `${pathPrefix}.channel.order`,
      found: say('{count} channels', { count: order.length }),
      expected: say('{radix}, the product of the digits’ radices {digits}', {
        radix,
        digits: digits.map(radixOf).join(' × '),
      }),
      todo: say('Name a channel for each number that the digits make.'),
    },
  ]
}

/** How many values a digit takes. */
function radixOf(digit: Digit): number {
  if (digit.kind === 'xor') return 2
  return digit.kind === 'mod' ? digit.modulus : 2 ** (digit.high - digit.low + 1)
}

const tooManyValues = (path: string, radix: number): Fault => ({
  path,
  found: say('{radix} values', { radix }),
  expected: say('at most {maxRadix}', { maxRadix: MAX_RADIX }),
})

/** Lays out one number; pushes the rests of its mod digits. `rest` is the source that `from: rest` means at first. */
function planNumber(digits: readonly Digit[], addressBits: number, rests: RestSource[], startRest: number): NumberPlan {
  let rest = startRest
  const placed = digits.map((digit, place) => {
    const source = digit.from === 'rest' ? rest : 0
    if (digit.kind !== 'mod') return { digit, source, place }
    const gathered = gatheredBits(digit, addressBits)
    const kept = bitsUpTo(addressBits).filter((bit) => !gathered.includes(bit))
    rests.push({ parent: source, gathered, kept, modulus: digit.modulus, digit: place })
    rest = rests.length
    return { digit, source: rest, place }
  })
  const bits: LinearBit[] = []
  const terms: Term[] = []
  let radix = 1
  for (const { digit, source, place } of placed.toReversed()) {
    if (digit.kind === 'mod') {
      terms.push({ kind: 'residue', source, weight: radix })
      radix *= digit.modulus
      continue
    }
    const masks = digitMasks(digit)
    addBits(terms, bits.length, masks.length, radix)
    for (const mask of masks) bits.push({ source, mask, digit: place })
    radix *= 2 ** masks.length
  }
  return { radix, bits, terms }
}

/** Lengthens the last stretch of bits, or starts one after a residue. */
function addBits(terms: Term[], lowest: number, width: number, weight: number): void {
  const last = terms.at(-1)
  if (last?.kind === 'bits') terms[terms.length - 1] = { ...last, width: last.width + width }
  else terms.push({ kind: 'bits', lowest, width, weight })
}

function digitMasks(digit: Exclude<Digit, { kind: 'mod' }>): bigint[] {
  if (digit.kind === 'xor') return [BigInt(digit.mask)]
  return bitsUpTo(digit.high - digit.low + 1).map((bit) => 1n << BigInt(digit.low + bit))
}

/** The source bits that a mod digit gathers, ascending. */
export function gatheredBits(digit: Extract<Digit, { kind: 'mod' }>, addressBits: number): number[] {
  const bits = digit.bits.flatMap(({ low, high = addressBits - 1 }) =>
    bitsUpTo(Math.max(0, high - low + 1)).map((bit) => low + bit),
  )
  return bits.toSorted((a, b) => a - b)
}

const bitsUpTo = (count: number): number[] => Array.from({ length: count }, (_, bit) => bit)
