/** The range of a quote: percentiles by counting, days and tax by hand. */
import { fc, test as prop } from '@fast-check/vitest'
import { expect, test } from 'vitest'
import { percentile, quoteRange, type QuoteTerms } from '../../src/case/index.ts'
import type { WorkEnding } from '../../src/suspects/index.ts'

const ending = (probability: number, money: number, change: Partial<WorkEnding> = {}): WorkEnding => ({
  probability,
  money,
  minutes: money,
  works: 1,
  newParts: false,
  afterwards: 0,
  ...change,
})
const terms: QuoteTerms = {
  hoursADay: 6,
  partsDays: 5,
  taxPct: 0,
  spent: { money: 0, minutes: 0 },
  waitingHours: 0,
}

test('of two ways, 150 in six of ten cards and 235 in four: from 150 to 235, on average 0.6 · 150 + 0.4 · 235 = 184', () => {
  expect(quoteRange([ending(0.6, 150), ending(0.4, 235, { works: 0.5 })], terms)).toMatchObject({
    low: 150,
    expected: 184,
    high: 235,
    works: 0.8,
  })
})

test('what is as rare as one in twenty lies outside of the range, on either side', () => {
  const endings = [ending(0.05, 10), ending(0.4, 100), ending(0.5, 200), ending(0.05, 900)]
  // 0.5 + 40 + 100 + 45 = 185.5
  expect(quoteRange(endings, terms)).toMatchObject({ low: 100, expected: 185.5, high: 200 })
})

test('the mean is always within: a rare and very dear end moves the high price up to it', () => {
  // 0.95 · 100 + 0.05 · 5000 = 345, above the 90th percentile of 100
  expect(quoteRange([ending(0.95, 100), ending(0.05, 5000)], terms)).toMatchObject({
    low: 100,
    expected: 345,
    high: 345,
  })
})

test('what is spent already counts on every end, and tax on all of it: (40 + 150) · 1.19 = 226.10', () => {
  const range = quoteRange([ending(1, 150)], { ...terms, taxPct: 19, spent: { money: 40, minutes: 30 } })
  expect(range).toMatchObject({ low: 226.1, expected: 226.1, high: 226.1 })
})

test.each([
  // minutes, new part, waiting hours, days: 6 h a day are 360 min
  [0, false, 0, 1],
  [360, false, 0, 1],
  [361, false, 0, 2],
  [900, false, 0, 3],
  [360, true, 0, 6],
  [360, false, 8, 2],
  [360, true, 25, 8],
])('%i min, a new part: %s, %i h in the oven: %i days', (minutes, newParts, waitingHours, days) => {
  const range = quoteRange([ending(1, 100, { minutes, newParts })], { ...terms, waitingHours })
  expect(range).toMatchObject({ daysLow: days, daysHigh: days })
})

test('where nothing was reckoned there is no range', () => {
  expect(quoteRange([], terms)).toBeUndefined()
})

/** Chances in hundredths, so that a hundred cards can be counted one by one. */
const counted = fc.array(
  fc.record({ cards: fc.integer({ min: 1, max: 30 }), value: fc.integer({ min: 0, max: 50 }) }),
  { minLength: 1, maxLength: 12 },
)

prop.prop([counted, fc.integer({ min: 1, max: 100 })])(
  'a percentile is that of the cards laid out in a row',
  (groups, pct) => {
    const row = groups
      .flatMap(({ cards, value }) => Array.from({ length: cards }, () => value))
      .toSorted((a, b) => a - b)
    const chanced = groups.map(({ cards, value }) => ({ probability: cards / row.length, value }))
    const least = row.find((value) => row.filter((each) => each <= value).length * 100 >= pct * row.length)
    expect(percentile(chanced, pct / 100)).toBe(least)
  },
)
