/**
 * Counting by WebAssembly, for rows that each count as 1 error. A bad word is spread over as many bytes as it has bits,
 * and sixteen of them are added at a time. `countBadBytes` and `sampleFailures` are its reference: it must come to the
 * same sums and offer the same addresses.
 */
import { BATCH_ROWS, type RowBatch, type SharedMemory } from '../rows/batch.ts'
import { Code, type Given, moduleOf, OP, V } from '../rows/wasm-code.ts'
import type { Reservoirs } from './reservoir.ts'
import type { Wiring } from './wiring.ts'

export interface CompiledCounting {
  /** Where the map's numbers of a batch's rows are to be put. */
  readonly channels: Int32Array
  /**
   * Counts the first rows of the batch that it was compiled for.
   * @param highest the highest mapped address so far
   * @returns the highest now
   */
  count(rows: number, highest: number, onUnmapped: (row: number) => void): number
  /** Puts what was counted into the tables, once. */
  settle(tables: { readonly high: Float64Array; readonly low: Float64Array; readonly sets: Float64Array }): void
}

/** Bits of half a word, counted apart: read 1 (or not said), then read 0. */
const HALF_BITS = 32
const COUNTERS = 2 * HALF_BITS
/** A counter of one byte is emptied before it runs over. */
const MOST_UNSPILT = 255
/** Likewise the counters of lane sets, of 32 bits. */
const MOST_UNSETTLED = 2 ** 31

const UNMAPPED = 0
const TAKE = 1
const SPILL = 2
const GIVEN: readonly Given[] = [
  { name: 'unmapped', parameters: 1 },
  { name: 'take', parameters: 2 },
  { name: 'spill', parameters: 1 },
]

/** Places in memory, in bytes. */
interface Layout {
  readonly channels: number
  readonly highest: number
  readonly offered: number
  readonly nextTaken: number
  /** By the map's number, from -1 on: channel, its first bucket, its period less 1, its first lane set. */
  readonly records: number
  /** By a channel's byte: counters, how many rows are in them, which bits of a half word from there are which lane's. */
  readonly buckets: number
  readonly bucketBytes: number
  readonly laneVectors: number
  readonly sets: number
  readonly end: number
}

const RECORD_BYTES = 16
const ROWS_OF_BUCKET = COUNTERS
const LANES_OF_BUCKET = COUNTERS + 16

function layoutOf(from: number, wiring: Wiring): Layout {
  const channelCount = wiring.period.length
  const laneVectors = Math.max(1, Math.ceil(wiring.mostLanes / 4))
  const bucketBytes = LANES_OF_BUCKET + 16 * laneVectors
  const buckets = Math.ceil(from / 16) * 16
  const records = buckets + bucketBytes * wiring.bytes
  const highest = records + RECORD_BYTES * (wiring.channel.length + 1)
  const offered = highest + 8
  const nextTaken = offered + 8 * channelCount
  const channels = nextTaken + 8 * channelCount
  const sets = channels + 4 * BATCH_ROWS
  const end = sets + 4 * wiring.sets
  return { channels, highest, offered, nextTaken, records, buckets, bucketBytes, laneVectors, sets, end }
}

/**
 * Compiles the counting of one board's words.
 * @param saysRead whether the rows say what was read
 * @returns undefined where it can't be had: no WebAssembly with vectors, a board too large for the room, or channels whose
 * bits repeat after a number of bytes that is no power of two
 */
