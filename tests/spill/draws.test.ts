/** Even draws: normal quantiles are those of the tables, and shares lie evenly over any window of a lattice. */
import { describe, expect, test } from 'vitest'
import { evenShare, normalQuantile } from '../../src/spill/index.ts'

describe('a normal quantile', () => {
  // Tables of the standard normal distribution (Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, table 26.5).
  test.each([
    [0.5, 0],
    [0.6, 0.25335],
    [0.75, 0.67449],
    [0.8, 0.84162],
    [0.9, 1.28155],
    [0.95, 1.64485],
    [0.975, 1.95996],
  ])('of %f is %f, and of the rest its mirror image', (share, quantile) => {
    expect(normalQuantile(share)).toBeCloseTo(quantile, 5)
    expect(normalQuantile(1 - share)).toBeCloseTo(-quantile, 5)
  })

  test('is held at the same distance on either side for the rarest', () => {
    expect(normalQuantile(1)).toBe(normalQuantile(0.99))
    expect(normalQuantile(0)).toBeCloseTo(-normalQuantile(1), 9)
  })
})

describe('even shares', () => {
  const dimensions = Array.from({ length: 40 }, (_, i) => i)
  const across = Array.from({ length: 20 }, (_, i) => 37 + i)

  test('fall below 0.15 as often as they should in a window of twenty by twenty, to 0.02, in every dimension', () => {
    for (const dimension of dimensions) {
      const shares = across.flatMap((column) => across.map((row) => evenShare(dimension, column, row, 0)))
      const below = shares.filter((share) => share < 0.15).length / shares.length
      expect(Math.abs(below - 0.15)).toBeLessThan(0.02)
    }
  })

  test('of the dimensions that amount, height and push are drawn from come together as often as chance would have it', () => {
    for (const [one, other] of [
      [0, 1],
      [0, 3],
      [1, 3],
    ] as const) {
      let both = 0
      for (const column of across) {
        for (const row of across) {
          if (evenShare(one, column, row, 0) < 0.3 && evenShare(other, column, row, 0) < 0.3) both++
        }
      }
      expect(Math.abs(both / across.length ** 2 - 0.3 ** 2)).toBeLessThan(0.02)
    }
  })
})
