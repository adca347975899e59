/** The shape of an area mark: a circle, what a brush swept, or what a lasso encloses; and the same shape elsewhere. */
import { type Box, boxOf, distance, type Point, polygonContains, signedArea } from '../../base/index.ts'
import type { AreaMark } from '../marks.ts'
import { distanceToEdge, distanceToPath } from './raster.ts'

export type AreaManner = 'circle' | 'brush' | 'lasso'

type Shaped = Pick<AreaMark, 'at' | 'radiusMm' | 'path' | 'outline'>

/** How an area was put on the sheet. An outline counts before a path; a mark with neither is a circle. */
export const mannerOf = ({ path, outline }: Shaped): AreaManner =>
  outline !== undefined ? 'lasso' : path !== undefined ? 'brush' : 'circle'

/** Distance in mm from a point to the shape's edge: negative inside of it, 0 on the edge. */
export function distanceToArea({ at, radiusMm, path, outline }: Shaped, point: Point): number {
  if (outline !== undefined) return distanceToEdge(outline, point) * (polygonContains(outline, point) ? -1 : 1)
  return (path === undefined ? distance(at, point) : distanceToPath(path, point)) - radiusMm
}

/** The point of the shape that lies nearest to a point: that point itself inside of the shape. */
export function nearestOfArea(area: Shaped, point: Point): Point {
  const awayMm = distanceToArea(area, point)
  if (awayMm <= 0) return point
  const { at, radiusMm, path, outline } = area
  const line = outline === undefined ? (path ?? [at]) : [...outline, ...outline.slice(0, 1)]
  const on = nearestOnPath(line, point)
  if (outline !== undefined) return on
  const toEdge = radiusMm / distance(on, point)
  return { x: on.x + toEdge * (point.x - on.x), y: on.y + toEdge * (point.y - on.y) }
}

function nearestOnPath(path: readonly Point[], point: Point): Point {
  let nearest = path[0] ?? point
  for (let i = 1; i < path.length; i++) {
    const on = nearestOnSegment(path[i - 1] ?? nearest, path[i] ?? nearest, point)
    if (distance(on, point) < distance(nearest, point)) nearest = on
  }
  return nearest
}

function nearestOnSegment(a: Point, b: Point, point: Point): Point {
  const squared = (b.x - a.x) ** 2 + (b.y - a.y) ** 2
  if (squared === 0) return a
  const t = Math.min(1, Math.max(0, ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / squared))
  return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) }
}

/** The box in mm around all that an area covers: its circle or stroke with the radius, or its outline. */
export function boxOfArea({ at, radiusMm, path, outline }: Shaped): Box {
  if (outline !== undefined) return boxOf(outline)
  const { minX, minY, maxX, maxY } = boxOf(path ?? [at])
  return { minX: minX - radiusMm, minY: minY - radiusMm, maxX: maxX + radiusMm, maxY: maxY + radiusMm }
}

/** In mm², what a brush went over twice counted twice where its path crosses itself. */
export function sizeOfArea({ radiusMm, path, outline }: Shaped): number {
  if (outline !== undefined) return Math.abs(signedArea(outline))
  const lengthMm = (path ?? []).reduce((sum, point, i, all) => sum + distance(point, all[i - 1] ?? point), 0)
  return Math.PI * radiusMm ** 2 + 2 * radiusMm * lengthMm
}

/** The whole mark moved so that `at` comes to lie at a point. */
export function areaMovedTo<T extends Shaped>(mark: T, to: Point): T {
  const moved = ({ x, y }: Point): Point => ({ x: x + to.x - mark.at.x, y: y + to.y - mark.at.y })
  return {
    ...mark,
    at: to,
    ...(mark.path === undefined ? {} : { path: mark.path.map(moved) }),
    ...(mark.outline === undefined ? {} : { outline: mark.outline.map(moved) }),
  }
}
