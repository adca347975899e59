/** How well a body’s outline lies on edges of the picture: where, and turned how, it does so best. Coarse; `snap` makes it exact. */
import type { Point } from '../base/index.ts'
import type { Gradient } from './image.ts'

/** A body in pixels of the picture, y down; its angle counter-clockwise as it is seen. */
export interface OutlineShape {
  readonly widthPx: number
  readonly lengthPx: number
  readonly angleDeg: number
  /** How far its top is seen from its foot. */
  readonly leanPx: Point
  /** How large its foot is seen beside its top, which is nearer to the camera; as large where left out. */
  readonly footShare?: number | undefined
}

/** One side of a body: points along the edge of its top about the top’s middle, and the way out across it. */
export interface OutlineEdge {
  readonly x: Float32Array
  readonly y: Float32Array
  readonly outX: number
  readonly outY: number
  /** From the edge of the top outwards to that of the foot, where the wall between them is seen; 0 where it is hidden. */
  readonly footPx: number
}

const MOST_PER_EDGE = 28

/**
 * Points along the four edges of a body’s top, about one a pixel up to `mostPerEdge`. The corners are left out: there edges
 * turn.
 */
export function outlineEdges(
  { widthPx, lengthPx, angleDeg, leanPx, footShare = 1 }: OutlineShape,
  mostPerEdge = MOST_PER_EDGE,
): OutlineEdge[] {
  const angle = (angleDeg * Math.PI) / 180
  // y runs down in a picture
  const axisX = { x: Math.cos(angle), y: -Math.sin(angle) }
  const axisY = { x: -Math.sin(angle), y: -Math.cos(angle) }
  const sides: readonly (readonly [Point, number, Point, number])[] = [
    [axisX, widthPx / 2, axisY, lengthPx],
    [axisY, lengthPx / 2, axisX, widthPx],
    [{ x: -axisX.x, y: -axisX.y }, widthPx / 2, axisY, lengthPx],
    [{ x: -axisY.x, y: -axisY.y }, lengthPx / 2, axisX, widthPx],
  ]
  return sides.map(([out, awayPx, along, longPx]) => {
    const footPx = Math.max(0, -(leanPx.x * out.x + leanPx.y * out.y) - awayPx * (1 - footShare))
    return { ...pointsOf(out, awayPx, along, { longPx, mostPerEdge }), outX: out.x, outY: out.y, footPx }
  })
}

interface EdgeLength {
  readonly longPx: number
  readonly mostPerEdge: number
}

function pointsOf(
  out: Point,
  awayPx: number,
  along: Point,
  { longPx, mostPerEdge }: EdgeLength,
): Pick<OutlineEdge, 'x' | 'y'> {
  const count = Math.max(6, Math.min(mostPerEdge, Math.round(longPx)))
  const x = new Float32Array(count)
  const y = new Float32Array(count)
  for (let i = 0; i < count; i++) {
    const share = ((i + 0.5) / count - 0.5) * 0.9 * longPx
    x[i] = out.x * awayPx + along.x * share
    y[i] = out.y * awayPx + along.y * share
  }
  return { x, y }
}

/** The slopes of one colour, and below which of them there is only noise. */
export interface Slopes {
  readonly gradient: Gradient
  readonly floor: number
}

/** A wall that is seen less wide than this is not told from the edge of the top. */
const LEAST_FOOT_PX = 0.7
/** Where a wall is seen, its other edge is there too: what that adds. */
const SECOND_EDGE = 0.35

/**
 * How well the outline lies on edges, 0 to 1: along each edge the mean of the slope across it over the slope’s size, which no
 * change of light alters (C. Steger, “Similarity measures for occlusion, clutter, and illumination invariant object
 * recognition”, 2001; from memory), the same way all along the edge, in the colour that shows it best, of the top or of the
 * foot, the other of them counting for a third; of the four edges the mean, where the worst counts no less than half of it, so that glare over one side spoils nothing.
 */
export function outlineScore(colours: readonly Slopes[], edges: readonly OutlineEdge[], at: Point): number {
  let sum = 0
  let worst = 1
  for (const edge of edges) {
    let top = 0
    let foot = 0
    for (const colour of colours) {
      top = Math.max(top, Math.abs(acrossEdge(colour, edge, at.x, at.y)))
      if (edge.footPx < LEAST_FOOT_PX) continue
      const [x, y] = [at.x + edge.outX * edge.footPx, at.y + edge.outY * edge.footPx]
      foot = Math.max(foot, Math.abs(acrossEdge(colour, edge, x, y)))
    }
    const score = Math.min(1, Math.max(top, foot) + SECOND_EDGE * Math.min(top, foot))
    sum += score
    if (score < worst) worst = score
  }
  return ofFourSides(sum, worst)
}

/** The mean of four sides of which the worst counts no less than half of the others: there may be glare over it. */
export function ofFourSides(sum: number, worst: number): number {
  const others = (sum - worst) / 3
  return (sum - worst + Math.max(worst, others / 2)) / 4
}

/** The same where the grey must rise across all edges of the top, or fall across all, in the colour that shows it best. */
export function agreedOutline(colours: readonly Slopes[], edges: readonly OutlineEdge[], at: Point): number {
  let best = 0
  for (const colour of colours) {
    let [rising, falling] = [0, 0]
    for (const edge of edges) {
      const across = acrossEdge(colour, edge, at.x, at.y)
      if (across > 0) rising += across
      else falling -= across
    }
    best = Math.max(best, rising, falling)
  }
  return best / edges.length
}

/** Positive where the grey rises outwards. */
function acrossEdge({ gradient, floor }: Slopes, { x, y, outX, outY }: OutlineEdge, atX: number, atY: number): number {
  let across = 0
  for (let i = 0; i < x.length; i++) {
    const column = (atX + (x[i] ?? 0)) | 0
    const row = (atY + (y[i] ?? 0)) | 0
    if (column < 0 || row < 0 || column >= gradient.widthPx || row >= gradient.heightPx) continue
    const pixel = row * gradient.widthPx + column
    const gx = gradient.x[pixel] ?? 0
    const gy = gradient.y[pixel] ?? 0
    across += (gx * outX + gy * outY) / (Math.sqrt(gx * gx + gy * gy) + floor)
  }
  return across / x.length
}

/** Slopes of the picture’s noise and clutter: half the mean slope, in grey per pixel. */
export function slopeFloor(gradient: Gradient): number {
  let sum = 0
  let count = 0
  for (let i = 0; i < gradient.x.length; i += 7) {
    sum += Math.hypot(gradient.x[i] ?? 0, gradient.y[i] ?? 0)
    count++
  }
  return Math.max(0.8, (0.5 * sum) / Math.max(1, count))
}
