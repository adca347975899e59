/** Counting rows with addresses: each batch is decoded at once, then its failing bits go to lanes. */
import type { AddressMap, BoardModel } from '../board/index.ts'
import { BATCH_ROWS, type RowBatch } from './batch.ts'
import { type Counts, indicesOf } from './counts.ts'
import type { BitSource } from './plan.ts'
import { newReservoirs, type Reservoirs } from './reservoir.ts'

export interface WordCounter {
  readonly counts: Counts
  readonly reservoirs: Reservoirs
  /** Rows with a mapped address, and with none. */
  mapped: number
  unmapped: number
  /** Highest mapped address in the report, -1 while there is none. */
  highestAddress: number
  /** Counts and empties the batch; `onUnmapped` is told the place in the batch of each row beyond the map. */
  take(batch: RowBatch, onUnmapped: (row: number) => void): void
}

/** How the bits of one channel lie: for each of its data bits, the lane and the bit counter. */
interface ChannelWiring {
  readonly channel: number
  readonly bitCount: number
  /** Place of the lane among the channel's lanes, -1 where no lane carries the bit. */
  readonly laneOfBit: Int32Array
  readonly counterOfBit: Int32Array
  readonly lanes: Int32Array
  /** For each part of the channel, its index and which of the channel's lanes it carries. */
  readonly parts: readonly { readonly part: number; readonly lanes: number }[]
}

/**
 * @param counts counters of the same board
 * A row's word begins at its byte address A, little end first: bit b of the word is data bit (8·A + b) mod bitCount of
 * the channel that A lies in, so that longer words are several beats of the same channel.
 */
export function newWordCounter(counts: Counts, map: AddressMap, bits: BitSource): WordCounter {
  const wirings = wiringByNumber(counts, map)
  const reservoirs = newReservoirs(counts.model.channels.length)
  const channels = new Int32Array(BATCH_ROWS)
  const polarity = bits !== 'difference' && bits !== 'bit'
  const counter: WordCounter = {
    counts,
    reservoirs,
    mapped: 0,
    unmapped: 0,
    highestAddress: -1,
    take: (batch, onUnmapped) => {
      map.decodeChannels(batch.address.subarray(0, batch.rows), channels)
      for (let row = 0; row < batch.rows; row++) {
        const wiring = wirings[channels[row] ?? -1]
        const address = batch.address[row] ?? 0
        if (wiring === undefined) {
          counter.unmapped++
          onUnmapped(row)
          continue
        }
        counter.mapped++
        if (address > counter.highestAddress) counter.highestAddress = address
        const low = batch.differenceLow[row] ?? 0
        const high = batch.differenceHigh[row] ?? 0
        const count = batch.count[row] ?? 0
        if (bits === 'none') {
          countWhere(counts, wiring, count)
        } else {
          if ((low | high) === 0 || count === 0) continue
          const offset = offsetOf(address, wiring.bitCount)
          let hit = 0
          if (low !== 0) hit = countBits(counts, wiring, offset, low, batch.actualLow[row] ?? 0, count, polarity)
          if (high !== 0)
            hit |= countBits(counts, wiring, offset + 32, high, batch.actualHigh[row] ?? 0, count, polarity)
          countLanes(counts, wiring, hit, count)
        }
        if (count > 0) reservoirs.offer(wiring.channel, address)
      }
      batch.rows = 0
    },
  }
  return counter
}

/** Channel bit at which a word at this byte address begins. */
function offsetOf(address: number, bitCount: number): number {
  if ((bitCount & (bitCount - 1)) === 0) return ((address | 0) << 3) & (bitCount - 1)
  return ((address % bitCount) * 8) % bitCount
}

/** Counts each bad bit of half a word; returns the lanes that were hit, as bits. */
function countBits(
  counts: Counts,
  wiring: ChannelWiring,
  offset: number,
  difference: number,
  actual: number,
  count: number,
  polarity: boolean,
): number {
  const { laneOfBit, counterOfBit, bitCount } = wiring
  const { high, low, unsaid } = counts
  let hit = 0
  let rest = difference
  while (rest !== 0) {
    const one = rest & -rest
    rest ^= one
    const bit = (offset + 31 - Math.clz32(one)) % bitCount
    const lane = laneOfBit[bit] ?? -1
    if (lane < 0) continue
    hit |= 1 << lane
    const counters = polarity ? ((actual & one) !== 0 ? high : low) : unsaid
    const at = counterOfBit[bit] ?? 0
    counters[at] = (counters[at] ?? 0) + count
  }
  return hit
}

function countLanes(counts: Counts, wiring: ChannelWiring, hit: number, count: number): void {
  counts.channelErrors[wiring.channel] = (counts.channelErrors[wiring.channel] ?? 0) + count
  let rest = hit
  while (rest !== 0) {
    const one = rest & -rest
    rest ^= one
    const lane = wiring.lanes[31 - Math.clz32(one)] ?? 0
    counts.laneErrors[lane] = (counts.laneErrors[lane] ?? 0) + count
  }
  for (const { part, lanes } of wiring.parts) {
    if ((lanes & hit) !== 0) counts.partErrors[part] = (counts.partErrors[part] ?? 0) + count
  }
}

/** A row that says where, but not which bits: the channel's and its parts' own count, and all its lanes are in doubt. */
function countWhere(counts: Counts, wiring: ChannelWiring, count: number): void {
  if (count === 0) return
  counts.channelErrors[wiring.channel] = (counts.channelErrors[wiring.channel] ?? 0) + count
  for (const { part } of wiring.parts) counts.partErrors[part] = (counts.partErrors[part] ?? 0) + count
  for (const lane of wiring.lanes) counts.laneFailed[lane] = 1
}

/** Wiring of each number that the address map gives; undefined where the map names a channel that the board lacks. */
function wiringByNumber(counts: Counts, map: AddressMap): (ChannelWiring | undefined)[] {
  const { model } = counts
  const indices = indicesOf(model)
  const wirings = model.channels.map((_, channel) => wiringOf(model, counts, channel, indices))
  return map.channelIds.map((id) => wirings[indices.channel.get(id) ?? -1])
}

function wiringOf(
  model: BoardModel,
  counts: Counts,
  channel: number,
  indices: ReturnType<typeof indicesOf>,
): ChannelWiring {
  const { lanes: laneIds = [], bitCount = 0 } = model.channels[channel] ?? {}
  const laneOfBit = new Int32Array(bitCount).fill(-1)
  const counterOfBit = new Int32Array(bitCount)
  const lanes = Int32Array.from(laneIds, (id) => indices.lane.get(id) ?? 0)
  const carried = new Map<number, number>()
  for (const [place, lane] of lanes.entries()) {
    const description = model.lanes[lane]
    if (description === undefined) continue
    for (let bit = 0; bit < description.bitCount; bit++) {
      laneOfBit[description.firstBit + bit] = place
      counterOfBit[description.firstBit + bit] = (counts.laneBase[lane] ?? 0) + bit
    }
    const part = indices.part.get(description.part)
    if (part !== undefined) carried.set(part, (carried.get(part) ?? 0) | (1 << place))
  }
  return {
    channel,
    bitCount,
    laneOfBit,
    counterOfBit,
    lanes,
    parts: [...carried].map(([part, partLanes]) => ({ part, lanes: partLanes })),
  }
}
