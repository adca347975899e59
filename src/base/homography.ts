/** Homographies: the one map of a plane onto another that keeps straight lines straight, solved from point pairs. */
import { say } from './message.ts'
import { bad, type Fault, good, type Result } from './errors.ts'
import { distance, type Point, signedArea } from './geometry.ts'

/** Row by row: (x, y) goes to ((h0·x + h1·y + h2) / w, (h3·x + h4·y + h5) / w) with w = h6·x + h7·y + h8. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number]

export interface PointPair {
  readonly from: Point
  readonly to: Point
}

/** Whether the second plane is seen from the same face as the first; an image with y down turns a plane with y up over. */
export type Handedness = 'kept' | 'turned over'

/** A corner closer than this share of the longest diagonal to the line through two others counts as on that line. */
const FLATTEST = 2e-3

/**
 * The homography that takes each `from` to its `to`: the direct linear transform with h8 = 1, in coordinates moved to the
 * centroid and scaled to a mean distance of √2 (Hartley and Zisserman, Multiple View Geometry, 2nd edition, sections 4.1
 * and 4.4). Four pairs are met exactly; more are met with the least sum of squares of the linear equations.
 * Refuses fewer than four pairs, and for four of them: corners that coincide or lie on one line, corners whose order
 * makes the edges cross or turns inward, and corners that run the wrong way round for `handedness`.
 */
export function homographyFrom(pairs: readonly PointPair[], handedness: Handedness): Result<Homography> {
  if (pairs.length < 4)
    return bad({
      path: 'corners',
      found: say('{count, plural, one {# pair} other {# pairs}}', { count: pairs.length }),
      expected: say('four pairs of points or more'),
    })
  if (pairs.length === 4) {
    const faults = cornerFaults(pairs, handedness)
    if (faults.length > 0) return bad(...faults)
  }
  const from = normaliser(pairs.map((pair) => pair.from))
  const to = normaliser(pairs.map((pair) => pair.to))
  const solved = solve(...normalEquations(pairs, from, to))
  if (solved === undefined) return bad(undetermined)
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = solved
  return good(multiplied(toPlain(to), multiplied([a, b, c, d, e, f, g, h, 1], toNormal(from))))
}

/** Where a point goes; not finite for a point on the line that goes to infinity. */
export function applied(h: Homography, { x, y }: Point): Point {
  const w = h[6] * x + h[7] * y + h[8]
  return { x: (h[0] * x + h[1] * y + h[2]) / w, y: (h[3] * x + h[4] * y + h[5]) / w }
}

/** First `inner`, then `outer`. */
export function multiplied(outer: Homography, inner: Homography): Homography {
  const at = (row: number, column: number): number =>
    (outer[row * 3] ?? 0) * (inner[column] ?? 0) +
    (outer[row * 3 + 1] ?? 0) * (inner[column + 3] ?? 0) +
    (outer[row * 3 + 2] ?? 0) * (inner[column + 6] ?? 0)
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)]
}

/** The way back, by the adjoint: a homography is given up to a factor, so nothing is divided by the determinant. */
export function inverted(h: Homography): Homography {
  const [a, b, c, d, e, f, g, i, k] = h
  return [
    e * k - f * i,
    c * i - b * k,
    b * f - c * e,
    f * g - d * k,
    a * k - c * g,
    c * d - a * f,
    d * i - e * g,
    b * g - a * i,
    a * e - b * d,
  ]
}

/** The largest distance between where a pair's `from` goes and its `to`, in the units of `to`. */
export const worstMiss = (h: Homography, pairs: readonly PointPair[]): number =>
  Math.max(0, ...pairs.map(({ from, to }) => distance(applied(h, from), to)))

const undetermined: Fault = {
  path: 'corners',
  found: say('points that leave the view open'),
  expected: say('points that lie apart, no three of them on one line'),
  todo: say('Spread the points out.'),
}

function cornerFaults(pairs: readonly PointPair[], handedness: Handedness): Fault[] {
  const from = pairs.map((pair) => pair.from)
  const to = pairs.map((pair) => pair.to)
  const faults = [...quadFaults(from, say('the first plane')), ...quadFaults(to, say('the second plane'))]
  if (faults.length > 0) return faults
  const kept = Math.sign(signedArea(from)) === Math.sign(signedArea(to))
  if (kept === (handedness === 'kept')) return []
  const todo = say('Go round both in the same order, or say that it shows the other side.')
  return [
    { path: 'corners', found: say('corners that run the other way round'), expected: say('no mirror image'), todo },
  ]
}

