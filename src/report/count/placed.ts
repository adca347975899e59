/** Counting rows that name a part, channel or lane instead of an address. */
import { type Counts, indicesOf } from './counts.ts'
import type { Place } from '../names/labels.ts'

export interface PlacedErrors {
  readonly errors: number
  /** Bad bits as a mask of data bits of the lane, or of the channel where the place is one; zero where not said. */
  readonly differenceLow: number
  readonly differenceHigh: number
  /** The word as read, where the row says it. */
  readonly actual: { readonly low: number; readonly high: number } | undefined
}

/** Adds one row; rows with 0 errors count as tested. */
export type PlacedCounter = (place: Place, row: PlacedErrors) => void

/** Compiles a counter of rows; `settleWholes` ends the count. */
export function placedCounter(counts: Counts): PlacedCounter {
  const { model } = counts
  const indices = indicesOf(model)
  const lanesOfChannel = model.channels.map((channel) => channel.lanes.map((id) => indices.lane.get(id) ?? -1))
  const lanesOfPart = model.memories.map((part) =>
    model.lanes.flatMap((lane, i) => (lane.part === part.ref ? [i] : [])),
  )
  const channelOfLane = model.lanes.map((lane) => indices.channel.get(lane.channel) ?? -1)
  const partOfLane = model.lanes.map((lane) => indices.part.get(lane.part) ?? -1)

  const inLane = (lane: number, row: PlacedErrors): void => {
    addTo(counts.laneErrors, lane, row.errors)
    addTo(counts.channelErrors, channelOfLane[lane] ?? -1, row.errors)
    addTo(counts.partErrors, partOfLane[lane] ?? -1, row.errors)
    const bitCount = model.lanes[lane]?.bitCount ?? 0
    eachBadBit(row, (bit, read) => countBit(counts, (counts.laneBase[lane] ?? 0) + (bit % bitCount), read, row.errors))
  }
  const inChannel = (channel: number, row: PlacedErrors): void => {
    const lanes = lanesOfChannel[channel] ?? []
    const bitCount = model.channels[channel]?.bitCount ?? 0
    const hit = new Set<number>()
    eachBadBit(row, (bit, read) => {
      const lane = lanes.find((i) => holdsBit(model.lanes[i], bit % bitCount))
      if (lane === undefined) return
      hit.add(lane)
      const inside = (bit % bitCount) - (model.lanes[lane]?.firstBit ?? 0)
      countBit(counts, (counts.laneBase[lane] ?? 0) + inside, read, row.errors)
    })
    if (hit.size === 0) return addTo(counts.channelWhole, channel, row.errors)
    addTo(counts.channelErrors, channel, row.errors)
    for (const lane of hit) addTo(counts.laneErrors, lane, row.errors)
    for (const part of new Set([...hit].map((lane) => partOfLane[lane] ?? -1)))
      addTo(counts.partErrors, part, row.errors)
  }
  const inPart = (part: number, row: PlacedErrors): void => {
    const channels = [...new Set((lanesOfPart[part] ?? []).map((lane) => channelOfLane[lane] ?? -1))]
    const [only] = channels
    if (channels.length === 1 && only !== undefined && (row.differenceLow | row.differenceHigh) !== 0) {
      inChannel(only, row)
      return
    }
    addTo(counts.partWhole, part, row.errors)
  }
  return (place, row) => {
    const lanes = {
      lane: [place.index],
      channel: lanesOfChannel[place.index],
      part: lanesOfPart[place.index],
      lanes: place.lanes,
    }[place.kind]
    // A part that fails as a whole leaves open which of its lanes do: only a row that says 0 covers them.
    if (row.errors === 0 || place.kind === 'lane') for (const lane of lanes ?? []) counts.laneCovered[lane] = 1
    if (row.errors === 0) return
    if (place.kind === 'lane') inLane(place.index, row)
    else if (place.kind === 'channel') inChannel(place.index, row)
    else if (place.lanes !== undefined) inGroup(counts, place.lanes, row.errors)
    else inPart(place.index, row)
  }
}

function inGroup(counts: Counts, lanes: readonly number[], errors: number): void {
  const key = lanes.join(' ')
  const group = counts.groupWhole.get(key)
  if (group === undefined) counts.groupWhole.set(key, { lanes, errors })
  else group.errors += errors
}

function addTo(counters: Float64Array, index: number, errors: number): void {
  if (index >= 0) counters[index] = (counters[index] ?? 0) + errors
}

function holdsBit(lane: { firstBit: number; bitCount: number } | undefined, bit: number): boolean {
  return lane !== undefined && bit >= lane.firstBit && bit < lane.firstBit + lane.bitCount
}

type BitRead = 'high' | 'low' | 'unsaid'

function eachBadBit(row: PlacedErrors, visit: (bit: number, read: BitRead) => void): void {
  for (let bit = 0; bit < 64; bit++) {
    const half = bit < 32 ? row.differenceLow : row.differenceHigh
    const mask = 1 << (bit & 31)
    if ((half & mask) === 0) continue
    const word = bit < 32 ? row.actual?.low : row.actual?.high
    visit(bit, word === undefined ? 'unsaid' : (word & mask) !== 0 ? 'high' : 'low')
  }
}

function countBit(counts: Counts, at: number, read: BitRead, errors: number): void {
  const counters = counts[read]
  if (at >= 0 && at < counters.length) counters[at] = (counters[at] ?? 0) + errors
}

/**
 * Puts what is said of whole channels and parts where it belongs: a sum of finer rows adds nothing; what finer rows do
 * not explain is counted, and leaves in doubt all lanes that no row speaks of.
 */
export function settleWholes(counts: Counts): void {
  const { model } = counts
  const indices = indicesOf(model)
  for (const { lanes, errors } of counts.groupWhole.values()) settleGroup(counts, lanes, errors)
  for (const [c, channel] of model.channels.entries()) {
    const whole = counts.channelWhole[c] ?? 0
    if (whole === 0 || whole === counts.channelErrors[c]) continue
    addTo(counts.channelErrors, c, whole)
    for (const ref of channel.parts) addTo(counts.partErrors, indices.part.get(ref) ?? -1, whole)
    doubt(
      counts,
      channel.lanes.map((id) => indices.lane.get(id) ?? -1),
    )
  }
  for (const [p, part] of model.memories.entries()) {
    const whole = counts.partWhole[p] ?? 0
    if (whole === 0 || whole === counts.partErrors[p]) continue
    addTo(counts.partErrors, p, whole)
    doubt(
      counts,
      model.lanes.flatMap((lane, i) => (lane.part === part.ref ? [i] : [])),
    )
  }
}

function settleGroup(counts: Counts, lanes: readonly number[], errors: number): void {
  const { model } = counts
  if (errors === lanes.reduce((sum, lane) => sum + (counts.laneErrors[lane] ?? 0), 0)) return
  for (const id of new Set(lanes.map((lane) => model.lanes[lane]?.channel)))
    addTo(
      counts.channelErrors,
      model.channels.findIndex((channel) => channel.id === id),
      errors,
    )
  for (const ref of new Set(lanes.map((lane) => model.lanes[lane]?.part)))
    addTo(
      counts.partErrors,
      model.memories.findIndex((part) => part.ref === ref),
      errors,
    )
  doubt(counts, lanes)
}

function doubt(counts: Counts, lanes: readonly number[]): void {
  const unsaid = lanes.filter((lane) => counts.laneCovered[lane] !== 1 && (counts.laneErrors[lane] ?? 0) === 0)
  for (const lane of unsaid.length > 0 ? unsaid : lanes) counts.laneFailed[lane] = 1
}
