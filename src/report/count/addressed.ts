/**
 * Counting rows with addresses: each batch is decoded at once; of each row only bytes with bad bits and the set of lanes
 * hit are counted, and the counters of bits, lanes and parts are worked out from those at the end.
 */
import type { AddressMap } from '../../board/index.ts'
import { BATCH_ROWS, type RowBatch } from '../rows/batch.ts'
import { type Counts, indicesOf } from './counts.ts'
import type { BitSource } from '../rows/recipe-plan.ts'
import { newReservoirs, type Reservoirs } from './reservoir.ts'
import { type CompiledCounting, compileCounting } from './words-wasm.ts'
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
  let tried: RowBatch | undefined
  let compiled: CompiledCounting | undefined
  /** From the first full batch on: a shorter report is counted before its counting were compiled. */
  const compiledFor = (batch: RowBatch): CompiledCounting | undefined => {
    const isWorthIt = tried === undefined && batch.rows === BATCH_ROWS && bits !== 'none'
    if (isWorthIt && batch.shared !== undefined) {
      tried = batch
      compiled = compileCounting(batch, batch.shared, wiring, reservoirs, saysRead)
    }
    return batch === tried ? compiled : undefined
  }
  const takeCompiled = (by: CompiledCounting, batch: RowBatch, onUnmapped: (row: number) => void): void => {
    let unmapped = 0
    map.decodeChannels(batch.address.subarray(0, batch.rows), by.channels)
    counter.highestAddress = by.count(batch.rows, counter.highestAddress, (row) => {
      unmapped++
      onUnmapped(row)
    })
    counter.unmapped += unmapped
    counter.mapped += batch.rows - unmapped
  }
  const takePlain = (batch: RowBatch, onUnmapped: (row: number) => void): void => {
    map.decodeChannels(batch.address.subarray(0, batch.rows), channels)
    toBoardChannels(counter, wiring, batch, channels, onUnmapped)
    if (bits === 'none') countPlaces(tables, batch, channels)
    else countBadBytes(wiring, tables, batch, channels, saysRead)
    sampleFailures(reservoirs, batch, channels)
  }
  const counter: WordCounter = {
    counts,
    reservoirs,
    mapped: 0,
    unmapped: 0,
    highestAddress: -1,
    take: (batch, onUnmapped) => {
      const by = compiledFor(batch)
      if (by === undefined) takePlain(batch, onUnmapped)
      else takeCompiled(by, batch, onUnmapped)
      batch.rows = 0
    },
    finish: () => {
      compiled?.settle(tables)
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

const NOT_COUNTED = -1

/** Puts the board's channels in place of the map's numbers; rows beyond the map are told, and not counted further. */
function toBoardChannels(
  counter: WordCounter,
  wiring: Wiring,
  batch: RowBatch,
  channels: Int32Array,
  onUnmapped: (row: number) => void,
): void {
  const { rows, address } = batch
  let highest = counter.highestAddress
  let unmapped = 0
  for (let row = 0; row < rows; row++) {
    const channel = wiring.channel[channels[row] ?? NOT_COUNTED] ?? NOT_COUNTED
    channels[row] = channel
    if (channel === NOT_COUNTED) {
      unmapped++
      onUnmapped(row)
    } else if ((address[row] ?? 0) > highest) highest = address[row] ?? 0
  }
  counter.highestAddress = highest
  counter.unmapped += unmapped
  counter.mapped += rows - unmapped
}

/** Rows that say where, but not which bits. */
function countPlaces(tables: Tables, batch: RowBatch, channels: Int32Array): void {
  for (let row = 0; row < batch.rows; row++) {
    const channel = channels[row] ?? NOT_COUNTED
    const count = batch.count[row] ?? 0
    if (channel === NOT_COUNTED || count === 0) channels[row] = NOT_COUNTED
    else tables.whereOnly[channel] = (tables.whereOnly[channel] ?? 0) + count
  }
}

/** Counts the bad bytes of each row; rows without any are taken out of `channels`. */
function countBadBytes(wiring: Wiring, tables: Tables, batch: RowBatch, channels: Int32Array, saysRead: boolean): void {
  const { rows, address, differenceLow, differenceHigh, actualLow, actualHigh, count: counts } = batch
  const { period: periods, firstByte, firstSet } = wiring
  const { sets } = tables
  const unsaid = saysRead ? 0 : -1
  for (let row = 0; row < rows; row++) {
    const channel = channels[row] ?? NOT_COUNTED
    const count = counts[row] ?? 0
    const low = differenceLow[row] ?? 0
    const high = differenceHigh[row] ?? 0
    if (channel === NOT_COUNTED || (low | high) === 0 || count === 0) {
      channels[row] = NOT_COUNTED
      continue
    }
    const period = periods[channel] ?? 1
    const first = firstByte[channel] ?? 0
    const at = address[row] ?? 0
    let lanes = countHalf(wiring, tables, first, period, at, low, (actualLow[row] ?? 0) | unsaid, count)
    if (high !== 0) {
      lanes |= countHalf(wiring, tables, first, period, at + 4, high, (actualHigh[row] ?? 0) | unsaid, count)
    }
    const set = (firstSet[channel] ?? 0) + lanes
    sets[set] = (sets[set] ?? 0) + count
  }
}

/**
 * Counts the four bytes of half a word. Bytes without bad bits are counted too, as value 0 that nobody asks for: a
 * branch on them would cost more than the count, since nothing can foretell it.
 * @returns the lanes that were hit
 */
function countHalf(
  { lanesOfValue }: Wiring,
  { high, low }: Tables,
  first: number,
  period: number,
  at: number,
  bad: number,
  actual: number,
  count: number,
): number {
  const isPower = (period & (period - 1)) === 0
  const readHigh = bad & actual
  const readLow = bad & ~actual
  const place0 = isPower ? at & (period - 1) : at % period
  const place1 = isPower ? (at + 1) & (period - 1) : (at + 1) % period
  const place2 = isPower ? (at + 2) & (period - 1) : (at + 2) % period
  const place3 = isPower ? (at + 3) & (period - 1) : (at + 3) % period
  const base0 = (first + place0) << 8
  const base1 = (first + place1) << 8
  const base2 = (first + place2) << 8
  const base3 = (first + place3) << 8
  const high0 = base0 | (readHigh & 255)
  const high1 = base1 | ((readHigh >>> 8) & 255)
  const high2 = base2 | ((readHigh >>> 16) & 255)
  const high3 = base3 | (readHigh >>> 24)
  const low0 = base0 | (readLow & 255)
  const low1 = base1 | ((readLow >>> 8) & 255)
  const low2 = base2 | ((readLow >>> 16) & 255)
  const low3 = base3 | (readLow >>> 24)
  high[high0] = (high[high0] ?? 0) + count
  high[high1] = (high[high1] ?? 0) + count
  high[high2] = (high[high2] ?? 0) + count
  high[high3] = (high[high3] ?? 0) + count
  low[low0] = (low[low0] ?? 0) + count
  low[low1] = (low[low1] ?? 0) + count
  low[low2] = (low[low2] ?? 0) + count
  low[low3] = (low[low3] ?? 0) + count
  return (
    (lanesOfValue[base0 | (bad & 255)] ?? 0) |
    (lanesOfValue[base1 | ((bad >>> 8) & 255)] ?? 0) |
    (lanesOfValue[base2 | ((bad >>> 16) & 255)] ?? 0) |
    (lanesOfValue[base3 | (bad >>> 24)] ?? 0)
  )
}

function sampleFailures(reservoirs: Reservoirs, batch: RowBatch, channels: Int32Array): void {
  const { offered, nextTaken } = reservoirs
  const { rows, address } = batch
  for (let row = 0; row < rows; row++) {
    const channel = channels[row] ?? NOT_COUNTED
    if (channel === NOT_COUNTED) continue
    const n = (offered[channel] ?? 0) + 1
    offered[channel] = n
    if (n >= (nextTaken[channel] ?? 0)) reservoirs.take(channel, address[row] ?? 0)
  }
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
