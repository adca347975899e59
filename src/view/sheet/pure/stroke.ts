/** Painted strokes: thinned to the bends that matter, and made into the shapes of marks. */
import { type Box, boxOf, distance, distanceToSegment, type Point, signedArea } from '../../../base/index.ts'
import type { AreaMark } from '../../../spill/index.ts'
import type { MarkDraft, Painting, Stroke } from '../props.ts'

const MOST_POINTS = 2000
/** A closed line smaller than this was a press, not a lasso. */
const SMALLEST_LASSO_MM2 = 0.5

/**
 * The fewest of the points such that all lie within `toleranceMm` of the line through those kept: Douglas and Peucker
 * (1973), with a stack in place of recursion. The ends stay.
 */
export function thinned(path: readonly Point[], toleranceMm: number): Point[] {
  const last = path.length - 1
  const keep = new Uint8Array(path.length)
  keep[0] = 1
  if (last >= 0) keep[last] = 1
  const spans: [number, number][] = [[0, last]]
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [from, to] = span
    const farthest = farthestFrom(path, from, to)
    if (farthest.awayMm <= toleranceMm) continue
    keep[farthest.index] = 1
    spans.push([from, farthest.index], [farthest.index, to])
  }
  return path.filter((_, i) => keep[i] === 1)
}

function farthestFrom(path: readonly Point[], from: number, to: number): { index: number; awayMm: number } {
  let best = { index: from, awayMm: -1 }
  const a = path[from]
  const b = path[to]
  if (a === undefined || b === undefined) return best
  for (let i = from + 1; i < to; i++) {
    const point = path[i]
    const awayMm = point === undefined ? -1 : distanceToSegment(point, a, b)
    if (awayMm > best.awayMm) best = { index: i, awayMm }
  }
  return best
}

/** The stroke with at most as many points as a mark may hold, and no more than its width calls for. */
function settled(stroke: Stroke, radiusMm: number): Point[] {
  let toleranceMm = stroke.manner === 'brush' ? Math.max(0.05, radiusMm / 12) : 0.08
  let points = thinned(stroke.points, toleranceMm)
  while (points.length > MOST_POINTS) points = thinned(stroke.points, (toleranceMm *= 2))
  return points
}

type AreaDraft = Extract<MarkDraft, { radiusMm: number }>

/** The shape of a mark that was painted: a press without a stroke is a circle. */
export function areaOfDraft({
  at,
  radiusMm,
  stroke,
}: AreaDraft): Pick<AreaMark, 'at' | 'radiusMm' | 'path' | 'outline'> {
  if (stroke === undefined) return { at, radiusMm }
  const points = settled(stroke, radiusMm)
  if (stroke.manner === 'brush') return points.length < 2 ? { at, radiusMm } : { at, radiusMm, path: points }
  const sizeMm2 = Math.abs(signedArea(points))
  if (points.length < 3 || sizeMm2 < SMALLEST_LASSO_MM2) return { at, radiusMm }
  return { at: middleOf(boxOf(points)), radiusMm: Math.sqrt(sizeMm2 / Math.PI), outline: points }
}

/** The same while the hand still draws, however few its points; a brush's thinned, so that its edge is soon found. */
export function shapeOfDraft({
  at,
  radiusMm,
  stroke,
}: AreaDraft): Pick<AreaMark, 'at' | 'radiusMm' | 'path' | 'outline'> {
  if (stroke === undefined) return { at, radiusMm }
  if (stroke.manner === 'lasso') return { at, radiusMm, outline: [...stroke.points] }
  return { at, radiusMm, path: thinned(stroke.points, radiusMm / 6) }
}

const middleOf = ({ minX, minY, maxX, maxY }: Box): Point => ({ x: (minX + maxX) / 2, y: (minY + maxY) / 2 })

/** What the hand begins when it presses with an area's tool. */
export const firstStroke = (painting: Painting, at: Point): { stroke?: Stroke } =>
  painting.manner === 'circle' ? {} : { stroke: { manner: painting.manner, points: [at] } }

/** The stroke one point longer, unless the hand has hardly moved. */
export function longerStroke(stroke: Stroke, at: Point, leastMm: number): Stroke {
  const last = stroke.points.at(-1)
  if (last !== undefined && distance(last, at) < leastMm) return stroke
  return { ...stroke, points: [...stroke.points, at] }
}
