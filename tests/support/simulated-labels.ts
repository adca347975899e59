/** Labelled addresses as a technician would note them: drawn evenly from a map's memory, some labels wrong. */
import { type Random, seededRandom } from '../../src/base/index.ts'
import { type AddressMapDescription, compileAddressMap, type Digit, type Observations } from '../../src/board/index.ts'
import { numbered } from './published-maps.ts'

export interface Simulated {
  readonly observations: Observations
  /** Lines whose label is wrong, ascending. */
  readonly wrongLines: readonly number[]
}

interface Wish {
  readonly rows: number
  readonly wrongShare?: number
  readonly seed: number
}

export function simulateLabels(description: AddressMapDescription, { rows, wrongShare = 0, seed }: Wish): Simulated {
  const compiled = compileAddressMap(description)
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.faults))
  const map = compiled.value
  const random = seededRandom(seed)
  const size = map.endAddress - map.firstAddress
  const addresses = Float64Array.from({ length: rows }, () => map.firstAddress + wholeBelow(random, size))
  const labelOf = new Int32Array(rows)
  map.decodeChannels(addresses, labelOf)
  const count = map.channelIds.length
  const wrongLines: number[] = []
  for (let row = 0; row < rows; row++) {
    if (random.next() >= wrongShare) continue
    labelOf[row] = ((labelOf[row] ?? 0) + 1 + random.whole(count - 1)) % count
    wrongLines.push(row + 1)
  }
  const lines = Int32Array.from({ length: rows }, (_, row) => row + 1)
  return { observations: { addresses, labelOf, labels: map.channelIds, lines }, wrongLines }
}

/** Even below 2^52, where 32 random bits are too few. */
const wholeBelow = (random: Random, below: number): number =>
  Math.floor((random.next() + random.next() * 2 ** -32) * below)

interface Form {
  readonly addressBits: number
  /** 1 for none. */
  readonly modulus: number
  readonly functions: number
}

/**
 * A map of the form that the invented boards have: (address >> shift) mod m, then parities of the rest or of the address,
 * each of a low bit of its own and one to six bits above all of these; the memory ends at a multiple of m.
 */
export function randomMap({ addressBits, modulus, functions }: Form, random: Random): AddressMapDescription {
  const shift = 6 + random.whole(7)
  const restBits = addressBits - Math.ceil(Math.log2(modulus))
  const from = modulus > 1 && random.next() < 0.7 ? 'rest' : 'address'
  const top = from === 'rest' ? restBits : addressBits
  const digits: Digit[] = modulus === 1 ? [] : [{ kind: 'mod', modulus, bits: [{ low: shift }], from: 'address' }]
  for (let i = 0; i < functions; i++) {
    let mask = 1n << BigInt(shift + i)
    const above = 1 + random.whole(6)
    for (let k = 0; k < above; k++) mask |= 1n << BigInt(shift + functions + random.whole(top - shift - functions))
    digits.push({ kind: 'xor', mask: `0x${mask.toString(16)}`, from })
  }
  return {
    addressBits,
    limit: `0x${(BigInt(modulus) << BigInt(restBits)).toString(16)}`,
    channel: { digits, order: numbered(modulus * 2 ** functions) },
  }
}

/** Of so many random addresses, on how many the two maps name another channel. */
export function disagreements(one: AddressMapDescription, other: AddressMapDescription, seed: number): number {
  const maps = [compileAddressMap(one), compileAddressMap(other)].map((compiled) => {
    if (!compiled.ok) throw new Error(JSON.stringify(compiled.faults))
    return compiled.value
  })
  const random = seededRandom(seed)
  const end = Math.min(...maps.map(({ endAddress }) => endAddress))
  let count = 0
  for (let i = 0; i < 2000; i++) {
    const address = wholeBelow(random, end)
    const [first, second] = maps.map((map) => map.decode(address)?.channel)
    if (first !== second) count++
  }
  return count
}
