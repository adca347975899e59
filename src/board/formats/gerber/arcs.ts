/** Arcs between two points of a Gerber file: clockwise or not, about a centre that single quadrant arcs give without signs. */
import type { Point } from '../../../base/index.ts'
import { sweep } from '../../layout/arcs.ts'

export type Mode = 'line' | 'clockwise' | 'counter-clockwise'

export interface ArcRule {
  readonly mode: Mode
  readonly isSingleQuadrant: boolean
}

/** Points of the arc, both ends included; in the other rule the same point twice is a full turn. */
export function arcOf(from: Point, to: Point, offset: Point, { mode, isSingleQuadrant }: ArcRule): Point[] {
  const centre = isSingleQuadrant
    ? quadrantCentre(from, to, offset, mode)
    : { x: from.x + offset.x, y: from.y + offset.y }
  const points = sweep(centre, from, turnOf(from, to, { centre, mode, mayBeFull: !isSingleQuadrant }))
  points[points.length - 1] = to
  return points
}

interface About {
  readonly centre: Point
  readonly mode: Mode
  readonly mayBeFull: boolean
}

/** Degrees from `from` to `to` about the centre, counter-clockwise positive; the same point is a full turn where that may be. */
function turnOf(from: Point, to: Point, { centre, mode, mayBeFull }: About): number {
  const angle = (point: Point): number => Math.atan2(point.y - centre.y, point.x - centre.x)
  const full = 2 * Math.PI
  const ahead = (((angle(to) - angle(from)) % full) + full) % full
  const isSame = Math.hypot(from.x - to.x, from.y - to.y) < 1e-9
  if (isSame) return mayBeFull ? (mode === 'clockwise' ? -360 : 360) : 0
  const turn = mode === 'clockwise' ? ahead - full : ahead
  return ((turn === -full ? 0 : turn) * 180) / Math.PI
}

/** Single quadrant arcs give their offset without signs: the centre is the one with the same radius and at most 90 degrees. */
function quadrantCentre(from: Point, to: Point, { x, y }: Point, mode: Mode): Point {
  const [dx, dy] = [Math.abs(x), Math.abs(y)]
  const centres = [1, -1].flatMap((sx) => [1, -1].map((sy) => ({ x: from.x + sx * dx, y: from.y + sy * dy })))
  const isQuarter = (centre: Point): boolean => Math.abs(turnOf(from, to, { centre, mode, mayBeFull: false })) <= 90.5
  const offRound = (centre: Point): number =>
    Math.abs(Math.hypot(from.x - centre.x, from.y - centre.y) - Math.hypot(to.x - centre.x, to.y - centre.y))
  const [best] = centres.filter(isQuarter).toSorted((a, b) => offRound(a) - offRound(b))
  return best ?? { x: from.x + x, y: from.y + y }
}
