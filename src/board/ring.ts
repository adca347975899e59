/** The outer ring of a rectangular ball field, measured in mm along its outer edge, counter-clockwise from the lower left corner. */
import type { Box, Point } from '../base/index.ts'

/** Depth of the ring as a share of the half width of the ball field. Common practice, no source. */
export const RING_DEPTH = 0.4

/** `perimeterMm` is the length of the field’s edge. */
export interface Ring {
  readonly field: Box
  readonly perimeterMm: number
}

/** A difference along the ring, between minus half and half of its length. */
export const wrapped = (differenceMm: number, perimeterMm: number): number =>
  differenceMm - perimeterMm * Math.round(differenceMm / perimeterMm)

/** The place on the ring's outer edge that is nearest to a point; for a point within the field, straight outwards. */
export function nearestAlongRing(ring: Ring, point: Point): number {
  const { field } = ring
  const x = Math.min(field.maxX, Math.max(field.minX, point.x))
  const y = Math.min(field.maxY, Math.max(field.minY, point.y))
  return rayAlongRing(ring, { x, y })
}

/** Where the ray from the middle of the field through a point leaves it: mm counter-clockwise from the lower left corner. */
export function rayAlongRing({ field }: Ring, point: Point): number {
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

/** The patch between two places along the ring, in the core's own drawing: outer edge, then back along the inner edge. */
export function ringPatch(ring: Ring, startMm: number, endMm: number): Point[] {
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
