/** What must hold for every board model, whatever board it came from. */
import { signedArea } from '../../src/base/index.ts'
import type { BoardModel, Channel, Lane, Region } from '../../src/board/index.ts'

/** A sentence for each thing that does not hold; none for a sound model. */
export function unsoundIn(model: BoardModel): string[] {
  return [
    ...repeatedIds(model),
    ...model.regions.flatMap((region) => unsoundRegion(model, region)),
    ...model.lanes.flatMap((lane) => unsoundLane(model, lane)),
    ...model.channels.flatMap((channel) => unsoundChannel(model, channel)),
    ...unsoundOrder(model),
  ]
}

const unless = (holds: boolean, sentence: string): string[] => (holds ? [] : [sentence])

const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i])

function repeatedIds(model: BoardModel): string[] {
  return [
    ...unless(model.partByRef.size === model.parts.length, 'parts share a ref'),
    ...unless(model.regionById.size === model.regions.length, 'regions share an id'),
    ...unless(model.laneById.size === model.lanes.length, 'lanes share an id'),
    ...unless(model.channelById.size === model.channels.length, 'channels share an id'),
    ...unless(model.corridorByLane.size === model.corridors.length, 'a lane has two corridors'),
  ]
}

function unsoundRegion(model: BoardModel, region: Region): string[] {
  const area = signedArea(region.polygon)
  return [
    ...unless(model.partByRef.get(region.part)?.side === region.side, `${region.id} is not on its part’s side`),
    ...unless(area > 0, `${region.id} does not run counter-clockwise about an area`),
    ...unless(Math.abs(area - region.areaMm2) < 1e-6, `${region.id} tells another area than its own`),
    ...unless(Number.isFinite(region.centre.x + region.centre.y), `${region.id} has no centre`),
    ...unless(
      region.lanes.every((lane) => model.laneById.has(lane)),
      `${region.id} names lanes that are none`,
    ),
  ]
}

/** One memory region, one core region where the board has a core, and then a corridor between them. */
function unsoundLane(model: BoardModel, lane: Lane): string[] {
  const serving = model.regions.filter((region) => region.role === 'lane' && region.lanes.includes(lane.id))
  const ids = serving.map((region) => region.id)
  const expected = [lane.memoryRegion, ...(lane.coreRegion === undefined ? [] : [lane.coreRegion])]
  const hasCorridor = model.corridorByLane.has(lane.id)
  return [
    ...unless(
      expected.length === ids.length && expected.every((id) => ids.includes(id)),
      `${lane.id} has ${ids.join()}`,
    ),
    ...unless((lane.coreRegion !== undefined) === (model.core !== undefined), `${lane.id} has half a core`),
    ...unless(hasCorridor || model.core === undefined, `${lane.id} has no corridor`),
    ...unless(lane.memoryBalls.length === lane.bitCount, `${lane.id} has ${lane.memoryBalls.length} memory balls`),
    ...unless(lane.coreBalls.length === lane.bitCount, `${lane.id} has ${lane.coreBalls.length} core balls`),
  ]
}

/** Its lanes follow each other bit by bit. */
function unsoundChannel(model: BoardModel, channel: Channel): string[] {
  const lanes = channel.lanes.map((id) => model.laneById.get(id))
  let bit = 0
  const expected = lanes.map((lane) => (bit += lane?.bitCount ?? NaN) - (lane?.bitCount ?? 0))
  const first = lanes.map((lane) => lane?.firstBit)
  return [
    ...unless(same(first, expected), `channel ${channel.id} has lanes that start at ${first.join()}`),
    ...unless(channel.bitCount === bit, `channel ${channel.id} has ${channel.bitCount} bits, its lanes ${bit}`),
    ...unless(
      lanes.every((lane) => lane?.channel === channel.id),
      `channel ${channel.id} has lanes of another`,
    ),
  ]
}

function unsoundOrder(model: BoardModel): string[] {
  const named = new Set(model.addressMap?.channel.order)
  if (named.size === 0) return []
  const all = [...model.channelById.keys()]
  return unless(
    named.size === all.length && all.every((id) => named.has(id)),
    'the map’s order and the channels differ',
  )
}
