/** The board's edge and cut-outs from what is drawn on Edge.Cuts; the nominal edge is the middle of the line. */
import {
  type Box,
  boxOf,
  decimals,
  firstSelfCrossing,
  type Point,
  polygonContains,
  say,
  signedArea,
} from '../../base/index.ts'
import { hullOf } from '../polygons.ts'
import type { BoardDescription } from '../schema.ts'
import { chainStrokes } from './chain.ts'
import type { Stroke } from './model.ts'

/** Ends this near are one corner: ten times the file's usual rounding, far below what a router can mill. */
const CORNER_TOLERANCE_MM = 0.01
/** Gaps up to this are closed by a straight line, and said. */
const GAP_TOLERANCE_MM = 0.5
const FEWEST_CORNERS = 3
/** More corners than a description may have: refused later, not looked at for crossings. */
const MOST_CORNERS = 20_000

export interface BoardEdge {
  readonly outline: readonly Point[]
  readonly cutouts: BoardDescription['holes']
  readonly untold: readonly string[]
}

interface Loop {
  readonly points: readonly Point[]
  readonly circle: Stroke['circle']
  readonly areaMm2: number
}

/**
 * @param edges strokes on Edge.Cuts, y up
 * @param others points of pads, for a board that has no edge at all
 * @returns undefined when there is nothing to take an outline from
 */
export function boardEdge(edges: readonly Stroke[], others: readonly Point[]): BoardEdge | undefined {
  const untold: string[] = []
  const { loops, open } = loopsOf(edges, untold)
  const biggest = loops.reduce<Loop | undefined>(
    (a, b) => (a === undefined || b.areaMm2 > a.areaMm2 ? b : a),
    undefined,
  )
  const outline = outlineFrom(biggest, open, edges, others, untold)
  if (outline === undefined) return undefined
  const rest = loops.filter((loop) => loop !== biggest)
  const inside = rest.filter((loop) => liesInside(loop.points, outline))
  const outside = rest.length - inside.length
  if (outside > 0)
    untold.push(
      say(
        '{outside} more closed {outside, plural, one {edge lies} other {edges lie}} beside the biggest one, as on a panel or a second board; only the biggest is taken as the board.',
        { outside },
      ),
    )
  return { outline, cutouts: inside.map(cutoutOf), untold }
}

function loopsOf(edges: readonly Stroke[], untold: string[]): { loops: Loop[]; open: readonly (readonly Point[])[] } {
  const closed = edges.filter((edge) => edge.closed)
  const loose = edges.filter((edge) => !edge.closed).map((edge) => edge.points)
  const tight = chainStrokes(loose, CORNER_TOLERANCE_MM)
  const wide = chainStrokes(tight.open, GAP_TOLERANCE_MM)
  if (wide.loops.length > 0)
    untold.push(
      say(
        'The board edge has gaps of up to {widestGapMm} mm; they are closed by straight lines, which the file does not tell.',
        { widestGapMm: decimals(wide.widestGapMm, 3) },
      ),
    )
  const loops = [
    ...closed.map((edge) => loopOf(edge.points, edge.circle)),
    ...[...tight.loops, ...wide.loops].map((points) => loopOf(points, undefined)),
  ]
  return { loops: loops.filter((loop) => loop.points.length >= FEWEST_CORNERS && loop.areaMm2 > 0), open: wide.open }
}

function loopOf(points: readonly Point[], circle: Stroke['circle']): Loop {
  const corners = withoutRepeats(points)
  return { points: corners, circle, areaMm2: Math.abs(signedArea(corners)) }
}

function withoutRepeats(points: readonly Point[]): Point[] {
  return points.filter((point, i) => {
    const before = points[(i + points.length - 1) % points.length]
    return before === undefined || Math.hypot(point.x - before.x, point.y - before.y) > 1e-6
  })
}

function outlineFrom(
  biggest: Loop | undefined,
  open: readonly (readonly Point[])[],
  edges: readonly Stroke[],
  others: readonly Point[],
  untold: string[],
): readonly Point[] | undefined {
  const openArea = open.reduce((most, points) => Math.max(most, boxArea(boxOf(points))), 0)
  if (biggest !== undefined && openArea <= biggest.areaMm2) {
    if (open.length > 0)
      untold.push(
        say('{count} lines of the board edge belong to no closed one and are left out.', { count: open.length }),
      )
    if (biggest.points.length > MOST_CORNERS || firstSelfCrossing(biggest.points) === undefined) return biggest.points
    untold.push(say('The board edge crosses itself; its convex hull is taken as the outline.'))
    return usable(hullOf(biggest.points))
  }
  if (edges.length > 0) {
    untold.push(say('The board edge is not closed; the convex hull of what is drawn of it is taken as the outline.'))
    const hull = usable(hullOf(edges.flatMap((edge) => edge.points)))
    if (hull) return hull
  }
  const box = boxOf(others)
  if (others.length === 0 || boxArea(box) <= 0) return undefined
  untold.push(say('No board edge is drawn; the box around all parts is taken as the outline.'))
  return [
    { x: box.minX, y: box.minY },
    { x: box.maxX, y: box.minY },
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: box.maxY },
  ]
}

const usable = (polygon: Point[]): Point[] | undefined => (polygon.length >= FEWEST_CORNERS ? polygon : undefined)

const boxArea = (box: Box): number => (box.maxX - box.minX) * (box.maxY - box.minY)

/** Most corners inside: a cut-out may touch the edge. */
function liesInside(points: readonly Point[], outline: readonly Point[]): boolean {
  const inside = points.filter((point) => polygonContains(outline, point)).length
  return inside * 2 >= points.length
}

function cutoutOf(loop: Loop): BoardDescription['holes'][number] {
  if (loop.circle) return { at: loop.circle.at, diameterMm: 2 * loop.circle.radiusMm, plated: false }
  return { polygon: [...loop.points] }
}
