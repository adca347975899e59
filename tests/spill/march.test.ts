/** Fast marching against closed forms and against a slow reference that shares nothing but the scheme. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cellAt, cellCentre, type Point } from '../../src/base/index.ts'
import { march } from '../../src/spill/index.ts'
import { plainGround, pointSeed, sweepToRest, wall } from '../support/slow-reach.ts'

const origin = { x: 0, y: 0 }

/** Greatest difference from the true distance between 5 and 30 mm from a point, on open ground. */
function circleError(cellMm: number, exactMm: number): number {
  const ground = plainGround(32, cellMm)
  const effort = march(ground, pointSeed(ground, origin, exactMm))
  let worst = 0
  for (let cell = 0; cell < effort.length; cell++) {
    const { x, y } = cellCentre(ground.grid, cell)
    const distanceMm = Math.hypot(x, y)
    if (distanceMm < 5 || distanceMm > 30) continue
    worst = Math.max(worst, Math.abs((effort[cell] ?? Infinity) - distanceMm))
  }
  return worst
}

describe('on open ground', () => {
  test('the rings are circles, the better the finer the grid: first order once the seed is exact', () => {
    const errors = [2, 1, 0.5].map((cellMm) => circleError(cellMm, 4))
    const orders = [Math.log2((errors[0] ?? 0) / (errors[1] ?? 1)), Math.log2((errors[1] ?? 0) / (errors[2] ?? 1))]
    expect(errors[1]).toBeLessThan(1)
    for (const order of orders) expect(order).toBeGreaterThan(0.75)
  })
})

describe('round a wall', () => {
  // Closed form: the shortest way round a wall's end is two straight segments. A blocked cell is blocked whole, so that
  // the marched way is longer by a cell or two; that excess is of first order, and extrapolated away it leaves the truth.
  test.each([4, 8, 15])('that ends %i mm above the line of sight the way tends to two tangents', (riseMm) => {
    const top = { x: 0, y: riseMm }
    const from = { x: -10, y: 0 }
    const to = { x: 12, y: -3 }
    const trueMm = Math.hypot(top.x - from.x, top.y - from.y) + Math.hypot(to.x - top.x, to.y - top.y)
    const [coarse = 0, fine = 0] = [0.5, 0.25].map((cellMm) => {
      const ground = plainGround(30, cellMm)
      wall(ground, [{ x: 0, y: -45 }, top])
      return march(ground, pointSeed(ground, from, 4))[cellAt(ground.grid, to)] ?? Infinity
    })
    expect(fine).toBeGreaterThan(trueMm)
    expect((coarse - trueMm) / (fine - trueMm)).toBeGreaterThan(1.7)
    expect(Math.abs(2 * fine - coarse - trueMm) / trueMm).toBeLessThan(0.005)
  })

  test('of any closed shape nothing gets in, whatever the angle', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 7 }),
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: 4, max: 12, noNaN: true }),
        (corners, turn, radiusMm) => {
          const ground = plainGround(20, 1)
          const ring: Point[] = Array.from({ length: corners + 1 }, (_, i) => {
            const angle = turn + (2 * Math.PI * (i % corners)) / corners
            return { x: 1.3 + radiusMm * Math.cos(angle), y: 0.7 + radiusMm * Math.sin(angle) }
          })
          wall(ground, ring)
          const effort = march(ground, pointSeed(ground, { x: -18, y: -18 }))
          const middle = cellAt(ground.grid, { x: 1.3, y: 0.7 })
          expect(ground.slowness[middle]).toBe(1)
          expect(effort[middle]).toBe(Infinity)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('across two grounds', () => {
  test.each([0.3, 0.5, 2])('of slowness 1 and %f the way breaks as Fermat and Snell say', (below) => {
    const ground = plainGround(30, 0.5, ({ y }) => (y > 0 ? 1 : below))
    const from = { x: -8, y: 10 }
    const to = { x: 9, y: -12 }
    const effort = march(ground, pointSeed(ground, from, 4))
    let least = Infinity
    for (let x = -30; x <= 30; x += 0.001) {
      const way = Math.hypot(x - from.x, from.y) + below * Math.hypot(to.x - x, to.y)
      if (way < least) least = way
    }
    expect(Math.abs((effort[cellAt(ground.grid, to)] ?? 0) - least) / least).toBeLessThan(0.03)
  })
})

const seedNumber = fc.integer({ min: 0, max: 2 ** 31 - 1 })

/** A rough ground of blocks with values between 0.2 and 3 and a few blocked cells, decided by a seed. */
function roughGround(seed: number): ReturnType<typeof plainGround> {
  let state = seed % 2147483647 || 1
  const next = (): number => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  return plainGround(12, 1, () => (next() < 0.15 ? Infinity : 0.2 + 2.8 * next()))
}

describe('on any ground', () => {
  test('the efforts are those of the slow reference', () => {
    fc.assert(
      fc.property(seedNumber, (seed) => {
        const ground = roughGround(seed)
        const seeds = pointSeed(ground, { x: 3, y: -2 })
        const effort = march(ground, seeds)
        const slow = sweepToRest(ground, seeds)
        for (const [cell, expected] of slow.entries()) {
          expect(effort[cell] === Infinity).toBe(expected === Infinity)
          const off = expected === Infinity ? 0 : Math.abs((effort[cell] ?? 0) - expected)
          expect(off).toBeLessThan(1e-4)
        }
      }),
      { numRuns: 40 },
    )
  })

  test('the way back costs what the way there does, to within the ends’ own cells and a share of the way', () => {
    fc.assert(
      fc.property(seedNumber, fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), (seed, x, y) => {
        const ground = plainGround(12, 1, (at) => (Math.sin(seed + at.x / 3) + Math.cos(at.y / 4) > 0 ? 1 : 0.4))
        const here = { x: -6, y: 5 }
        const there = march(ground, pointSeed(ground, here))[cellAt(ground.grid, { x, y })] ?? 0
        const back = march(ground, pointSeed(ground, { x, y }))[cellAt(ground.grid, here)] ?? 0
        expect(Math.abs(there - back)).toBeLessThan(1 + 0.06 * there)
      }),
      { numRuns: 40 },
    )
  })

  test('slowing a cell down or blocking it never brings anything nearer', () => {
    fc.assert(
      fc.property(seedNumber, fc.nat(500), (seed, at) => {
        const ground = roughGround(seed)
        const seeds = pointSeed(ground, { x: 3, y: -2 })
        const before = march(ground, seeds)
        const cell = at % ground.slowness.length
        if (seeds.cells.includes(cell)) return
        ground.slowness[cell] = Infinity
        const after = march(ground, seeds)
        for (const [i, effort] of after.entries()) expect(effort).toBeGreaterThanOrEqual((before[i] ?? 0) - 1e-4)
      }),
      { numRuns: 40 },
    )
  })

  test('a limit cuts what lies beyond it and changes nothing within', () => {
    const ground = roughGround(77)
    const seeds = pointSeed(ground, { x: 3, y: -2 })
    const all = march(ground, seeds)
    const near = march(ground, seeds, 6)
    for (const [cell, effort] of all.entries()) expect(near[cell]).toBe(effort <= 6 ? effort : Infinity)
  })
})
