/** Lines, arcs, circles, rectangles, polygons and curves of a KiCad file as runs of points (mm, y down). */
import type { Point } from '../../base/index.ts'
import { arcThrough, sweep } from '../layout/arcs.ts'
import type { Stroke } from '../layout/model.ts'
import { child, type Form, numberAt, textAt } from './forms.ts'

const CURVE_STEPS = 32

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