export function compileCounting(
  batch: RowBatch,
  shared: SharedMemory,
  wiring: Wiring,
  reservoirs: Reservoirs,
  saysRead: boolean,
): CompiledCounting | undefined {
  if (!wiring.period.every((period) => (period & (period - 1)) === 0)) return undefined
  const { buffer } = shared.memory
  const layout = layoutOf(shared.room.byteOffset, wiring)
  if (layout.end > shared.room.byteOffset + shared.room.byteLength) return undefined
  const offered = new Float64Array(buffer, layout.offered, wiring.period.length)
  const nextTaken = new Float64Array(buffer, layout.nextTaken, wiring.period.length)
  const highestMapped = new Float64Array(buffer, layout.highest, 1)
  const sets = new Uint32Array(buffer, layout.sets, wiring.sets)
  const bucketBytes = new Uint8Array(buffer, layout.buckets, layout.bucketBytes * wiring.bytes)
  const sums = new Float64Array(COUNTERS * wiring.bytes)
  const setSums = new Float64Array(wiring.sets)
  shared.room.fill(0)
  fillRecords(new Int32Array(buffer, layout.records, 4 * (wiring.channel.length + 1)), wiring, layout)
  fillLanes(new DataView(buffer), wiring, layout)

  let tellUnmapped: (row: number) => void = () => undefined
  const spill = (at: number): void => {
    const from = at - layout.buckets
    const into = (from / layout.bucketBytes) * COUNTERS
    for (let i = 0; i < COUNTERS; i++) sums[into + i] = (sums[into + i] ?? 0) + (bucketBytes[from + i] ?? 0)
    bucketBytes.fill(0, from, from + ROWS_OF_BUCKET + 4)
  }
  const spillSets = (): void => {
    for (let i = 0; i < sets.length; i++) setSums[i] = (setSums[i] ?? 0) + (sets[i] ?? 0)
    sets.fill(0)
  }
  const loop = instantiate(codeOf(batch, layout, saysRead), {
    memory: shared.memory,
    unmapped: (row: number) => tellUnmapped(row),
    take: (channel: number, row: number) => {
      reservoirs.offered[channel] = offered[channel] ?? 0
      reservoirs.take(channel, batch.address[row] ?? 0)
      nextTaken[channel] = reservoirs.nextTaken[channel] ?? 0
    },
    spill,
  })
  if (loop === undefined) return undefined
  let unsettled = 0
  return {
    channels: new Int32Array(buffer, layout.channels, BATCH_ROWS),
    count: (rows, highest, onUnmapped) => {
      tellUnmapped = onUnmapped
      offered.set(reservoirs.offered)
      nextTaken.set(reservoirs.nextTaken)
      highestMapped[0] = highest
      loop(rows)
      reservoirs.offered.set(offered)
      unsettled += rows
      if (unsettled > MOST_UNSETTLED) {
        spillSets()
        unsettled = 0
      }
      return highestMapped[0]
    },
    settle: (tables) => {
      spillSets()
      for (const [i, errors] of setSums.entries()) tables.sets[i] = (tables.sets[i] ?? 0) + errors
      for (const [channel, period] of wiring.period.entries()) {
        const first = wiring.firstByte[channel] ?? 0
        for (let place = 0; place < period; place++) {
          spill(layout.buckets + layout.bucketBytes * (first + place))
          for (let bit = 0; bit < HALF_BITS; bit++) {
            const byte = first + ((place + (bit >> 3)) % period)
            const entry = (byte << 8) | (1 << (bit & 7))
            const from = COUNTERS * (first + place) + bit
            tables.high[entry] = (tables.high[entry] ?? 0) + (sums[from] ?? 0)
            tables.low[entry] = (tables.low[entry] ?? 0) + (sums[from + HALF_BITS] ?? 0)
          }
        }
      }
    },
  }
}

function instantiate(code: Code, even: WebAssembly.ModuleImports): ((rows: number) => void) | undefined {
  try {
    const { loop } = new WebAssembly.Instance(moduleOf(code, GIVEN), { even }).exports
    return typeof loop === 'function' ? (rows) => loop(rows) : undefined
  } catch {
    return undefined
  }
}

function fillRecords(records: Int32Array, wiring: Wiring, layout: Layout): void {
  const { period, firstByte, firstSet } = wiring
  records[0] = -1
  for (const [number, channel] of wiring.channel.entries()) {
    records.set(
      [
        channel,
        layout.buckets + layout.bucketBytes * (firstByte[channel] ?? 0),
        (period[channel] ?? 1) - 1,
        layout.sets + 4 * (firstSet[channel] ?? 0),
      ],
      4 * (number + 1),
    )
  }
}

/** Of each bucket and lane the bits of a half word that begins at that byte. */
function fillLanes(view: DataView, wiring: Wiring, layout: Layout): void {
  for (const [channel, period] of wiring.period.entries()) {
    const first = wiring.firstByte[channel] ?? 0
    for (let place = 0; place < period; place++) {
      const at = layout.buckets + layout.bucketBytes * (first + place) + LANES_OF_BUCKET
      for (let lane = 0; lane < 4 * layout.laneVectors; lane++) {
        let mask = 0
        for (let bit = 0; bit < HALF_BITS; bit++) {
          const byte = first + ((place + (bit >> 3)) % period)
          const lanes = wiring.lanesOfValue[(byte << 8) | (1 << (bit & 7))] ?? 0
          if ((lanes >> lane) & 1) mask |= 1 << bit
        }
        view.setInt32(at + 4 * lane, mask, true)
      }
    }
  }
}

const ROWS = 0
const ROW = 1
const ROW_4 = 2
const ROW_8 = 3
const RECORD = 4
const CHANNEL = 5
const AT = 6
const LOW = 7
const HIGH = 8
const BUCKET = 9
const READ = 10
const LANES = 11
const PLACE = 12
const BITS = 13
const WORD = 14
const ADDRESS = 15
const HIGHEST = 16
const OFFERED = 17

