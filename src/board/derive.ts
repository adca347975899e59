/** From a checked board description to the board model: everything derived that the description leaves out. */
import { boxOf, type Point } from '../base/index.ts'
import { ringRegions } from './core-ring.ts'
import { corridorOf } from './corridors.ts'
import { groupedBy } from './group.ts'
import { laneIdOf, lanePart, lanesOf } from './lanes.ts'
import type { BoardModel, Lane, PlacedPart, Region } from './model.ts'
import type { PackageOutline } from './package-outline.ts'
import { packageOutlines } from './packages.ts'
import { placePart } from './place.ts'
import { regionsOfPart } from './regions.ts'
import type { BoardDescription, LaneDescription } from './schema.ts'

/**
 * The board model of a description that has no faults (see `loadBoard`). Where a lane has no part it is left out; where
 * it has no balls and no package its memory region is the middle of nothing and is left out as well.
 */
export function deriveModel(description: BoardDescription): BoardModel {
  const parts = description.parts.map((part) => placePart(part, packageOutlines.get(part.package ?? '')))
  const partByRef = new Map(parts.map((part) => [part.ref, part]))
  const descriptionByRef = new Map(description.parts.map((part) => [part.ref, part]))
  const { lanes, channels } = lanesOf(description, descriptionByRef, packageOutlines)
  const regions = allRegions(parts, lanes)
  const regionById = new Map(regions.map((region) => [region.id, region]))
  const corridors = allCorridors(description, lanes, partByRef, regionById)
  return {
    name: description.name,
    description,
    outline: description.outline,
    cutouts: description.holes.flatMap((hole) => ('polygon' in hole ? [hole.polygon] : [])),
    drills: description.holes.flatMap((hole) => ('polygon' in hole ? [] : [hole])),
    box: boxOf(description.outline),
    parts,
    partByRef,
    core: parts.find((part) => part.kind === 'core'),
    memories: parts.filter((part) => part.kind === 'memory'),
    regions,
    regionById,
    corridors,
    corridorByLane: new Map(corridors.map((corridor) => [corridor.lane, corridor])),
    channels,
    channelById: new Map(channels.map((channel) => [channel.id, channel])),
    lanes,
    laneById: new Map(lanes.map((lane) => [lane.id, lane])),
    rails: description.rails,
    addressMap: description.addressMap,
  }
}

const outlineOf = (part: PlacedPart): PackageOutline | undefined => packageOutlines.get(part.description.package ?? '')

/** Regions of every memory part in the order of the parts, then those of the core. */
function allRegions(parts: readonly PlacedPart[], lanes: readonly Lane[]): readonly Region[] {
  const core = parts.find((part) => part.kind === 'core')
  const lanesByPart = groupedBy(lanes, (lane) => lane.part)
  const outside = parts
    .filter((part) => part !== core)
    .flatMap((part) => regionsOfPart(part, outlineOf(part), lanesByPart.get(part.ref) ?? []))
  if (core === undefined) return outside
  const own = regionsOfPart(core, outlineOf(core), lanes)
  const known = new Set(own.map((region) => region.id))
  const without = lanes.filter((lane) => lane.coreRegion !== undefined && !known.has(lane.coreRegion))
  const endOf = laneEnds(outside, parts)
  return [...outside, ...own, ...ringRegions(core, outlineOf(core), without, endOf)]
}

/** Where a lane ends on the board: the middle of its memory region, else of its part. */
function laneEnds(regions: readonly Region[], parts: readonly PlacedPart[]): (lane: Lane) => Point {
  const centres = new Map(regions.map((region) => [region.id, region.centre]))
  const places = new Map(parts.map((part) => [part.ref, part.placement.at]))
  return (lane) => centres.get(lane.memoryRegion) ?? places.get(lane.part) ?? { x: 0, y: 0 }
}

function allCorridors(
  description: BoardDescription,
  lanes: readonly Lane[],
  partByRef: ReadonlyMap<string, PlacedPart>,
  regionById: ReadonlyMap<string, Region>,
): BoardModel['corridors'] {
  const described = new Map<string, LaneDescription>()
  for (const channel of description.memory.channels)
    for (const lane of channel.lanes) described.set(laneIdOf(lanePart(channel, lane), lane), lane)
  return lanes.flatMap((lane) => {
    const part = partByRef.get(lane.part)
    if (part === undefined) return []
    return corridorOf(lane, described.get(lane.id), part, regionById) ?? []
  })
}
