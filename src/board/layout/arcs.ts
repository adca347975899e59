/** Arcs as runs of points. */
import type { Point } from '../../base/index.ts'

/** Furthest that a flattened arc may stand off the true one. */
const CHORD_ERROR_MM = 0.005
const MAX_ARC_STEPS = 2048

/** The arc through three points; a straight line where they lie on one. */
export function arcThrough(start: Point, mid: Point, end: Point): Point[] {
  const ax = mid.x - start.x
  const ay = mid.y - start.y
  const bx = end.x - start.x
  const by = end.y - start.y
  const cross = 2 * (ax * by - ay * bx)
  if (Math.abs(cross) < 1e-9) return [start, mid, end]
  const a2 = ax * ax + ay * ay
  const b2 = bx * bx + by * by
  const centre = { x: start.x + (by * a2 - ay * b2) / cross, y: start.y + (ax * b2 - bx * a2) / cross }
  const angleOf = (p: Point): number => Math.atan2(p.y - centre.y, p.x - centre.x)
  const turn = 2 * Math.PI
  const forward = (from: number, to: number): number => (((to - from) % turn) + turn) % turn
  const total = forward(angleOf(start), angleOf(end))
  const ahead = forward(angleOf(start), angleOf(mid)) <= total
  const points = sweep(centre, start, ((ahead ? total : total - turn) * 180) / Math.PI)
  points[points.length - 1] = end
  return points
}

/** Points from `from` about `centre` by an angle (degrees, from x towards y of the file), with the arc's extreme points. */
export function sweep(centre: Point, from: Point, angleDeg: number): Point[] {
  const radius = Math.hypot(from.x - centre.x, from.y - centre.y)
  const begin = Math.atan2(from.y - centre.y, from.x - centre.x)
  const total = (Math.max(-360, Math.min(360, angleDeg)) * Math.PI) / 180
  const largest = radius > CHORD_ERROR_MM ? 2 * Math.acos(1 - CHORD_ERROR_MM / radius) : Math.PI / 2
  const steps = Math.min(MAX_ARC_STEPS, Math.max(2, Math.ceil(Math.abs(total) / Math.min(largest, Math.PI / 8))))
  const offsets = Array.from({ length: steps - 1 }, (_, i) => (total * (i + 1)) / steps)
  for (let quarter = -8; quarter <= 8; quarter++) {
    const offset = (quarter * Math.PI) / 2 - begin
    if (offset * total > 0 && Math.abs(offset) < Math.abs(total)) offsets.push(offset)
  }
  offsets.sort((a, b) => (total < 0 ? b - a : a - b))
  const at = (offset: number): Point => ({
    x: centre.x + radius * Math.cos(begin + offset),
    y: centre.y + radius * Math.sin(begin + offset),
  })
  return [from, ...offsets.map(at), at(total)]
}
