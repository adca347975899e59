/** The rings of reach: which distances they stand at, where they run and where their words may stand, on fields made by hand. */
import { describe, expect, test } from 'vitest'
import { labelPoints, type ReachField, ringLevels, ringsOf } from '../../src/spill/index.ts'

describe('the distances', () => {
  // round steps (1, 2 or 5 times a power of ten) of at most the radius / 1.9, up to four, none beyond 1.6 radii or within 18 % of it
  test.each([
    [10, [5, 10, 15]],
    [9, [2, 4, 6, 9]],
    [4, [2, 4, 6]],
    // 12.5 · 1.6 = 20, 12.4 · 1.6 = 19.84
    [12.5, [5, 10, 12.5, 15, 20]],
    [12.4, [5, 10, 12.4, 15]],
    // 10 is 0.82 of 12.195
    [12.19, [5, 12.19, 15]],
    [12.2, [5, 10, 12.2, 15]],
    [0.4, [0.2, 0.4, 0.6]],
  ])('of a reach of %d mm are %j', (radiusMm, expected) => {
    const levels = ringLevels(radiusMm)
    expect(levels.map(({ effortMm }) => Number(effortMm.toFixed(6)))).toEqual(expected)
    expect(levels.filter(({ solid }) => solid).map(({ effortMm }) => effortMm)).toEqual([radiusMm])
  })
  test.each([0, -1, Number.NaN, Infinity])('of %d are none', (radiusMm) => {
    expect(ringLevels(radiusMm)).toEqual([])
  })
})

/** Effort is the plain distance from a point; `reach` cuts it off. */
function coneAt(x: number, y: number, reach = Infinity): ReachField {
  const grid = { originXMm: 0, originYMm: 0, cellMm: 1, columns: 60, rows: 40 }
  const effortMm = Float32Array.from({ length: grid.columns * grid.rows }, (_, i) => {
    const far = Math.hypot((i % grid.columns) + 0.5 - x, Math.floor(i / grid.columns) + 0.5 - y)
    return far <= reach ? far : Infinity
  })
  return { side: 'top', grid, effortMm }
}
const farthest = (loop: Float32Array, x: number, y: number): readonly [least: number, most: number] => {
  const far = Array.from({ length: loop.length / 2 }, (_, i) =>
    Math.hypot((loop[2 * i] ?? 0) - x, (loop[2 * i + 1] ?? 0) - y),
  )
  return [Math.min(...far), Math.max(...far)]
}

describe('on even ground', () => {
  test('they are circles about the point, within a quarter of a cell', () => {
    const rings = ringsOf(coneAt(30, 20), 10)
    expect(rings.map(({ label }) => label)).toEqual(['5 mm', '10 mm', '15 mm'])
    for (const { effortMm, loops } of rings) {
      expect(loops).toHaveLength(1)
      const [least, most] = farthest(loops[0] ?? new Float32Array(), 30, 20)
      expect(least).toBeGreaterThan(effortMm - 0.25)
      expect(most).toBeLessThan(effortMm + 0.25)
    }
  })
  test('near the edge of the board they close at it', () => {
    for (const { effortMm, loops } of ringsOf(coneAt(2, 2), 10)) {
      expect(loops).toHaveLength(1)
      const points = [...(loops[0] ?? [])]
      expect(Math.min(...points)).toBeGreaterThanOrEqual(-0.5)
      expect(farthest(loops[0] ?? new Float32Array(), 2, 2)[1]).toBeLessThan(effortMm + 0.25)
    }
  })
  test('beyond where anything gets they all run along that edge', () => {
    const [, solid] = ringsOf(coneAt(30, 20, 6), 10)
    const [least, most] = farthest(solid?.loops[0] ?? new Float32Array(), 30, 20)
    expect(least).toBeGreaterThan(4.5)
    expect(most).toBeLessThan(7.5)
  })
  test('where nothing gets there are none', () => {
    expect(ringsOf(coneAt(30, 20, -1), 10)).toEqual([])
    expect(ringsOf(coneAt(30, 20), 0)).toEqual([])
  })
})

describe('their words', () => {
  const ring = { effortMm: 5, solid: true, label: '5 mm' }
  const small = Float32Array.from([0, 0, 1, 0, 0, 1])
  const large = Float32Array.from([10, 12, 14, 10, 18, 13, 13, 19])
  test.each([
    ['first', [large, small]],
    ['last', [small, large]],
  ])('stand at the lowest, highest, rightmost and leftmost point of the longest loop, be it %s', (_, loops) => {
    expect(labelPoints({ ...ring, loops })).toEqual([
      { x: 14, y: 10 },
      { x: 13, y: 19 },
      { x: 18, y: 13 },
      { x: 10, y: 12 },
    ])
  })
  test('stand nowhere without a loop', () => {
    expect(labelPoints({ ...ring, loops: [] })).toEqual([])
    expect(labelPoints({ ...ring, loops: [new Float32Array()] })).toEqual([])
  })
})
