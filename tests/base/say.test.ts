/** One rule each for chances, shares, bounds, money, lists and times in words. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  counted,
  joined,
  millimetres,
  minutesWords,
  money,
  percent,
  percentAtMost,
  percentOf,
  roughMoney,
  someOf,
} from '../../src/base/index.ts'

test('a chance that is computed is never said to be certain, nor none unless it is', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-300, max: 1, noNaN: true }), (p) => {
      expect(percent(p)).not.toMatch(/^(0|0\.0|100|100\.0) %$/)
    }),
  )
})

test.each([
  [0.934, '93 %'],
  [0.01, '1 %'],
  [0.002, '0.2 %'],
  [0.994, '99.4 %'],
  [0.99996, 'over 99.9 %'],
  [1, 'over 99.9 %'],
  [0.00002, 'under 0.1 %'],
  [0, '0 %'],
])('a chance of %d is said as %s', (probability, words) => {
  expect(percent(probability)).toBe(words)
})

test('a larger chance is never said with a smaller number', () => {
  const figure = (words: string): number =>
    words.startsWith('under') ? 0.05 : words.startsWith('over') ? 99.95 : Number.parseFloat(words)
  const chance = fc.double({ min: 0, max: 1, noNaN: true })
  fc.assert(
    fc.property(chance, chance, (a, b) => {
      expect(figure(percent(Math.min(a, b)))).toBeLessThanOrEqual(figure(percent(Math.max(a, b))))
    }),
  )
})

test('what was counted may be all or none', () => {
  expect([percentOf(15, 15), percentOf(0, 15), percentOf(1, 3), percentOf(0, 0), percentOf(9999, 10_000)]).toEqual([
    '100 %',
    '0 %',
    '33 %',
    '–',
    'over 99.9 %',
  ])
})

test('a bound is said as no less than it is, and hardly more', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.0005, max: 1, noNaN: true }), (bound) => {
      const said = Number.parseFloat(percentAtMost(bound)) / 100
      expect(said).toBeGreaterThanOrEqual(bound - 1e-9)
      expect(said - bound).toBeLessThan(0.001 + 1e-9)
    }),
  )
  expect([0.28, 0.0284, 0.002, 1].map(percentAtMost)).toEqual(['28 %', '2.9 %', '0.2 %', '100 %'])
})

test('names are joined, and many are cut short with their number', () => {
  expect(joined([])).toBe('')
  expect(joined(['U1'])).toBe('U1')
  expect(joined(['U1', 'U2'])).toBe('U1 and U2')
  expect(joined(['U1', 'U2', 'U3'])).toBe('U1, U2 and U3')
  expect(someOf(['a', 'b', 'c'], 3)).toBe('a, b and c')
  expect(someOf(['a', 'b', 'c', 'd', 'e'], 3)).toBe('a, b, c and 2 more')
  expect([counted(1, 'part'), counted(1200, 'part')]).toEqual(['1 part', '1,200 parts'])
})

test('times, lengths and money', () => {
  expect([12.4, 59.6, 60, 130].map(minutesWords)).toEqual(['12 min', '1 h', '1 h', '2 h 10 min'])
  expect([4, 4.44, 0.06].map(millimetres)).toEqual(['4 mm', '4.4 mm', '0.1 mm'])
  expect(money(1234.5, 'EUR')).toBe('1,234.50 EUR')
  expect(money(3, '')).toBe('3.00')
  expect([roughMoney(1234.5), roughMoney(-0.2)]).toEqual(['1,235', '0'])
})
