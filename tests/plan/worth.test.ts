/** The worth of all that is proposed, over every way it can end: reckoned by hand. */
import { expect, test } from 'vitest'
import { resolveShopSettings, wholeWorth } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'

const { money } = unwrap(resolveShopSettings(undefined))
const values = { ...money, valueIfRepaired: 1000, valueAsIs: 100, valueIfFailed: 40 }

test('three endings by hand: 0.5 that it works for 200, 0.3 that it works half the time for 400, 0.2 that it is lost for 300', () => {
  // works 0.5 + 0.3 · 0.5 = 0.65; cost 100 + 120 + 60 = 280; gain 0.65 · 1000 + 0.35 · 40 − 280 − 100 = 284
  const whole = wholeWorth(
    [
      { probability: 0.5, money: 200, works: 1 },
      { probability: 0.3, money: 400, works: 0.5 },
      { probability: 0.2, money: 300, works: 0 },
    ],
    values,
  )
  expect(whole?.works).toBeCloseTo(0.65, 12)
  expect(whole?.cost).toBeCloseTo(280, 9)
  expect(whole?.gain).toBeCloseTo(284, 9)
})

test('without any ending nothing is said', () => {
  expect(wholeWorth([], values)).toBeUndefined()
})
