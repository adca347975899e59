/** Updating and intervals against published worked examples. */
import { expect, test } from 'vitest'
import { betaMean, betaSd, learntBeta, wilsonInterval } from '../../src/rehearsal/index.ts'

// A. Gelman, J. B. Carlin, H. S. Stern, D. B. Dunson, A. Vehtari, D. B. Rubin, Bayesian Data Analysis, third edition,
// 2013, section 2.4: 437 girls in 980 births with placenta previa. Posterior and interval under a uniform prior stand so
// on public pages that teach from the book too; mean and standard deviation of the text from memory.
test('a uniform prior and 437 of 980 give Beta(438, 544), mean 0.446, standard deviation 0.016', () => {
  const beta = learntBeta(0.5, 2, { hits: 437, tries: 980 })
  expect(beta).toEqual({ a: 438, b: 544 })
  expect(betaMean(beta).toFixed(3)).toBe('0.446')
  expect(betaSd(beta).toFixed(3)).toBe('0.016')
  // 95 % by the normal approximation: the book's 0.415 to 0.477
  expect((betaMean(beta) - 1.96 * betaSd(beta)).toFixed(3)).toBe('0.415')
  expect((betaMean(beta) + 1.96 * betaSd(beta)).toFixed(3)).toBe('0.477')
})

// The same section's table of conjugate priors with mean 0.485, worth 2, 5, 10, 20, 100 and 200 births: posterior medians,
// which means equal at three digits. From memory.
test.each([
  [2, '0.446'],
  [5, '0.446'],
  [10, '0.446'],
  [20, '0.447'],
  [100, '0.450'],
  [200, '0.453'],
])('a prior of 0.485 worth %i births gives %s', (weight, shown) => {
  expect(betaMean(learntBeta(0.485, weight, { hits: 437, tries: 980 })).toFixed(3)).toBe(shown)
})

// R. G. Newcombe, Two-sided confidence intervals for the single proportion: comparison of seven methods, Statistics in
// Medicine 17, 1998, table of examples, score method without continuity correction. From memory.
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('Wilson’s interval of %i in %i', (hits, tries, low, high) => {
  const interval = wilsonInterval({ hits, tries })
  expect(interval?.low).toBeCloseTo(low, 4)
  expect(interval?.high).toBeCloseTo(high, 4)
})

test('nothing tried gives no interval', () => {
  expect(wilsonInterval({ hits: 0, tries: 0 })).toBeUndefined()
})
