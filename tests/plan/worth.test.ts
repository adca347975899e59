/** The worth of all that is proposed, over every way it can end: reckoned by hand. */
import { describe, expect, test } from 'vitest'
import { resolveShopSettings, wholeWorth, wholeWorthWords, worthWords } from '../../src/plan/index.ts'
import { endingMeans } from '../../src/suspects/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposuresOf, plainBoard, planned } from './plan-fixture.ts'

const { money } = unwrap(resolveShopSettings(undefined))
const values = { ...money, valueIfRepaired: 1000, valueAsIs: 100, valueIfFailed: 40 }
const endings = [
  { probability: 0.5, money: 200, works: 1 },
  { probability: 0.3, money: 400, works: 0.5 },
  { probability: 0.2, money: 300, works: 0 },
]

test('three endings by hand: 0.5 that it works for 200, 0.3 that it works half the time for 400, 0.2 that it is lost for 300', () => {
  // works 0.5 + 0.3 · 0.5 = 0.65; money 100 + 120 + 60 = 280; gain 0.65 · 1000 + 0.35 · 40 − 280 − 100 = 284
  const means = endingMeans(endings)
  if (means === undefined) throw new Error('no endings')
  const whole = wholeWorth(means, values)
  expect(whole.works).toBeCloseTo(0.65, 12)
  expect(whole.money).toBeCloseTo(280, 9)
  expect(whole.gain).toBeCloseTo(284, 9)
  expect(wholeWorthWords(whole, (amount) => `${Math.round(amount)} EUR`)).toBe(
    'All that is proposed: works in the end 65 %, about 280 EUR in work and parts; it brings about 284 EUR against leaving it, on average.',
  )
})

test('without any ending there is no mean', () => {
  expect(endingMeans([])).toBeUndefined()
})

test('work that brings nothing on average, or loses, is said so', () => {
  const words = (gain: number): string => wholeWorthWords({ works: 0.4, money: 300, gain }, (amount) => `${amount} EUR`)
  expect(words(-50)).toBe(
    'All that is proposed: works in the end 40 %, about 300 EUR in work and parts; it loses about 50 EUR against leaving it, on average.',
  )
  expect(words(0)).toContain('it loses about 0 EUR')
})

describe('what a plan’s own steps are worth, in three sentences', () => {
  const worth = { curesProbability: 0.5, costOfRepair: 200, valueIfRepaired: 800 }
  const said = (successProbability: number, expectedGain: number, breakEvenValue: number): string =>
    worthWords({ ...worth, successProbability, expectedGain, breakEvenValue }, (amount) => `${amount} EUR`)
  test.each<[number, number, number, string]>([
    [
      0.5,
      20,
      760,
      'These steps alone cure the card with a chance of 50 %. They bring 20 EUR more than leaving it, on average. They pay from a working card worth 760 EUR up.',
    ],
    [
      0.25,
      -30,
      920,
      'These steps alone cure the card with a chance of 25 %. They lose 30 EUR against leaving it, on average. They pay from a working card worth 920 EUR up.',
    ],
    [
      0,
      -200,
      Number.POSITIVE_INFINITY,
      'These steps alone cure the card with a chance of 0 %. They lose 200 EUR against leaving it, on average. No value of the card would make them pay.',
    ],
  ])('at a chance of %d, a gain of %d and from %d on', (chance, gain, from, words) => {
    expect(said(chance, gain, from)).toBe(words)
  })
  test('where the gain is nil they do not pay', () => {
    expect(said(0.5, 0, 800)).toMatch(/They lose -?0 EUR against leaving it/)
  })
})

test('a plan that cannot cure pays at no value, even where a failed one is worth more than the card as it is', () => {
  const { worth } = planned({
    model: plainBoard([{ ref: 'U2', x: 50, heatCount: 0 }]),
    lift: ['U2'],
    exposures: exposuresOf({ U2: {} }),
    successProbability: 0,
    settings: { money: { valueIfFailed: 5000, valueAsIs: 0 } },
  })
  expect(worth.breakEvenValue).toBe(Number.POSITIVE_INFINITY)
})
