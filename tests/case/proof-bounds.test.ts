/** What passes without an error prove: bounds against published values, hand arithmetic and the binomial distribution itself. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { exactBound, passesFor, ruleOfThree } from '../../src/case/index.ts'

describe('no failure in n passes', () => {
  test.each([
    // Hand arithmetic: 1 − 0.05^(1/n).
    [10, 0.2589],
    [20, 0.1391],
    [50, 0.0582],
    [100, 0.0295],
    [1, 0.95],
  ])('%i passes leave a chance of at most %f', (passes, expected) => {
    expect(exactBound(passes)).toBeCloseTo(expected, 4)
  })

  test.each([
    // Hanley and Lippman-Hand, JAMA 1983;249(13):1743-1745: 3/n for 0 of n; their opening example of 0 of 14 from memory.
    [14, 0.214],
    [30, 0.1],
    [100, 0.03],
    [300, 0.01],
  ])('the rule of three gives 3/%i', (passes, expected) => {
    expect(ruleOfThree(passes)).toBeCloseTo(expected, 3)
  })

  test('the rule of three lies above the exact bound at every n, since 3 > ln 20, and within 5 % of it from 50 passes on', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), (n) => {
        const exact = exactBound(n) ?? Number.NaN
        const rule = ruleOfThree(n) ?? Number.NaN
        expect(rule).toBeGreaterThan(exact)
        if (n >= 50) expect(rule / exact).toBeLessThan(1.05)
      }),
      { seed: 71 },
    )
  })

  test('59 passes bring it to 5 % and 299 to 1 % (success-run sample sizes, ln 0.05 / ln R; from memory)', () => {
    expect(passesFor(0.05)).toBe(59)
    expect(passesFor(0.01)).toBe(299)
    fc.assert(
      fc.property(fc.double({ min: 0.0005, max: 0.9, noNaN: true }), (chance) => {
        const n = passesFor(chance)
        expect(exactBound(n)).toBeLessThanOrEqual(chance + 1e-12)
        if (n > 1) expect(exactBound(n - 1)).toBeGreaterThan(chance - 1e-12)
      }),
      { seed: 72 },
    )
  })

  test('no pass gives no bound', () => {
    expect(exactBound(0)).toBeUndefined()
    expect(ruleOfThree(0)).toBeUndefined()
  })
})

describe('k failures in n passes', () => {
  // Exact limits for small samples in the NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4; its root finder stops
  // at about 1e-6 (another run of the same example gives 0.4010294 and 0.07134838), so five digits are held.
  test('4 of 20 at 90 % two-sided: 0.401029', () => {
    expect(exactBound(20, 4, 0.05)).toBeCloseTo(0.401029, 5)
  })

  test('4 of 20, lower limit 0.071354, as the upper one of the 16 others', () => {
    expect(1 - (exactBound(20, 16, 0.05) ?? 0)).toBeCloseTo(0.071354, 5)
  })

  test('3 of 15, one-sided 95 % lower limit 0.05684686759024681 (reference page of scipy.stats.binomtest), mirrored', () => {
    expect(1 - (exactBound(15, 12) ?? 0)).toBeCloseTo(0.05684686759024681, 12)
  })

  test('3 of 4, one-sided 95 % lower limit 0.2486046 (output of R’s binom.test in a published course page), mirrored', () => {
    expect(1 - (exactBound(4, 1) ?? 0)).toBeCloseTo(0.2486046, 7)
  })

  test('682 of 925, two-sided 95 %: 0.7076683 to 0.7654066 (example of R’s binom.test, after Conover 1971, p. 97)', () => {
    expect(exactBound(925, 682, 0.025)).toBeCloseTo(0.7654066, 7)
    expect(1 - (exactBound(925, 243, 0.025) ?? 0)).toBeCloseTo(0.7076683, 7)
  })

  test('at the bound, so few failures are seen in 5 % of series: summed term by term', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.nat({ max: 59 }), (n, wish) => {
        const k = Math.min(wish, n - 1)
        const p = exactBound(n, k) ?? Number.NaN
        expect(slowAtMost(n, k, p)).toBeCloseTo(0.05, 9)
      }),
      { seed: 73 },
    )
  })

  test('more failures raise it, more passes with as many failures lower it, and all failing leaves 1', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 20_000 }), fc.nat(), (n, wish) => {
        const k = wish % (n - 1)
        const here = exactBound(n, k) ?? Number.NaN
        expect(here).toBeGreaterThan(k / n)
        expect(exactBound(n, k + 1)).toBeGreaterThan(here)
        expect(exactBound(n + 1, k)).toBeLessThan(here)
        expect(exactBound(n, n)).toBe(1)
      }),
      { seed: 74, numRuns: 60 },
    )
  })

  test('one failure leads on from none without a jump the wrong way, also at a million passes', () => {
    const none = exactBound(1_000_000, 0) ?? Number.NaN
    const one = exactBound(1_000_000, 1) ?? Number.NaN
    // For rare failures n·p is the Poisson bound: 2.9957 for none and 4.7439 for one (tables of the Poisson distribution, from memory).
    expect(none * 1e6).toBeCloseTo(2.9957, 3)
    expect(one * 1e6).toBeCloseTo(4.7439, 3)
  })
})

/** P(X ≤ k), each binomial coefficient worked out by itself. */
function slowAtMost(n: number, k: number, p: number): number {
  let sum = 0
  for (let i = 0; i <= k; i++) sum += choose(n, i) * p ** i * (1 - p) ** (n - i)
  return sum
}

function choose(n: number, k: number): number {
  let value = 1n
  for (let i = 1; i <= k; i++) value = (value * BigInt(n - k + i)) / BigInt(i)
  return Number(value)
}
