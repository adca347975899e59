/** Plane geometry on the board. All lengths in mm, angles in degrees, counter-clockwise positive, y up. */

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box {
  readonly minX: number
  readonly minY: number
  readonly maxX: number
  readonly maxY: number
}

/** How a part stands on the board: mirrored first (bottom side), then rotated, then moved. */
export interface Placement {
  readonly at: Point
  readonly rotationDeg: number
  readonly mirrored: boolean
}

/** A point of a part's own drawing, as it lies on the board seen from the top. */
export function placePoint(local: Point, placement: Placement): Point {
  const x = placement.mirrored ? -local.x : local.x
  const { cos, sin } = turn(placement.rotationDeg)
  return { x: placement.at.x + x * cos - local.y * sin, y: placement.at.y + x * sin + local.y * cos }
}

/** Inverse of `placePoint`. */
export function unplacePoint(onBoard: Point, placement: Placement): Point {
  const { cos, sin } = turn(placement.rotationDeg)
  const dx = onBoard.x - placement.at.x
  const dy = onBoard.y - placement.at.y
  const x = dx * cos + dy * sin
  return { x: placement.mirrored ? -x : x, y: -dx * sin + dy * cos }
}

/** Cosine and sine, exact at the quarter turns so that rectangles stay rectangles. */
function turn(rotationDeg: number): { cos: number; sin: number } {
  const quarter = (((rotationDeg % 360) + 360) % 360) / 90
  if (quarter === 0) return { cos: 1, sin: 0 }
  if (quarter === 1) return { cos: 0, sin: 1 }
  if (quarter === 2) return { cos: -1, sin: 0 }
  if (quarter === 3) return { cos: 0, sin: -1 }
  const radians = (rotationDeg * Math.PI) / 180
  return { cos: Math.cos(radians), sin: Math.sin(radians) }
}

/** The corners of a rectangle about the origin, counter-clockwise from the lower left. */
export function rectangleAround(widthMm: number, lengthMm: number): Point[] {
  const x = widthMm / 2
  const y = lengthMm / 2
  return [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ]
}

/** The smallest box along the axes around points, mm. No points give an inverted box from Infinity to -Infinity. */
export function boxOf(points: readonly Point[]): Box {
  let minX = Infinity
  let minY = Infinity
  let maxX = -Infinity
  let maxY = -Infinity
  for (const { x, y } of points) {
    if (x < minX) minX = x
    if (x > maxX) maxX = x
    if (y < minY) minY = y
    if (y > maxY) maxY = y
  }
  return { minX, minY, maxX, maxY }
}

/** Straight distance in mm between two points of the board. */
export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y)

/** Area of a simple polygon; positive when its corners run counter-clockwise. */
export function signedArea(polygon: readonly Point[]): number {
  let twice = 0
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[j]
    const b = polygon[i]
    if (a && b) twice += a.x * b.y - b.x * a.y
  }
  return twice / 2
}

/** Even-odd rule; a point on an edge counts as either. */
export function polygonContains(polygon: readonly Point[], point: Point): boolean {
  let inside = false
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const a = polygon[j]
    const b = polygon[i]
    if (!a || !b) continue
    if (a.y > point.y !== b.y > point.y && point.x < ((b.x - a.x) * (point.y - a.y)) / (b.y - a.y) + a.x)
      inside = !inside
  }
  return inside
}

/** Least distance in mm from a point to the closed segment ab; a segment of no length counts as the point a. */
export function distanceToSegment(point: Point, a: Point, b: Point): number {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const lengthSquared = dx * dx + dy * dy
  const t =
    lengthSquared === 0 ? 0 : Math.max(0, Math.min(1, ((point.x - a.x) * dx + (point.y - a.y) * dy) / lengthSquared))
  return Math.hypot(point.x - a.x - t * dx, point.y - a.y - t * dy)
}

/** The first pair of edges of a closed polygon that cross or lie on each other, or undefined if it is simple. */
export function firstSelfCrossing(polygon: readonly Point[]): readonly [number, number] | undefined {
  const n = polygon.length
  const order = polygon.map((_, i) => i).toSorted((i, j) => edgeMinX(polygon, i) - edgeMinX(polygon, j))
  for (let a = 0; a < n; a++) {
    const i = order[a] ?? 0
    const maxX = Math.max(polygon[i]?.x ?? 0, polygon[(i + 1) % n]?.x ?? 0)
    for (let b = a + 1; b < n; b++) {
      const j = order[b] ?? 0
      if (edgeMinX(polygon, j) > maxX) break
      const adjacent = j === (i + 1) % n || i === (j + 1) % n
      if (!adjacent && edgesTouch(polygon, i, j)) return i < j ? [i, j] : [j, i]
    }
  }
  return undefined
}

function edgeMinX(polygon: readonly Point[], i: number): number {
  return Math.min(polygon[i]?.x ?? 0, polygon[(i + 1) % polygon.length]?.x ?? 0)
}

function edgesTouch(polygon: readonly Point[], i: number, j: number): boolean {
  const n = polygon.length
  const a = polygon[i]
  const b = polygon[(i + 1) % n]
  const c = polygon[j]
  const d = polygon[(j + 1) % n]
  return a !== undefined && b !== undefined && c !== undefined && d !== undefined && segmentsTouch(a, b, c, d)
}

/** True when the closed segments ab and cd share a point. */
export function segmentsTouch(a: Point, b: Point, c: Point, d: Point): boolean {
  const d1 = side(c, d, a)
  const d2 = side(c, d, b)
  const d3 = side(a, b, c)
  const d4 = side(a, b, d)
  if (d1 * d2 < 0 && d3 * d4 < 0) return true
  return (
    (d1 === 0 && onSegment(c, d, a)) ||
    (d2 === 0 && onSegment(c, d, b)) ||
    (d3 === 0 && onSegment(a, b, c)) ||
    (d4 === 0 && onSegment(a, b, d))
  )
}

const side = (a: Point, b: Point, p: Point): number => Math.sign((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x))

const onSegment = (a: Point, b: Point, p: Point): boolean =>
  p.x >= Math.min(a.x, b.x) && p.x <= Math.max(a.x, b.x) && p.y >= Math.min(a.y, b.y) && p.y <= Math.max(a.y, b.y)