/** The loop over a batch's rows. */
function codeOf(batch: RowBatch, layout: Layout, saysRead: boolean): Code {
  const code = new Code(1, { numbers: 12, vectors: 2, doubles: 3 })
  code.vector(Array.from({ length: 16 }, (_, i) => 1 << (i & 7))).set(BITS)
  code.i32(0).loadF64(layout.highest).set(HIGHEST)
  code.block().loop()
  code.get(ROW).get(ROWS).op(OP.i32GeU).breakIf(1)
  code.get(ROW).i32(2).op(OP.i32Shl).set(ROW_4)
  code.get(ROW).i32(3).op(OP.i32Shl).set(ROW_8)
  code.block()
  code.get(ROW_4).loadI32(layout.channels).i32(1).op(OP.i32Add).i32(4).op(OP.i32Shl).set(RECORD)
  const record = (field: number): Code => code.get(RECORD).loadI32(layout.records + 4 * field)
  record(0).set(CHANNEL)
  code.get(CHANNEL).i32(0).op(OP.i32LtS).if().get(ROW).call(UNMAPPED).again(1).end()
  code.get(ROW_8).loadF64(batch.address.byteOffset).set(ADDRESS)
  code.get(HIGHEST).get(ADDRESS).op(OP.f64Max).set(HIGHEST)
  code.get(ROW_4).loadI32(batch.differenceLow.byteOffset).set(LOW)
  code.get(ROW_4).loadI32(batch.differenceHigh.byteOffset).set(HIGH)
  code.get(LOW).get(HIGH).op(OP.i32Or).op(OP.i32Eqz).breakIf(0)
  code.get(ADDRESS).wholeOfDouble().op(OP.i32WrapI64).set(AT)
  code.i32(0).set(LANES)
  const countHalf = (bad: number, actualAt: number): void => {
    record(1)
    code.get(AT)
    record(2).op(OP.i32And).i32(layout.bucketBytes).op(OP.i32Mul).op(OP.i32Add).set(BUCKET)
    code.get(bad)
    if (saysRead) code.get(ROW_4).loadI32(actualAt).op(OP.i32And)
    code.set(READ)
    countBits(code, READ, 0)
    if (saysRead) {
      code.get(bad).get(READ).op(OP.i32Xor).set(READ)
      countBits(code, READ, HALF_BITS)
    }
    code.get(bad).v(V.i32Splat).set(WORD)
    for (let i = 0; i < layout.laneVectors; i++) {
      code
        .get(WORD)
        .get(BUCKET)
        .load(LANES_OF_BUCKET + 16 * i)
        .v(V.and)
        .zeroVector()
        .v(V.i32Ne)
        .v(V.i32Bitmask)
      code
        .i32(4 * i)
        .op(OP.i32Shl)
        .get(LANES)
        .op(OP.i32Or)
        .set(LANES)
    }
    code.get(BUCKET).loadI32(ROWS_OF_BUCKET).i32(1).op(OP.i32Add).set(PLACE)
    code.get(BUCKET).get(PLACE).storeI32(ROWS_OF_BUCKET)
    code.get(PLACE).i32(MOST_UNSPILT).op(OP.i32GeU).if().get(BUCKET).call(SPILL).end()
  }
  countHalf(LOW, batch.actualLow.byteOffset)
  code.get(HIGH).if()
  code.get(AT).i32(4).op(OP.i32Add).set(AT)
  countHalf(HIGH, batch.actualHigh.byteOffset)
  code.end()
  record(3).get(LANES).i32(2).op(OP.i32Shl).op(OP.i32Add).set(PLACE)
  code.get(PLACE).get(PLACE).loadI32(0).i32(1).op(OP.i32Add).storeI32(0)
  code.get(CHANNEL).i32(3).op(OP.i32Shl).set(PLACE)
  code.get(PLACE).loadF64(layout.offered).f64(1).op(OP.f64Add).set(OFFERED)
  code.get(PLACE).get(OFFERED).storeF64(layout.offered)
  code.get(OFFERED).get(PLACE).loadF64(layout.nextTaken).op(OP.f64Ge).if().get(CHANNEL).get(ROW).call(TAKE).end()
  code.end()
  code.get(ROW).i32(1).op(OP.i32Add).set(ROW)
  code.again(0).end().end()
  code.i32(0).get(HIGHEST).storeF64(layout.highest)
  return code.get(ROW)
}

/** Adds 1 to the counter of each bit that is set, sixteen counters at a time. */
function countBits(code: Code, half: number, counters: number): void {
  code.get(half).v(V.i32Splat).set(WORD)
  for (const bytes of [0, 2]) {
    const at = counters + 8 * bytes
    code.get(BUCKET).get(BUCKET).load(at)
    code
      .get(WORD)
      .get(WORD)
      .shuffle(Array.from({ length: 16 }, (_, i) => bytes + (i >> 3)))
    code.get(BITS).v(V.and).get(BITS).v(V.i8Eq).v(V.i8Sub).store(at)
  }
}
