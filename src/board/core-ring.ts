/**
 * Regions of the core that no board file draws: patches of the outer ring of its ball field, each on the side that faces
 * its memory part, so that neighbouring parts have neighbouring patches. A model of common practice (memory interfaces
 * lie along the edge of the die and leave by the outer rows), not of any real processor.
 */
import { boxOf, type Box, placePoint, type Point, unplacePoint } from '../base/index.ts'
import { fieldSizeOf } from './ball-field.ts'
import { groupedBy } from './group.ts'
import type { Lane, PlacedPart, Region } from './model.ts'
import type { PackageOutline } from './package-outline.ts'
import { makeRegion } from './regions.ts'
import { nearestAlongRing, rayAlongRing, type Ring, RING_DEPTH, ringPatch, wrapped } from './ring.ts'
import { type Block, placedStarts } from './ring-packing.ts'

/** Balls in the ring for each data bit of a lane: its share of data, strobe, command and as many grounds. Common practice. */
const BALLS_PER_BIT = 3
/** Of the whole ring, the most that all lanes may take, and the most that those of one part may: one side. */
const FULLEST = 0.98
const FULLEST_PART = 0.25

interface LaneBlock extends Block {
  readonly lanes: readonly Lane[]
}

/**
 * One region for each lane, in the order of `lanes`.
 * @param lanes the lanes that need a region; @param endOf where a lane ends in its memory part, on the board
 */
export function ringRegions(
  core: PlacedPart,
  outline: PackageOutline | undefined,
  lanes: readonly Lane[],
  endOf: (lane: Lane) => Point,
): Region[] {
  if (lanes.length === 0) return []
  const field = fieldBox(core, outline)
  const ring = { field, perimeterMm: 2 * (field.maxX - field.minX + field.maxY - field.minY) }
  const widthPerBitMm = laneWidthPerBit(core, ring, lanes)
  const local = (lane: Lane): Point => unplacePoint(endOf(lane), core.placement)
  const blocks = blocksOf(ring, lanes, local, widthPerBitMm)
  const startByLane = new Map<string, number>()
  for (const [i, startMm] of placedStarts(blocks, ring.perimeterMm).entries()) {
    let at = startMm
    for (const lane of blocks[i]?.lanes ?? []) {
      startByLane.set(lane.id, at)
      at += lane.bitCount * widthPerBitMm
    }
  }
  return lanes.map((lane) => {
    const startMm = startByLane.get(lane.id) ?? 0
    const polygon = ringPatch(ring, startMm, startMm + lane.bitCount * widthPerBitMm)
    return makeRegion(core, {
      name: (lane.coreRegion ?? lane.id).slice(core.ref.length + 1),
      role: 'lane',
      polygon: polygon.map((point) => placePoint(point, core.placement)),
      lanes: [lane.id],
      from: 'derived',
    })
  })
}

function fieldBox(core: PlacedPart, outline: PackageOutline | undefined): Box {
  const pads = core.description.pads ?? []
  if (pads.length > 0 && outline === undefined) {
    const box = boxOf(pads.map((pad) => pad.at))
    if (box.maxX > box.minX && box.maxY > box.minY) return box
  }
  const { widthMm, lengthMm } = outline ? fieldSizeOf(outline) : core
  const { x, y } = core.description.body?.centre ?? { x: 0, y: 0 }
  return { minX: x - widthMm / 2, minY: y - lengthMm / 2, maxX: x + widthMm / 2, maxY: y + lengthMm / 2 }
}

/** Ring length for each data bit, in mm: what its balls need, or less when the ring is too short for all lanes. */
function laneWidthPerBit(core: PlacedPart, ring: Ring, lanes: readonly Lane[]): number {
  const pitchMm = core.ballPitchMm ?? 1
  const halfWidthMm = Math.min(ring.field.maxX - ring.field.minX, ring.field.maxY - ring.field.minY) / 2
  const depthMm = halfWidthMm * RING_DEPTH
  const bitsOfParts = [...groupedBy(lanes, (lane) => lane.part).values()].map(bitsOf)
  const bits = bitsOfParts.reduce((sum, own) => sum + own, 0)
  const widest = bitsOfParts.reduce((most, own) => Math.max(most, own), 0)
  return Math.min(
    (BALLS_PER_BIT * pitchMm * pitchMm) / depthMm,
    (ring.perimeterMm * FULLEST) / bits,
    (ring.perimeterMm * FULLEST_PART) / widest,
  )
}

const bitsOf = (lanes: readonly Lane[]): number => lanes.reduce((sum, lane) => sum + lane.bitCount, 0)

/** The lanes of each memory part side by side, parts in their order around the core. */
function blocksOf(
  ring: Ring,
  lanes: readonly Lane[],
  local: (lane: Lane) => Point,
  widthPerBitMm: number,
): readonly LaneBlock[] {
  const byPart = groupedBy(lanes, (lane) => lane.part)
  const blocks = [...byPart.values()].map((own) => {
    const middle = meanOf(own.map(local))
    const wishMm = nearestAlongRing(ring, middle)
    return {
      lanes: inOrderAlongRing(ring, own, local, wishMm),
      wishMm,
      widthMm: bitsOf(own) * widthPerBitMm,
      nearest: Math.round(wishMm / ROUNDING_MM),
      bearing: stepsAbout(ring, wishMm, rayAlongRing(ring, middle)),
    }
  })
  return blocks.toSorted((a, b) => a.nearest - b.nearest || a.bearing - b.bearing || byId(a.lanes[0], b.lanes[0]))
}

/** Places nearer than this are the same place. */
const ROUNDING_MM = 1e-6

/** How far along the ring a place lies from another, in whole steps of the rounding. */
const stepsAbout = (ring: Ring, aboutMm: number, alongMm: number): number =>
  Math.round(wrapped(alongMm - aboutMm, ring.perimeterMm) / ROUNDING_MM)

/** The lanes of one part by their nearest place, then by their bearing, then by name. */
function inOrderAlongRing(ring: Ring, lanes: readonly Lane[], local: (lane: Lane) => Point, aboutMm: number): Lane[] {
  const keyed = lanes.map((lane) => ({
    lane,
    nearest: stepsAbout(ring, aboutMm, nearestAlongRing(ring, local(lane))),
    bearing: stepsAbout(ring, aboutMm, rayAlongRing(ring, local(lane))),
  }))
  return keyed
    .toSorted((a, b) => a.nearest - b.nearest || a.bearing - b.bearing || byId(a.lane, b.lane))
    .map(({ lane }) => lane)
}

const byId = (a: Lane | undefined, b: Lane | undefined): number => ((a?.id ?? '') < (b?.id ?? '') ? -1 : 1)

function meanOf(points: readonly Point[]): Point {
  const sum = points.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 })
  return { x: sum.x / points.length, y: sum.y / points.length }
}
