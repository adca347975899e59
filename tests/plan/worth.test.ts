/** The worth of all that is proposed, over every way it can end: reckoned by hand. */
import { expect, test } from 'vitest'
import { resolveShopSettings, wholeWorth, wholeWorthWords } from '../../src/plan/index.ts'
import { endingMeans } from '../../src/suspects/index.ts'
import { unwrap } from '../support/board-fixture.ts'

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
