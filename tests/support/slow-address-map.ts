/**
 * The address map again, slowly and on its own: BigInt arithmetic straight from the words of the schema, sharing no code
 * with the board room. The reference that the tables are tested against, and the loop that the bench compares with.
 */
import type { AddressMapDescription, Digit } from '../../src/board/index.ts'

export interface SlowDecoded {
  channelIndex: number
  channel: string | undefined
  row?: bigint
  bank?: bigint
  column?: bigint
}

function parityOf(value: bigint): bigint {
  let odd = 0n
  for (let rest = value; rest > 0n; rest >>= 1n) odd ^= rest & 1n
  return odd
}

interface Reading {
  value: bigint
  radix: bigint
  rest: bigint
}

function readDigit(digit: Digit, address: bigint, rest: bigint, addressBits: number): Reading {
  const source = digit.from === 'rest' ? rest : address
  if (digit.kind === 'xor') return { value: parityOf(source & BigInt(digit.mask)), radix: 2n, rest }
  if (digit.kind === 'field') {
    const radix = 1n << BigInt(digit.high - digit.low + 1)
    return { value: (source >> BigInt(digit.low)) % radix, radix, rest }
  }
  const taken = (bit: number): boolean =>
    digit.bits.some(({ low, high }) => bit >= low && bit <= (high ?? addressBits - 1))
  let n = 0n
  let gathered = 0n
  let kept = 0n
  let keptCount = 0n
  for (let bit = 0; bit < addressBits; bit++) {
    const one = (source >> BigInt(bit)) & 1n
    if (taken(bit)) n |= one << gathered++
    else kept |= one << keptCount++
  }
  const modulus = BigInt(digit.modulus)
  return { value: n % modulus, radix: modulus, rest: ((n / modulus) << keptCount) | kept }
}

function readNumber(digits: readonly Digit[], address: bigint, startRest: bigint, addressBits: number) {
  let number = 0n
  let rest = startRest
  for (const digit of digits) {
    const reading = readDigit(digit, address, rest, addressBits)
    number = number * reading.radix + reading.value
    rest = reading.rest
  }
  return { number, rest }
}

/** Undefined where the map has no such address. */
export function slowDecode(map: AddressMapDescription, physical: bigint): SlowDecoded | undefined {
  const start = BigInt(map.subtract ?? 0)
  const end = map.limit === undefined ? 1n << BigInt(map.addressBits) : BigInt(map.limit)
  if (physical < start || physical >= end) return undefined
  const address = physical - start
  const { number, rest } = readNumber(map.channel.digits, address, address, map.addressBits)
  const decoded: SlowDecoded = { channelIndex: Number(number), channel: map.channel.order[Number(number)] }
  for (const key of ['row', 'bank', 'column'] as const) {
    const digits = map[key]
    if (digits !== undefined) decoded[key] = readNumber(digits, address, rest, map.addressBits).number
  }
  return decoded
}
