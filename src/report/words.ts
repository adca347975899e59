/**
 * Counting rows with addresses: each batch is decoded at once; of each row only bytes with bad bits and the set of lanes
 * hit are counted, and the counters of bits, lanes and parts are worked out from those at the end.
 */
import type { AddressMap } from '../board/index.ts'
import { BATCH_ROWS, type RowBatch } from './batch.ts'
import { type Counts, indicesOf } from './counts.ts'
import type { BitSource } from './plan.ts'
import { newReservoirs, type Reservoirs } from './reservoir.ts'
import { bitHome, type Wiring, wiringOf } from './wiring.ts'

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
  /** Puts what was counted into the counts; once, after the last batch. */
  finish(): void
}

/**
 * A row's word begins at its byte address A, little end first: bit b of the word is data bit (8·A + b) mod bitCount of
 * the channel that A lies in, so that longer words are several beats of the same channel.
 * @param counts counters of the same board
 */
export function newWordCounter(counts: Counts, map: AddressMap, bits: BitSource): WordCounter {
  const wiring = wiringOf(counts, map)
  const reservoirs = newReservoirs(counts.model.channels.length)
  const tables = newTables(wiring)
  const channels = new Int32Array(BATCH_ROWS)
  const saysRead = bits !== 'difference' && bits !== 'bit'
  const counter: WordCounter = {
    counts,
    reservoirs,
    mapped: 0,
    unmapped: 0,
    highestAddress: -1,
    take: (batch, onUnmapped) => {
      const addresses = batch.address.subarray(0, batch.rows)
      map.decodeChannels(addresses, channels)
      for (let row = 0; row < batch.rows; row++) {
        const channel = wiring.channel[channels[row] ?? -1] ?? -1
        if (channel < 0) {
          counter.unmapped++
          onUnmapped(row)
          continue
        }
        const address = addresses[row] ?? 0
        counter.mapped++
        if (address > counter.highestAddress) counter.highestAddress = address
        const count = batch.count[row] ?? 0
        if (count === 0) continue
        if (bits === 'none') {
          tables.whereOnly[channel] = (tables.whereOnly[channel] ?? 0) + count
        } else if (!countRow(wiring, tables, batch, row, channel, address, count, saysRead)) continue
        reservoirs.offer(channel, address)
      }
      batch.rows = 0
    },
    finish: () => {
      sumBits(counts, wiring, tables, saysRead)
      sumLanes(counts, wiring, tables)
      sumWhere(counts, tables)
    },
  }
  return counter
}

interface Tables {
  /** By byte and value: how often these bits of the byte were bad, read 1 or (where not said) either way; and read 0. */
  readonly high: Float64Array
  readonly low: Float64Array
  /** By lane set of a channel: rows in which exactly these lanes had bad bits. */
  readonly sets: Float64Array
  /** By channel: errors of rows that say no bits. */
  readonly whereOnly: Float64Array
}

function newTables(wiring: Wiring): Tables {
  return {
    high: new Float64Array(wiring.bytes * 256),
    low: new Float64Array(wiring.bytes * 256),
    sets: new Float64Array(wiring.sets),
    whereOnly: new Float64Array(wiring.period.length),
  }
}

/** Counts the bad bits of one row; false where there are none. */
function countRow(
  wiring: Wiring,
  tables: Tables,
  batch: RowBatch,
  row: number,
  channel: number,
  address: number,
  count: number,
  saysRead: boolean,
): boolean {
  const lowHalf = batch.differenceLow[row] ?? 0
  const highHalf = batch.differenceHigh[row] ?? 0
  if ((lowHalf | highHalf) === 0) return false
  const period = wiring.period[channel] ?? 1
  const firstByte = wiring.firstByte[channel] ?? 0
  const { lanesOfValue } = wiring
  const { high, low } = tables
  let place = (period & (period - 1)) === 0 ? address & (period - 1) : address % period
  let lanes = 0
  let rest = lowHalf
  let actual = batch.actualLow[row] ?? 0
  let other = highHalf
  for (;;) {
    while (rest !== 0) {
      const bad = rest & 255
      if (bad !== 0) {
        const base = (firstByte + place) << 8
        lanes |= lanesOfValue[base + bad] ?? 0
        const readHigh = saysRead ? bad & actual : bad
        if (readHigh !== 0) high[base + readHigh] = (high[base + readHigh] ?? 0) + count
        if (readHigh !== bad) low[base + (bad ^ readHigh)] = (low[base + (bad ^ readHigh)] ?? 0) + count
      }
      rest >>>= 8
      actual >>>= 8
      if (++place === period) place = 0
    }
    if (other === 0) break
    rest = other
    other = 0
    actual = batch.actualHigh[row] ?? 0
    place = (period & (period - 1)) === 0 ? (address + 4) & (period - 1) : (address + 4) % period
  }
  const set = (wiring.firstSet[channel] ?? 0) + lanes
  tables.sets[set] = (tables.sets[set] ?? 0) + count
  return true
}

function sumBits(counts: Counts, wiring: Wiring, tables: Tables, saysRead: boolean): void {
  for (const [channel, period] of wiring.period.entries()) {
    for (let place = 0; place < period; place++) {
      for (let bit = 0; bit < 8; bit++) {
        const counter = bitHome(counts, channel, place, bit)?.counter
        if (counter === undefined) continue
        const base = ((wiring.firstByte[channel] ?? 0) + place) * 256
        const high = sumWithBit(tables.high, base, bit)
        const into = saysRead ? counts.high : counts.unsaid
        into[counter] = (into[counter] ?? 0) + high
        counts.low[counter] = (counts.low[counter] ?? 0) + sumWithBit(tables.low, base, bit)
      }
    }
  }
}

function sumWithBit(table: Float64Array, base: number, bit: number): number {
  let sum = 0
  for (let value = 0; value < 256; value++) if ((value >> bit) & 1) sum += table[base + value] ?? 0
  return sum
}

function sumLanes(counts: Counts, wiring: Wiring, tables: Tables): void {
  const { model } = counts
  const indices = indicesOf(model)
  for (const [c, channel] of model.channels.entries()) {
    const lanes = channel.lanes.map((id) => indices.lane.get(id) ?? -1)
    for (let set = 0; set < 2 ** lanes.length; set++) {
      const errors = tables.sets[(wiring.firstSet[c] ?? 0) + set] ?? 0
      if (errors === 0) continue
      const hit = lanes.filter((_, place) => (set >> place) & 1)
      const parts = new Set(hit.map((lane) => indices.part.get(model.lanes[lane]?.part ?? '') ?? -1))
      addTo(counts.channelErrors, c, errors)
      for (const lane of hit) addTo(counts.laneErrors, lane, errors)
      for (const part of parts) addTo(counts.partErrors, part, errors)
    }
  }
}

/** Rows that say where but not which bits: the channel's and its parts' own count, and all its lanes are in doubt. */
function sumWhere(counts: Counts, tables: Tables): void {
  const { model } = counts
  const indices = indicesOf(model)
  for (const [c, errors] of tables.whereOnly.entries()) {
    if (errors === 0) continue
    addTo(counts.channelErrors, c, errors)
    for (const ref of model.channels[c]?.parts ?? []) addTo(counts.partErrors, indices.part.get(ref) ?? -1, errors)
    for (const id of model.channels[c]?.lanes ?? []) counts.laneFailed[indices.lane.get(id) ?? -1] = 1
  }
}

function addTo(counters: Float64Array, index: number, errors: number): void {
  if (index >= 0) counters[index] = (counters[index] ?? 0) + errors
}