function quadFaults(quad: readonly Point[], plane: string): Fault[] {
  let longest = 0
  for (const p of quad) for (const q of quad) longest = Math.max(longest, distance(p, q))
  const turns = quad.map((_, i) => twiceArea(quad[i], quad[(i + 1) % 4], quad[(i + 2) % 4]))
  const path = say('corners on {plane}', { plane })
  if (!(longest > 0) || turns.some((turn) => Math.abs(turn) <= FLATTEST * longest * longest)) {
    const todo = say('Move one of them off that line.')
    return [
      {
        path,
        found: say('three corners on one line, or two in one place'),
        expected: say('four corners that lie apart'),
        todo,
      },
    ]
  }
  if (turns.every((turn) => Math.sign(turn) === Math.sign(turns[0] ?? 0))) return []
  const todo = say('Take them in order around the board, each once.')
  return [
    { path, found: say('edges that cross or turn inward'), expected: say('four corners one after the other'), todo },
  ]
}

const nowhere: Point = { x: 0, y: 0 }

const twiceArea = (p: Point = nowhere, q: Point = nowhere, r: Point = nowhere): number =>
  (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x)

interface Normaliser {
  readonly middle: Point
  readonly scale: number
}

function normaliser(points: readonly Point[]): Normaliser {
  const middle = {
    x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
    y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
  }
  const meanMm = points.reduce((sum, point) => sum + distance(point, middle), 0) / points.length
  return { middle, scale: meanMm > 0 ? Math.SQRT2 / meanMm : 1 }
}

const toNormal = ({ middle, scale }: Normaliser): Homography => [
  scale,
  0,
  -scale * middle.x,
  0,
  scale,
  -scale * middle.y,
  0,
  0,
  1,
]

const toPlain = ({ middle, scale }: Normaliser): Homography => [1 / scale, 0, middle.x, 0, 1 / scale, middle.y, 0, 0, 1]

/** Of four pairs the eight equations themselves, of more the normal equations: 8 rows of 8, and the right-hand side. */
function normalEquations(pairs: readonly PointPair[], from: Normaliser, to: Normaliser): [number[][], number[]] {
  const rows: number[][] = []
  const right: number[] = []
  for (const pair of pairs) {
    const p = applied(toNormal(from), pair.from)
    const q = applied(toNormal(to), pair.to)
    rows.push([p.x, p.y, 1, 0, 0, 0, -p.x * q.x, -p.y * q.x], [0, 0, 0, p.x, p.y, 1, -p.x * q.y, -p.y * q.y])
    right.push(q.x, q.y)
  }
  if (pairs.length === 4) return [rows, right]
  const dot = (i: number, other: (row: number) => number): number =>
    rows.reduce((sum, row, k) => sum + (row[i] ?? 0) * other(k), 0)
  const eight = Array.from({ length: 8 }, (_, i) => i)
  return [
    eight.map((i) => eight.map((j) => dot(i, (k) => rows[k]?.[j] ?? 0))),
    eight.map((i) => dot(i, (k) => right[k] ?? 0)),
  ]
}

const SMALLEST_PIVOT = 1e-12

/** Gaussian elimination with row pivoting; undefined where the equations leave something open. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | undefined {
  const n = right.length
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0])
  for (let column = 0; column < n; column++) {
    let best = column
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[best]?.[column] ?? 0)) best = row
    }
    const pivotRow = rows[best] ?? []
    const pivot = pivotRow[column] ?? 0
    // In normalised coordinates entries are about 1, so that a pivot this small means equations that say the same
    // twice.
    if (!(Math.abs(pivot) > SMALLEST_PIVOT)) return undefined
    rows[best] = rows[column] ?? []
    rows[column] = pivotRow
    for (let row = column + 1; row < n; row++) subtract(rows[row] ?? [], pivotRow, column, pivot)
  }
  const solution = Array.from({ length: n }, () => 0)
  for (let row = n - 1; row >= 0; row--) {
    let rest = rows[row]?.[n] ?? 0
    for (let column = row + 1; column < n; column++) rest -= (rows[row]?.[column] ?? 0) * (solution[column] ?? 0)
    solution[row] = rest / (rows[row]?.[row] ?? 1)
  }
  return solution
}

function subtract(row: number[], pivotRow: readonly number[], column: number, pivot: number): void {
  const factor = (row[column] ?? 0) / pivot
  if (factor === 0) return
  for (let k = column; k < row.length; k++) row[k] = (row[k] ?? 0) - factor * (pivotRow[k] ?? 0)
}
