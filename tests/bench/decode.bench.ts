/** Decoding against a plain BigInt loop, both over the map of the 12-package board, taken turn by turn in one run. */
import { readFileSync } from 'node:fs'
import { performance } from 'node:perf_hooks'
import { seededRandom } from '../../src/base/index.ts'
import { type AddressMapDescription, boardSchema, compileAddressMap } from '../../src/board/index.ts'

const ADDRESSES = 10_000_000
/** The loop takes minutes for all of them; it is run on the first so many, and its time scaled up. */
const LOOP_ADDRESSES = 100_000
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
  const loop = plainLoop(description)
  const looped = new Int32Array(LOOP_ADDRESSES)

  const fastMs: number[] = []
  const loopMs: number[] = []
  for (let round = 0; round < ROUNDS; round++) {
    fastMs.push(timeMs(() => map.decodeChannels(addresses, channels)))
    loopMs.push(timeMs(() => loop(asBigInt, looped)) * (ADDRESSES / LOOP_ADDRESSES))
  }
  const disagreeing = looped.findIndex((channel, i) => channel !== channels[i])
  if (disagreeing >= 0) throw new Error(`the loop and the map disagree on address ${addresses[disagreeing]}`)
  const fast = median(fastMs)
  const slow = median(loopMs)
  return {
    board: 'hitch-12',
    addresses: ADDRESSES,
    rounds: ROUNDS,
    tablesMs: Math.round(fast),
    nanosecondsPerAddress: Number(((fast * 1e6) / ADDRESSES).toFixed(1)),
    bigIntLoopMs: Math.round(slow),
    bigIntLoopScaledFrom: LOOP_ADDRESSES,
    ratio: Number((slow / fast).toFixed(1)),
    ratioOfBestRounds: Number((Math.min(...loopMs) / Math.min(...fastMs)).toFixed(1)),
    aim: 50,
  }
}

/**
 * A plain BigInt loop for a map of one mod digit over a single stretch up to the top, and xor digits over its rest or
 * the address: constants are read once, the rest is what one would write by hand.
 */
function plainLoop(map: AddressMapDescription): (addresses: readonly bigint[], out: Int32Array) => void {
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
        let parity = 0n
        for (let bits = (fromRest ? rest : address) & mask; bits > 0n; bits &= bits - 1n) parity ^= 1n
        number = number * 2n + parity
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
