/** Polygons of regions: centre, hull, growth, and where a line leaves one. Lengths in mm. */
import { boxOf, type Point, signedArea } from '../base/index.ts'

/** Centre of area of a simple polygon; the middle of its box when it has no area. */
export function centroidOf(polygon: readonly Point[]): Point {
  let x = 0
  let y = 0
  let twice = 0
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[j]
    const b = polygon[i]
    if (!a || !b) continue
    const cross = a.x * b.y - b.x * a.y
    twice += cross
    x += (a.x + b.x) * cross
    y += (a.y + b.y) * cross
  }
  if (Math.abs(twice) > 1e-9) return { x: x / (3 * twice), y: y / (3 * twice) }
  const box = boxOf(polygon)
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
}

/** The same polygon with its corners counter-clockwise (y up); one that runs so already is handed back as it is. */
export const counterClockwise = (polygon: readonly Point[]): readonly Point[] =>
  signedArea(polygon) < 0 ? polygon.toReversed() : polygon

/** Convex hull, counter-clockwise (Andrew's monotone chain). */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y)
  if (sorted.length < 3) return sorted
  const lower = chainOf(sorted)
  const upper = chainOf(sorted.toReversed())
  return [...lower.slice(0, -1), ...upper.slice(0, -1)]
}

function chainOf(points: readonly Point[]): Point[] {
  const chain: Point[] = []
  for (const point of points) {
    while (chain.length >= 2 && !turnsLeft(chain.at(-2), chain.at(-1), point)) chain.pop()
    chain.push(point)
  }
  return chain
}

const turnsLeft = (a: Point | undefined, b: Point | undefined, c: Point): boolean =>
  a !== undefined && b !== undefined && (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 1e-12

/** Hull of the points, each grown to a square of half side `marginMm`: what a patch of balls covers, never without area. */
export function grownHullOf(points: readonly Point[], marginMm: number): Point[] {
  const corners = points.flatMap(({ x, y }) => [
    { x: x - marginMm, y: y - marginMm },
    { x: x + marginMm, y: y - marginMm },
    { x: x + marginMm, y: y + marginMm },
    { x: x - marginMm, y: y + marginMm },
  ])
  return hullOf(corners)
}

/** Where the segment from a to b last meets the polygon's edge, as a share of its length from a; undefined if nowhere. */
export function lastCrossing(polygon: readonly Point[], a: Point, b: Point): number | undefined {
  let last: number | undefined
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const p = polygon[j]
    const q = polygon[i]
    if (!p || !q) continue
    const share = crossingShare(a, b, p, q)
    if (share !== undefined && (last === undefined || share > last)) last = share
  }
  return last
}

function crossingShare(a: Point, b: Point, p: Point, q: Point): number | undefined {
  const rx = b.x - a.x
  const ry = b.y - a.y
  const sx = q.x - p.x
  const sy = q.y - p.y
  const cross = rx * sy - ry * sx
  if (Math.abs(cross) < 1e-12) return undefined
  const t = ((p.x - a.x) * sy - (p.y - a.y) * sx) / cross
  const u = ((p.x - a.x) * ry - (p.y - a.y) * rx) / cross
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? t : undefined
}
