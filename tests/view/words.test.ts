/** Probabilities and lists in words. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { count, joined, listed, paragraph, percent } from '../../src/view/stores/words.ts'

test('a probability that is neither 0 nor 1 is never shown as none or all', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-300, max: 1 - 1e-12, noNaN: true }), (p) => {
      expect(percent(p)).not.toMatch(/^(0|0\.0|100|100\.0)\s%$/)
    }),
  )
})

test.each([
  [0.934, '93 %'],
  [0.002, '0.2 %'],
  [0.994, '99.4 %'],
  [0.99996, 'over 99.9 %'],
  [0.00002, 'under 0.1 %'],
  [0, '0 %'],
])('%d is said as %s', (probability, words) => {
  expect(percent(probability)).toBe(words.replace(' %', '\u00a0%'))
})

test('a number never parts from its unit at the end of a line', () => {
  expect(paragraph(['It reached 93 % at 4.0 mm.', 'More.'])).toBe('It reached 93\u00a0% at 4.0\u00a0mm. More.')
})

test('names are joined, and many are cut short with their number', () => {
  expect(joined([])).toBe('')
  expect(joined(['U1'])).toBe('U1')
  expect(joined(['U1', 'U2', 'U3'])).toBe('U1, U2 and U3')
  expect(listed(['a', 'b', 'c', 'd', 'e'], 3)).toBe('a, b, c and 2 more')
  expect(count(1, 'part')).toBe('1 part')
  expect(count(1200, 'part')).toBe('1,200 parts')
})
