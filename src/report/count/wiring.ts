/** How the bits of every channel lie, laid out flat for counting: by the number that the address map gives. */
import type { AddressMap } from '../../board/index.ts'
import { type Counts, indicesOf } from './counts.ts'

/**
 * Words begin at byte addresses, so that a channel's bits come in bytes: byte p of its period holds the data bits
 * (8·p … 8·p+7) mod bitCount, and the period is the fewest bytes after which that repeats (2 for 16 bits, 1 for 4).
 */
export interface Wiring {
  /** By the map's number: index of the channel on the board, -1 where the map names one that the board lacks. */
  readonly channel: Int32Array
  /** By channel: period in bytes, the first of its bytes in the tables, and the first of its lane sets. */
  readonly period: Int32Array
  readonly firstByte: Int32Array
  readonly firstSet: Int32Array
  /** By byte and its value, `byte * 256 + value`: which of the channel's lanes the set bits lie in, as bits. */
  readonly lanesOfValue: Uint16Array
  readonly bytes: number
  readonly sets: number
  /** Lanes of the channel that has most. */
  readonly mostLanes: number
}

/**
 * Tables for this board and map. Channels are those of the map's numbering; one that the board does not have is -1,
 * and a set bit outside all lanes is in none.
 */
export function wiringOf(counts: Counts, map: AddressMap): Wiring {
  const { channels } = counts.model
  const ids = indicesOf(counts.model).channel
  const periods = channels.map(({ bitCount }) => periodOf(bitCount))
  const setCounts = channels.map(({ lanes }) => 2 ** lanes.length)
  const firstByte = startsOf(periods)
  const bytes = periods.reduce((sum, period) => sum + period, 0)
  const lanesOfValue = new Uint16Array(bytes * 256)
  for (const [c, period] of periods.entries()) {
    for (let place = 0; place < period; place++) {
      const lanes = Array.from({ length: 8 }, (_, bit) => bitHome(counts, c, place, bit)?.lanePlace)
      const base = ((firstByte[c] ?? 0) + place) * 256
      for (let value = 1; value < 256; value++) {
        // The lanes of all set bits but the highest are known already.
        const highest = 31 - Math.clz32(value)
        const lane = lanes[highest]
        const others = lanesOfValue[base + (value ^ (1 << highest))] ?? 0
        lanesOfValue[base + value] = lane === undefined ? others : others | (1 << lane)
      }
    }
  }
  return {
    channel: Int32Array.from(map.channelIds, (id) => ids.get(id) ?? -1),
    period: Int32Array.from(periods),
    firstByte,
    firstSet: startsOf(setCounts),
    lanesOfValue,
    bytes,
    sets: setCounts.reduce((sum, count) => sum + count, 0),
    mostLanes: Math.max(0, ...channels.map(({ lanes }) => lanes.length)),
  }
}

function startsOf(lengths: readonly number[]): Int32Array {
  let start = 0
  return Int32Array.from(lengths, (length) => {
    start += length
    return start - length
  })
}

function periodOf(bitCount: number): number {
  if (bitCount === 0) return 1
  let period = 1
  while ((period * 8) % bitCount !== 0) period++
  return period
}

/** Where one bit of a channel's byte belongs: the lane (its place in the channel, its index on the board) and its bit. */
export function bitHome(
  counts: Counts,
  channel: number,
  place: number,
  bit: number,
): { lanePlace: number; lane: number; counter: number } | undefined {
  const { model, laneBase } = counts
  const description = model.channels[channel]
  if (description === undefined || description.bitCount === 0) return undefined
  const dataBit = (place * 8 + bit) % description.bitCount
  for (const [lanePlace, id] of description.lanes.entries()) {
    const lane = model.lanes.findIndex((candidate) => candidate.id === id)
    const { firstBit = 0, bitCount = 0 } = model.lanes[lane] ?? {}
    if (dataBit < firstBit || dataBit >= firstBit + bitCount) continue
    return { lanePlace, lane, counter: (laneBase[lane] ?? 0) + dataBit - firstBit }
  }
  return undefined
}
