/** Homographies: against a published test vector, against Heckbert's closed form, and the laws of projective maps. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  applied,
  distance,
  type Homography,
  homographyFrom,
  inverted,
  multiplied,
  type Point,
  type PointPair,
  type Result,
  sayFault,
  seededRandom,
  worstMiss,
} from '../../src/base/index.ts'

const unwrap = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.faults.map(sayFault).join('\n'))
  return result.value
}
const at = (x: number, y: number): Point => ({ x, y })
const pairsOf = (from: readonly Point[], to: readonly Point[]): PointPair[] =>
  from.map((point, i) => ({ from: point, to: to[i] ?? at(0, 0) }))
const between = (from: readonly Point[], to: readonly Point[]): Homography =>
  unwrap(homographyFrom(pairsOf(from, to), 'kept'))

const square = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)]
const quad = [at(2, 3), at(10, 4), at(16, 15), at(4, 9)]

describe('known answers', () => {
  // ZXing (open source, Apache 2.0), PerspectiveTransformTestCase, by S. Owen, after G. Wolberg, Digital Image Warping
  // (1990), section 3.4.2: held there to 1e-4 in single precision.
  test('square to quadrilateral, as in the unit test of an open library', () => {
    const h = between(square, quad)
    for (const [source, wanted] of [
      [at(0, 0), at(2, 3)],
      [at(1, 0), at(10, 4)],
      [at(0, 1), at(4, 9)],
      [at(1, 1), at(16, 15)],
      [at(0.5, 0.5), at(6.535211, 6.8873234)],
      [at(1.5, 1.5), at(48, 42.42857)],
    ] as const) {
      expect(distance(applied(h, source), wanted)).toBeLessThan(1e-4)
    }
  })

  test('quadrilateral to quadrilateral, from the same place', () => {
    const h = between(quad, [at(103, 110), at(300, 120), at(290, 270), at(150, 280)])
    expect(distance(applied(h, at(0.5, 0.5)), at(7.1516876, -64.60185))).toBeLessThan(1e-4)
    expect(distance(applied(h, at(50, 50)), at(328.09116, 334.16385))).toBeLessThan(1e-4)
  })

  test('any quadrilateral agrees with the closed form of Heckbert (1989), section 2.2.3', () => {
    fc.assert(
      fc.property(
        convexQuad,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (corners, u, v) => {
          expect(distance(applied(between(square, corners), at(u, v)), heckbert(corners, u, v))).toBeLessThan(1e-7)
        },
      ),
      { seed: 4, numRuns: 200 },
    )
  })
})

/** P. Heckbert, Fundamentals of Texture Mapping and Image Warping (1989): unit square to quadrilateral. */
function heckbert(corners: readonly Point[], u: number, v: number): Point {
  const [p0 = at(0, 0), p1 = at(0, 0), p2 = at(0, 0), p3 = at(0, 0)] = corners
  const [dx1, dx2, sx] = [p1.x - p2.x, p3.x - p2.x, p0.x - p1.x + p2.x - p3.x]
  const [dy1, dy2, sy] = [p1.y - p2.y, p3.y - p2.y, p0.y - p1.y + p2.y - p3.y]
  const det = dx1 * dy2 - dx2 * dy1
  const g = (sx * dy2 - dx2 * sy) / det
  const h = (dx1 * sy - sx * dy1) / det
  const w = g * u + h * v + 1
  return at(
    ((p1.x - p0.x + g * p1.x) * u + (p3.x - p0.x + h * p3.x) * v + p0.x) / w,
    ((p1.y - p0.y + g * p1.y) * u + (p3.y - p0.y + h * p3.y) * v + p0.y) / w,
  )
}

/** A square of 100 with each corner taken up to 30 off: always convex, never flat. */
const convexQuad = fc
  .array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: 8, maxLength: 8 })
  .map((off) => square.map(({ x, y }, i) => at(100 * x + (off[2 * i] ?? 0), 100 * y + (off[2 * i + 1] ?? 0))))
  .filter((corners) => homographyFrom(pairsOf(square, corners), 'kept').ok)
const inside = fc.record({
  x: fc.double({ min: 0, max: 1, noNaN: true }),
  y: fc.double({ min: 0, max: 1, noNaN: true }),
})

