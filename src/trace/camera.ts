/** Where the camera stood, and what that does to parts that have a height: their tops are seen further out than they stand. */
import type { Point } from '../base/index.ts'
import type { BoardView } from './view.ts'

export interface Camera {
  /** Over this point of the board, in mm. */
  readonly over: Point
  readonly heightMm: number
}

/** Focal length in half diagonals of the picture: about 26 mm on the 43.3 mm diagonal of small film, as telephones have. Common practice, no source. */
const USUAL_FOCAL = 1.2
const FOCAL_RANGE = { least: 0.8, most: 2.6 }
/** With less tilt than this the picture does not tell the focal length. */
const LEAST_TILT = 0.09

/**
 * The camera’s place from a view with square pixels and the axis in the middle of the picture: its homography is
 * K·[r1 r2 t] up to a factor, and r1, r2 are of one length and at right angles, which gives the focal length (Z. Zhang, “A
 * flexible new technique for camera calibration”, 2000; from memory). A view from nearly straight above does not tell it: then
 * that of a usual telephone is taken.
 */
export function cameraOf({ homography: h, lens }: BoardView): Camera {
  const { x: cx, y: cy } = lens.centre
  const columns: readonly Vector[] = [
    [h[0] - cx * h[6], h[3] - cy * h[6], h[6]],
    [h[1] - cx * h[7], h[4] - cy * h[7], h[7]],
    [h[2] - cx * h[8], h[5] - cy * h[8], h[8]],
  ]
  const [first = zero, second = zero] = columns
  const focalPx = focalOf(first, second, lens.radiusPx)
  const seen = columns.map(([x, y, w]): Vector => [x / focalPx, y / focalPx, w])
  const [r1 = zero, r2 = zero, t = zero] = seen
  const scale = 2 / (length(r1) + length(r2))
  const r3 = cross(r1, r2).map((value) => value * scale)
  const place = (axis: readonly number[]): number => -dot(axis, t) * scale
  return { over: { x: place(r1) * scale, y: place(r2) * scale }, heightMm: Math.abs(place(r3) * scale) }
}

/** Where a part stands whose top, `heightMm` above the board, is seen at a place of the board’s plane. */
export function seatedAt({ over, heightMm: cameraMm }: Camera, seen: Point, heightMm: number): Point {
  const share = Math.max(0, cameraMm - heightMm) / cameraMm
  return { x: over.x + (seen.x - over.x) * share, y: over.y + (seen.y - over.y) * share }
}

/** The way back: where the top of a part is seen. */
export function topSeenAt({ over, heightMm: cameraMm }: Camera, seated: Point, heightMm: number): Point {
  const share = cameraMm / Math.max(1, cameraMm - heightMm)
  return { x: over.x + (seated.x - over.x) * share, y: over.y + (seated.y - over.y) * share }
}

type Vector = readonly [number, number, number]
const zero: Vector = [0, 0, 1]

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0)
const length = (v: Vector): number => Math.hypot(...v)
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

/** From the two conditions on 1/f², by least squares. */
function focalOf(one: Vector, two: Vector, radiusPx: number): number {
  const usual = USUAL_FOCAL * radiusPx
  const size = Math.hypot(one[0], one[1]) + Math.hypot(two[0], two[1])
  const tilt = (2 * usual * Math.hypot(one[2], two[2])) / size
  if (tilt < LEAST_TILT) return usual
  const a1 = one[0] * two[0] + one[1] * two[1]
  const a2 = one[0] ** 2 + one[1] ** 2 - two[0] ** 2 - two[1] ** 2
  const b1 = one[2] * two[2]
  const b2 = one[2] ** 2 - two[2] ** 2
  const perSquare = -(a1 * b1 + a2 * b2) / (a1 * a1 + a2 * a2)
  if (!(perSquare > 0)) return usual
  return radiusPx * Math.max(FOCAL_RANGE.least, Math.min(FOCAL_RANGE.most, 1 / Math.sqrt(perSquare) / radiusPx))
}
