/** Lines, arcs, circles, rectangles, polygons and curves of a KiCad file as runs of points (mm, y down). */
import type { Point } from '../../base/index.ts'
import { child, type Form, numberAt, textAt } from './forms.ts'
import type { Stroke } from './layout.ts'

/** Furthest that a flattened arc may stand off the true one. */
const CHORD_ERROR_MM = 0.005
const CURVE_STEPS = 32
const MAX_ARC_STEPS = 2048

/** The point that a form such as `(start x y)` gives, or undefined. */
export function pointOf(form: Form | undefined): Point | undefined {
  const x = numberAt(form, 0)
  const y = numberAt(form, 1)
  return x === undefined || y === undefined ? undefined : { x, y }
}

/**
 * Any `gr_…` or `fp_…` drawing form as a stroke.
 * @returns undefined when a coordinate is missing or no number, or the form is no drawing
 */
export function strokeOf(form: Form): Stroke | undefined {
  const layer = textAt(child(form, 'layer'), 0)
  if (layer === undefined) return undefined
  const shape = form.name.slice(3)
  const base = { layer, line: form.line }
  if (shape === 'circle') return circleStroke(form, base)
  const points = openPoints(form, shape)
  if (points === undefined || points.length < 2) return undefined
  return { ...base, points, closed: shape === 'rect' || shape === 'poly' }
}

function openPoints(form: Form, shape: string): Point[] | undefined {
  const start = pointOf(child(form, 'start'))
  const end = pointOf(child(form, 'end'))
  if (shape === 'poly' || shape === 'curve') {
    const points = listedPoints(child(form, 'pts'))
    return shape === 'curve' && points ? bezier(points) : points
  }
  if (start === undefined || end === undefined) return undefined
  if (shape === 'line') return [start, end]
  if (shape === 'rect') return [start, { x: end.x, y: start.y }, end, { x: start.x, y: end.y }]
  return shape === 'arc' ? arcPoints(form, start, end) : undefined
}

/** Points of `(pts (xy x y) (arc (start …) (mid …) (end …)) …)`. */
export function listedPoints(pts: Form | undefined): Point[] | undefined {
  if (pts === undefined) return undefined
  const points: Point[] = []
  for (const item of pts.items) {
    if (typeof item === 'string') continue
    if (item.name === 'xy') {
      const point = pointOf(item)
      if (point === undefined) return undefined
      points.push(point)
    } else if (item.name === 'arc') {
      const start = pointOf(child(item, 'start'))
      const end = pointOf(child(item, 'end'))
      const run = start && end ? arcPoints(item, start, end) : undefined
      if (run === undefined) return undefined
      points.push(...run)
    }
  }
  return points
}

/** New arcs give start, middle and end; old ones (to version 5) the centre as start, the first point as end and an angle. */
export function arcPoints(form: Form, start: Point, end: Point): Point[] | undefined {
  const angle = numberAt(child(form, 'angle'), 0)
  if (angle !== undefined) return sweep(start, end, angle)
  const mid = pointOf(child(form, 'mid'))
  return mid === undefined ? undefined : arcThrough(start, mid, end)
}

/** The arc through three points; a straight line where they lie on one. */
function arcThrough(start: Point, mid: Point, end: Point): Point[] {
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

function circleStroke(form: Form, base: { layer: string; line: number }): Stroke | undefined {
  const at = pointOf(child(form, 'center'))
  const end = pointOf(child(form, 'end'))
  if (at === undefined || end === undefined) return undefined
  const radiusMm = Math.hypot(end.x - at.x, end.y - at.y)
  const points = sweep(at, { x: at.x + radiusMm, y: at.y }, 360).slice(0, -1)
  return { ...base, points, closed: true, circle: { at, radiusMm } }
}

/** A cubic Bézier curve, evaluated at even steps; other counts of points are taken as a plain run. */
function bezier(points: readonly Point[]): Point[] {
  const [a, b, c, d] = points
  if (points.length !== 4 || !a || !b || !c || !d) return [...points]
  return Array.from({ length: CURVE_STEPS + 1 }, (_, i) => {
    const t = i / CURVE_STEPS
    const u = 1 - t
    const mix = (p: number, q: number, r: number, s: number): number =>
      u * u * u * p + 3 * u * u * t * q + 3 * u * t * t * r + t * t * t * s
    return { x: mix(a.x, b.x, c.x, d.x), y: mix(a.y, b.y, c.y, d.y) }
  })
}