describe('laws', () => {
  test('every corner goes to its partner, and back', () => {
    fc.assert(
      fc.property(convexQuad, convexQuad, (a, b) => {
        const h = between(a, b)
        expect(worstMiss(h, pairsOf(a, b))).toBeLessThan(1e-9)
        expect(worstMiss(inverted(h), pairsOf(b, a))).toBeLessThan(1e-9)
      }),
      { seed: 5 },
    )
  })

  test('one after the other is the product, and the way there and back is the identity', () => {
    fc.assert(
      fc.property(convexQuad, convexQuad, inside, (a, b, point) => {
        const first = between(square, a)
        const second = between(a, b)
        const both = applied(multiplied(second, first), point)
        expect(distance(both, applied(second, applied(first, point)))).toBeLessThan(1e-8)
        expect(distance(both, applied(between(square, b), point))).toBeLessThan(1e-7)
        expect(distance(applied(multiplied(inverted(first), first), point), point)).toBeLessThan(1e-10)
      }),
      { seed: 6 },
    )
  })

  test('points on a line stay on a line, with the same cross-ratio', () => {
    fc.assert(
      fc.property(convexQuad, inside, inside, (corners, p, q) => {
        fc.pre(distance(p, q) > 0.2)
        const h = between(square, corners)
        const on = [0, 0.3, 0.55, 1].map((t) => applied(h, at(p.x + t * (q.x - p.x), p.y + t * (q.y - p.y))))
        const [a = p, b = p, c = p, d = p] = on
        expect(Math.abs((b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x)) / distance(a, d)).toBeLessThan(1e-8)
        const ratio = (distance(a, c) * distance(b, d)) / (distance(b, c) * distance(a, d))
        expect(ratio).toBeCloseTo((0.55 * 0.7) / (0.25 * 1), 6)
      }),
      { seed: 7 },
    )
  })

  test('more pairs than four are met as nearly as their scatter lets them', () => {
    const truth = between(square, quad)
    const random = seededRandom(8)
    const many = (scatter: number): PointPair[] =>
      Array.from({ length: 40 }, () => {
        const from = at(random.next(), random.next())
        const to = applied(truth, from)
        return { from, to: at(to.x + scatter * (random.next() - 0.5), to.y + scatter * (random.next() - 0.5)) }
      })
    const exact = unwrap(homographyFrom(many(0), 'kept'))
    expect(worstMiss(exact, pairsOf(square, quad))).toBeLessThan(1e-8)
    const near = unwrap(homographyFrom(many(0.1), 'kept'))
    expect(worstMiss(near, pairsOf(square, quad))).toBeLessThan(0.3)
  })
})

describe('refused, with a sentence', () => {
  const said = (from: readonly Point[], to: readonly Point[], handedness: 'kept' | 'turned over' = 'kept'): string => {
    const result = homographyFrom(pairsOf(from, to), handedness)
    return result.ok ? 'taken' : result.faults.map(sayFault).join(' ')
  }

  test('three corners on one line, or two in one place', () => {
    expect(said(square, [at(0, 0), at(5, 5), at(10, 10), at(0, 9)])).toMatch(/three corners on one line/)
    expect(said(square, [at(0, 0), at(0, 0), at(10, 10), at(0, 9)])).toMatch(/two in one place/)
    expect(said([at(1, 1), at(1, 1), at(1, 1), at(1, 1)], square)).toMatch(/two in one place/)
    expect(said(square, [at(0, 0), at(5, 5.001), at(10, 10), at(0, 9)])).toMatch(/three corners on one line/)
  })

  test('edges that cross, and a corner that turns inward', () => {
    expect(said(square, [at(0, 0), at(1, 1), at(1, 0), at(0, 1)])).toMatch(/edges that cross/)
    expect(said(square, [at(0, 0), at(10, 0), at(3, 3), at(0, 10)])).toMatch(/turn inward/)
  })

  test('a mirror image where none is expected, and none where one is', () => {
    const mirrored = square.toReversed()
    expect(said(square, mirrored)).toMatch(/the other way round/)
    expect(said(square, square, 'turned over')).toMatch(/the other way round/)
    expect(said(square, mirrored, 'turned over')).toBe('taken')
  })

  test('three pairs, and many pairs on one line', () => {
    expect(said(square.slice(0, 3), square)).toMatch(/four pairs/)
    const line = Array.from({ length: 6 }, (_, i) => at(i, 2 * i))
    expect(said(line, line)).toMatch(/leave the view open/)
  })
})
