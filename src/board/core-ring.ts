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

/** Depth of the ring as a share of the half width of the ball field. Common practice, no source. */
const RING_DEPTH = 0.4
/** Balls in the ring for each data bit of a lane: its share of data, strobe, command and as many grounds. Common practice. */
const BALLS_PER_BIT = 3
/** Of the whole ring, the most that lanes may take. */
const FULLEST = 0.98

interface Block {
  readonly lanes: readonly Lane[]
  /** Where its middle would like to be, in mm along the ring's outer edge. */
  readonly wishMm: number
  readonly widthMm: number
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

interface Ring {
  readonly field: Box
  readonly perimeterMm: number
}

function fieldBox(core: PlacedPart, outline: PackageOutline | undefined): Box {
  const pads = core.description.pads ?? []
  if (pads.length > 0 && outline === undefined) {
    const box = boxOf(pads.map((pad) => pad.at))
    if (box.maxX > box.minX && box.maxY > box.minY) return box
  }
  const { widthMm, lengthMm } = outline ? fieldSizeOf(outline) : core
  return { minX: -widthMm / 2, minY: -lengthMm / 2, maxX: widthMm / 2, maxY: lengthMm / 2 }
}

/** Ring length for each data bit, in mm: what its balls need, or less when the ring is too short for all lanes. */
function laneWidthPerBit(core: PlacedPart, ring: Ring, lanes: readonly Lane[]): number {
  const pitchMm = core.ballPitchMm ?? 1
  const halfWidthMm = Math.min(ring.field.maxX - ring.field.minX, ring.field.maxY - ring.field.minY) / 2
  const depthMm = halfWidthMm * RING_DEPTH
  const bits = lanes.reduce((sum, lane) => sum + lane.bitCount, 0)
  return Math.min((BALLS_PER_BIT * pitchMm * pitchMm) / depthMm, (ring.perimeterMm * FULLEST) / bits)
}

/** The lanes of each memory part side by side, parts in their order around the core. */
function blocksOf(
  ring: Ring,
  lanes: readonly Lane[],
  local: (lane: Lane) => Point,
  widthPerBitMm: number,
): readonly Block[] {
  const byPart = groupedBy(lanes, (lane) => lane.part)
  const blocks = [...byPart.values()].map((own): Block => {
    const wishMm = nearestAlongRing(ring, meanOf(own.map(local)))
    const bits = own.reduce((sum, lane) => sum + lane.bitCount, 0)
    return { lanes: inOrderAlongRing(ring, own, local, wishMm), wishMm, widthMm: bits * widthPerBitMm }
  })
  return blocks.toSorted((a, b) => a.wishMm - b.wishMm || byId(a.lanes[0], b.lanes[0]))
}

/** The lanes of one part by their nearest place, then by their bearing, then by name. */
function inOrderAlongRing(ring: Ring, lanes: readonly Lane[], local: (lane: Lane) => Point, aboutMm: number): Lane[] {
  const steps = (along: number): number => Math.round(wrapped(along - aboutMm, ring.perimeterMm) / ROUNDING_MM)
  const keyed = lanes.map((lane) => ({
    lane,
    nearest: steps(nearestAlongRing(ring, local(lane))),
    bearing: steps(rayAlongRing(ring, local(lane))),
  }))
  return keyed
    .toSorted((a, b) => a.nearest - b.nearest || a.bearing - b.bearing || byId(a.lane, b.lane))
    .map(({ lane }) => lane)
}

/** Places nearer than this are the same place. */
const ROUNDING_MM = 1e-6

const byId = (a: Lane | undefined, b: Lane | undefined): number => ((a?.id ?? '') < (b?.id ?? '') ? -1 : 1)

function meanOf(points: readonly Point[]): Point {
  const sum = points.reduce((a, b) => ({ x: a.x + b.x, y: a.y + b.y }), { x: 0, y: 0 })
  return { x: sum.x / points.length, y: sum.y / points.length }
}

/** A difference along the ring, between minus half and half of its length. */
const wrapped = (differenceMm: number, perimeterMm: number): number =>
  differenceMm - perimeterMm * Math.round(differenceMm / perimeterMm)

/** The place on the ring's outer edge that is nearest to a point; for a point within the field, straight outwards. */
function nearestAlongRing(ring: Ring, point: Point): number {
  const { field } = ring
  const x = Math.min(field.maxX, Math.max(field.minX, point.x))
  const y = Math.min(field.maxY, Math.max(field.minY, point.y))
  return rayAlongRing(ring, { x, y })
}

/** Where the ray from the middle of the field through a point leaves it: mm counter-clockwise from the lower left corner. */
function rayAlongRing({ field }: Ring, point: Point): number {
  const width = field.maxX - field.minX
  const length = field.maxY - field.minY
  const dx = (point.x - (field.minX + field.maxX) / 2) / (width / 2)
  const dy = (point.y - (field.minY + field.maxY) / 2) / (length / 2)
  const reach = Math.max(Math.abs(dx), Math.abs(dy)) || 1
  const u = (dx / reach + 1) / 2
  const v = (dy / reach + 1) / 2
  if (-dy >= Math.abs(dx)) return u * width
  if (dx >= Math.abs(dy)) return width + v * length
  if (dy >= Math.abs(dx)) return width + length + (1 - u) * width
  return 2 * width + length + (1 - v) * length
}

/**
 * Starts of the blocks along the ring: as near to their wishes as can be (least squares) without overlap. The ring is cut
 * at its widest gap between wishes; on the cut-open line it is isotonic regression, solved by pooling adjacent violators.
 */
function placedStarts(blocks: readonly Block[], perimeterMm: number): number[] {
  const n = blocks.length
  const first = afterWidestGap(blocks, perimeterMm)
  const order = Array.from({ length: n }, (_, k) => (first + k) % n)
  const shifted: number[] = []
  let before = 0
  for (const i of order) {
    const block = blocks[i]
    if (!block) continue
    const wishMm = block.wishMm + (i < first ? perimeterMm : 0)
    shifted.push(wishMm - block.widthMm / 2 - before)
    before += block.widthMm
  }
  const pooled = squeezed(pooledAscending(shifted), perimeterMm - before)
  const starts = Array.from({ length: n }, () => 0)
  before = 0
  for (const [k, i] of order.entries()) {
    starts[i] = (pooled[k] ?? 0) + before
    before += blocks[i]?.widthMm ?? 0
  }
  return starts
}

function afterWidestGap(blocks: readonly Block[], perimeterMm: number): number {
  let widest = -1
  let first = 0
  for (const [i, block] of blocks.entries()) {
    const previous = blocks[(i + blocks.length - 1) % blocks.length]
    const gap = i === 0 ? block.wishMm + perimeterMm - (previous?.wishMm ?? 0) : block.wishMm - (previous?.wishMm ?? 0)
    if (gap > widest) {
      widest = gap
      first = i
    }
  }
  return first
}

/** The non-decreasing sequence nearest to `values` by least squares. */
export function pooledAscending(values: readonly number[]): number[] {
  const pools: { mean: number; count: number }[] = []
  for (const value of values) {
    let pool = { mean: value, count: 1 }
    for (let last = pools.at(-1); last && last.mean > pool.mean; last = pools.at(-1)) {
      pools.pop()
      const count = last.count + pool.count
      pool = { mean: (last.mean * last.count + pool.mean * pool.count) / count, count }
    }
    pools.push(pool)
  }
  return pools.flatMap(({ mean, count }) => Array.from({ length: count }, () => mean))
}

/** Draws an ascending sequence together about its middle until it spans no more than the slack that the ring has. */
function squeezed(ascending: readonly number[], slackMm: number): number[] {
  const low = ascending[0] ?? 0
  const span = (ascending.at(-1) ?? 0) - low
  if (span <= slackMm) return [...ascending]
  const middle = low + span / 2
  return ascending.map((value) => middle + ((value - middle) * slackMm) / span)
}

/** The patch between two places along the ring, in the core's own drawing: outer edge, then back along the inner edge. */
function ringPatch(ring: Ring, startMm: number, endMm: number): Point[] {
  const corners = cornersBetween(ring, startMm, endMm)
  const outer = [startMm, ...corners, endMm].map((along) => ringPoint(ring, along))
  const middle = { x: (ring.field.minX + ring.field.maxX) / 2, y: (ring.field.minY + ring.field.maxY) / 2 }
  const inner = outer.map((point) => ({
    x: middle.x + (point.x - middle.x) * (1 - RING_DEPTH),
    y: middle.y + (point.y - middle.y) * (1 - RING_DEPTH),
  }))
  return [...outer, ...inner.toReversed()]
}

function cornersBetween({ field, perimeterMm }: Ring, startMm: number, endMm: number): number[] {
  const width = field.maxX - field.minX
  const corners = [0, width, perimeterMm / 2, perimeterMm / 2 + width]
  const turns = Math.floor(startMm / perimeterMm)
  return [turns, turns + 1]
    .flatMap((turn) => corners.map((corner) => corner + turn * perimeterMm))
    .filter((corner) => corner > startMm + 1e-9 && corner < endMm - 1e-9)
}

function ringPoint({ field, perimeterMm }: Ring, alongMm: number): Point {
  const width = field.maxX - field.minX
  const length = field.maxY - field.minY
  const along = alongMm - perimeterMm * Math.floor(alongMm / perimeterMm)
  if (along <= width) return { x: field.minX + along, y: field.minY }
  if (along <= width + length) return { x: field.maxX, y: field.minY + along - width }
  if (along <= 2 * width + length) return { x: field.maxX - (along - width - length), y: field.maxY }
  return { x: field.minX, y: field.maxY - (along - 2 * width - length) }
}
