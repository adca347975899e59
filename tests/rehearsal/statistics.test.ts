import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../src/base/index.ts'
import { bootstrap, calibrationOf, meanOf, ratioOf } from '../../src/rehearsal/index.ts'

describe('calibration', () => {
  /** Brier, Monthly Weather Review 78(1), 1950: (f - E)² summed over classes; of two classes one is half of it. */
  it('has the Brier score of Brier’s one-class form on a forecast worked by hand', () => {
    const { brier } = calibrationOf([
      [0.7, 1],
      [0.9, 1],
      [0.8, 1],
      [0.4, 0],
    ])
    expect(brier).toBeCloseTo((0.09 + 0.01 + 0.04 + 0.16) / 4, 12)
  })

  /** Naeini, Cooper and Hauskrecht, AAAI 2015: Σ over bins of share of the bin · |said - was|. */
  it('weighs the gap of each tenth by how many lie in it', () => {
    const { ece, bins } = calibrationOf([
      [0.12, 0],
      [0.18, 1],
      [0.95, 1],
      [0.91, 1],
      [1, 0],
    ])
    const low = (2 / 5) * Math.abs(0.15 - 0.5)
    const high = (3 / 5) * Math.abs((0.95 + 0.91 + 1) / 3 - 2 / 3)
    expect(ece).toBeCloseTo(low + high, 12)
    expect(bins.map(({ count }) => count)).toEqual([0, 2, 0, 0, 0, 0, 0, 0, 0, 3])
  })

  it('finds next to no error where outcomes come as often as was said', () => {
    const random = seededRandom(8)
    const said = Array.from({ length: 8000 }, () => {
      const probability = random.next()
      return [probability, random.next() < probability ? 1 : 0] as const
    })
    const exact = calibrationOf(said)
    expect(exact.ece).toBeLessThan(0.02)
    expect(exact.ece).toBeLessThan(2.5 * exact.eceByChance)
    const boast = said.map(([probability, was]) => [Math.min(1, probability * 1.3), was] as const)
    expect(calibrationOf(boast).ece).toBeGreaterThan(0.08)
  })
})

describe('bootstrap intervals', () => {
  /** Of a mean they come near the normal one: mean ± 1.96 s/√n (any textbook; Efron and Tibshirani 1993, chapter 13). */
  it('agree with the normal interval of a mean', () => {
    const random = seededRandom(5)
    const values = Array.from({ length: 400 }, () => 100 + 30 * random.normal())
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))
    const { value, low, high } = meanOf(values)
    expect(value).toBeCloseTo(mean, 9)
    expect(low).toBeCloseTo(mean - (1.96 * sd) / 20, 0)
    expect(high).toBeCloseTo(mean + (1.96 * sd) / 20, 0)
  })

  it('are a point where all cards are alike', () => {
    expect(ratioOf([6, 6, 6], [3, 3, 3])).toEqual({ value: 2, low: 2, high: 2 })
    expect(bootstrap(4, (indices) => indices.length)).toEqual({ value: 4, low: 4, high: 4 })
  })
})
