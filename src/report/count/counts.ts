/** The counters of a reading: errors by part, channel, lane and bit of one board, in typed arrays. */
import type { BoardModel } from '../../board/index.ts'

export interface Counts {
  readonly model: BoardModel
  /** Failing rows by index into `model.memories`, `model.channels`, `model.lanes`. */
  readonly partErrors: Float64Array
  readonly channelErrors: Float64Array
  readonly laneErrors: Float64Array
  /** Errors that the report gives for a whole part or channel, and no finer: they may repeat what finer rows say. */
  readonly partWhole: Float64Array
  readonly channelWhole: Float64Array
  /** The same for lanes that the report names together, such as half a package, by their indices. */
  readonly groupWhole: Map<string, { readonly lanes: readonly number[]; errors: number }>
  /** By bit: lane i has its bits from `laneBase[i]` on. */
  readonly laneBase: Int32Array
  readonly high: Float64Array
  readonly low: Float64Array
  /** Bad bits of which the report does not say what was read. */
  readonly unsaid: Float64Array
  /** By lane: the report speaks of the lane, and it says that something in it failed. */
  readonly laneCovered: Uint8Array
  readonly laneFailed: Uint8Array
}

/**
 * Counters at 0 for every memory part, channel, lane and bit, in the order of the board's lists; bits of lane i begin
 * at `laneBase[i]`.
 */
export function newCounts(model: BoardModel): Counts {
  const laneBase = new Int32Array(model.lanes.length)
  let bits = 0
  for (const [i, lane] of model.lanes.entries()) {
    laneBase[i] = bits
    bits += lane.bitCount
  }
  return {
    model,
    partErrors: new Float64Array(model.memories.length),
    channelErrors: new Float64Array(model.channels.length),
    laneErrors: new Float64Array(model.lanes.length),
    partWhole: new Float64Array(model.memories.length),
    channelWhole: new Float64Array(model.channels.length),
    groupWhole: new Map(),
    laneBase,
    high: new Float64Array(bits),
    low: new Float64Array(bits),
    unsaid: new Float64Array(bits),
    laneCovered: new Uint8Array(model.lanes.length),
    laneFailed: new Uint8Array(model.lanes.length),
  }
}

/** Where the ids of a board stand in its lists. */
export interface Indices {
  readonly part: ReadonlyMap<string, number>
  readonly channel: ReadonlyMap<string, number>
  readonly lane: ReadonlyMap<string, number>
}

/** Indices into the board's lists of memory parts, channels and lanes, by ref and id. */
export function indicesOf(model: BoardModel): Indices {
  return {
    part: new Map(model.memories.map((part, i) => [part.ref, i])),
    channel: new Map(model.channels.map((channel, i) => [channel.id, i])),
    lane: new Map(model.lanes.map((lane, i) => [lane.id, i])),
  }
}
