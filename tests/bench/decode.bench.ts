/**
 * Decoding against BigInt loops, over the map of the 12-package board, taken turn by turn in one run. The plain loop goes
 * through a parity bit by bit; the sparing one visits only the bits that are set.
 */
import { readFileSync } from 'node:fs'
import { performance } from 'node:perf_hooks'
import { seededRandom } from '../../src/base/index.ts'
import { type AddressMapDescription, boardSchema, compileAddressMap } from '../../src/board/index.ts'

const ADDRESSES = 10_000_000
/** The loops take minutes for all of them; they are run on the first so many, and their times scaled up. */
const LOOP_ADDRESSES = 50_000
const SCALE = ADDRESSES / LOOP_ADDRESSES
const ROUNDS = 9

export async function benchDecode(): Promise<object> {
  const description = twelvePackageMap()
  const compiled = compileAddressMap(description)
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.faults))
  const map = compiled.value
  const random = seededRandom(12)
  const addresses = Float64Array.from({ length: ADDRESSES }, () => Math.floor(random.next() * map.endAddress))
  const asBigInt = Array.from(addresses.subarray(0, LOOP_ADDRESSES), BigInt)
  const channels = new Int32Array(ADDRESSES)
  const plain = bigIntLoop(description, parityBitByBit)
  const sparing = bigIntLoop(description, parityOfSetBits)
  const looped = new Int32Array(LOOP_ADDRESSES)

  const times = { tables: Array<number>(), plain: Array<number>(), sparing: Array<number>() }
  for (let round = 0; round < ROUNDS; round++) {
    times.tables.push(timeMs(() => map.decodeChannels(addresses, channels)))
    for (const [kind, loop] of [['plain', plain] as const, ['sparing', sparing] as const]) {
      times[kind].push(timeMs(() => loop(asBigInt, looped)) * SCALE)
      const disagreeing = looped.findIndex((channel, i) => channel !== channels[i])
      if (disagreeing >= 0)
        throw new Error(`the ${kind} loop and the map disagree on address ${addresses[disagreeing]}`)
    }
  }
  const tablesMs = median(times.tables)
  return {
    board: 'hitch-12',
    addresses: ADDRESSES,
    rounds: ROUNDS,
    tablesMs: Math.round(tablesMs),
    nanosecondsPerAddress: Number(((tablesMs * 1e6) / ADDRESSES).toFixed(1)),
    plainBigIntLoopMs: Math.round(median(times.plain)),
    sparingBigIntLoopMs: Math.round(median(times.sparing)),
    loopsScaledFrom: LOOP_ADDRESSES,
    ratio: Number((median(times.plain) / tablesMs).toFixed(1)),
    ratioToSparingLoop: Number((median(times.sparing) / tablesMs).toFixed(1)),
    aim: 50,
  }
}

/** As one would write it first. */
function parityBitByBit(value: bigint): bigint {
  let parity = 0n
  for (let bits = value; bits > 0n; bits >>= 1n) parity ^= bits & 1n
  return parity
}

function parityOfSetBits(value: bigint): bigint {
  let parity = 0n
  for (let bits = value; bits > 0n; bits &= bits - 1n) parity ^= 1n
  return parity
}

/**
 * A BigInt loop for a map of one mod digit over a single stretch up to the top, and xor digits over its rest or
 * the address: constants are read once, the rest is what one would write by hand.
 */
function bigIntLoop(
  map: AddressMapDescription,
  parityOf: (value: bigint) => bigint,
): (addresses: readonly bigint[], out: Int32Array) => void {
  const end = BigInt(map.limit ?? 2 ** map.addressBits)
  const steps = map.channel.digits.map((digit) => {
    if (digit.kind === 'xor') return { mask: BigInt(digit.mask), fromRest: digit.from === 'rest', low: 0n, modulus: 0n }
    const [stretch] = digit.kind === 'mod' ? digit.bits : []
    if (digit.kind !== 'mod' || stretch === undefined || stretch.high !== undefined || digit.bits.length > 1)
      throw new Error('the loop knows xor digits and mod digits up to the top')
    return { mask: 0n, fromRest: false, low: BigInt(stretch.low), modulus: BigInt(digit.modulus) }
  })
  return (addresses, out) => {
    for (let i = 0; i < addresses.length; i++) {
      const address = addresses[i] ?? -1n
      if (address < 0n || address >= end) {
        out[i] = -1
        continue
      }
      let rest = address
      let number = 0n
      for (const { mask, fromRest, low, modulus } of steps) {
        if (modulus > 0n) {
          const n = address >> low
          number = number * modulus + (n % modulus)
          rest = ((n / modulus) << low) | (address & ((1n << low) - 1n))
          continue
        }
        number = number * 2n + parityOf((fromRest ? rest : address) & mask)
      }
      out[i] = Number(number)
    }
  }
}

function twelvePackageMap(): AddressMapDescription {
  const file = new URL('../../boards/hitch-12.json', import.meta.url)
  const { addressMap } = boardSchema.parse(JSON.parse(readFileSync(file, 'utf8')))
  if (addressMap === undefined) throw new Error('hitch-12 has no address map')
  return addressMap
}

function timeMs(work: () => void): number {
  const start = performance.now()
  work()
  return performance.now() - start
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0
