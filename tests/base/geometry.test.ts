import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  boxOf,
  distanceToSegment,
  firstSelfCrossing,
  type Placement,
  placePoint,
  polygonContains,
  rectangleAround,
  signedArea,
  unplacePoint,
} from '../../src/base/index.ts'

const coordinate = fc.double({ min: -500, max: 500, noNaN: true })
const pointArbitrary = fc.record({ x: coordinate, y: coordinate })
const placementArbitrary: fc.Arbitrary<Placement> = fc.record({
  at: pointArbitrary,
  rotationDeg: fc.double({ min: -360, max: 360, noNaN: true }),
  mirrored: fc.boolean(),
})

test('placing and unplacing a point gives it back', () => {
  fc.assert(
    fc.property(pointArbitrary, placementArbitrary, (point, placement) => {
      const back = unplacePoint(placePoint(point, placement), placement)
      expect(back.x).toBeCloseTo(point.x, 8)
      expect(back.y).toBeCloseTo(point.y, 8)
    }),
    { seed: 1 },
  )
})

test('a bottom part is mirrored before it is turned', () => {
  const placement = { at: { x: 10, y: 20 }, rotationDeg: 90, mirrored: true }
  expect(placePoint({ x: 2, y: 1 }, placement)).toEqual({ x: 9, y: 18 })
})

test('quarter turns keep rectangles exact', () => {
  const corners = rectangleAround(12, 14).map((p) =>
    placePoint(p, { at: { x: 0.1, y: 0.2 }, rotationDeg: -270, mirrored: false }),
  )
  expect(boxOf(corners)).toEqual({ minX: 0.1 - 7, maxX: 0.1 + 7, minY: 0.2 - 6, maxY: 0.2 + 6 })
})

test('area keeps its size under any placement and its sign unless mirrored', () => {
  fc.assert(
    fc.property(placementArbitrary, (placement) => {
      const placed = rectangleAround(12, 14).map((p) => placePoint(p, placement))
      expect(signedArea(placed)).toBeCloseTo(placement.mirrored ? -168 : 168, 6)
    }),
    { seed: 2 },
  )
})

test('a bow tie crosses itself and a square does not', () => {
  const square = rectangleAround(2, 2)
  expect(firstSelfCrossing(square)).toBeUndefined()
  const [a, b, c, d] = square
  if (!a || !b || !c || !d) throw new Error('a rectangle has four corners')
  expect(firstSelfCrossing([a, c, b, d])).toEqual([0, 2])
})

test('a corner that touches another edge counts as crossing', () => {
  const touching = [
    { x: 0, y: 0 },
    { x: 4, y: 0 },
    { x: 4, y: 2 },
    { x: 2, y: 0 },
    { x: 0, y: 2 },
  ]
  expect(firstSelfCrossing(touching)?.[0]).toBe(0)
})

test('the sweep over edges finds a crossing wherever the plain double loop does', () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ x: fc.integer({ min: 0, max: 12 }), y: fc.integer({ min: 0, max: 12 }) }), {
        minLength: 4,
        maxLength: 9,
      }),
      (polygon) => {
        expect(firstSelfCrossing(polygon) === undefined).toBe(!crossesPlainly(polygon))
      },
    ),
    { seed: 3, numRuns: 500 },
  )
})

/** Straight reading of the definition in exact whole numbers: some two edges that are not neighbours share a point. */
function crossesPlainly(polygon: readonly { x: number; y: number }[]): boolean {
  const n = polygon.length
  const at = (i: number) => polygon[i % n] ?? { x: 0, y: 0 }
  const cross = (a: { x: number; y: number }, b: { x: number; y: number }, p: { x: number; y: number }) =>
    (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)]
      const boxesMeet =
        Math.max(a.x, b.x) >= Math.min(c.x, d.x) &&
        Math.max(c.x, d.x) >= Math.min(a.x, b.x) &&
        Math.max(a.y, b.y) >= Math.min(c.y, d.y) &&
        Math.max(c.y, d.y) >= Math.min(a.y, b.y)
      if (boxesMeet && cross(a, b, c) * cross(a, b, d) <= 0 && cross(c, d, a) * cross(c, d, b) <= 0) return true
    }
  }
  return false
}

test('a point inside a notch is outside of the polygon', () => {
  const notched = [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
    { x: 10, y: 10 },
    { x: 6, y: 10 },
    { x: 6, y: 4 },
    { x: 4, y: 4 },
    { x: 4, y: 10 },
    { x: 0, y: 10 },
  ]
  expect(polygonContains(notched, { x: 5, y: 8 })).toBe(false)
  expect(polygonContains(notched, { x: 5, y: 2 })).toBe(true)
})

test('distance to a segment is to its end beyond the end', () => {
  expect(distanceToSegment({ x: 7, y: 4 }, { x: 0, y: 0 }, { x: 4, y: 0 })).toBe(5)
  expect(distanceToSegment({ x: 2, y: 3 }, { x: 0, y: 0 }, { x: 4, y: 0 })).toBe(3)
})
