/**
 * Three parts by hand. U2, U3 and U4 stand in a row, U3 (a dear part, price 100) in the middle; each at heat count 0.
 *
 * | pass on | joint of U2 | joint of U3 | joint of U4 |
 * | ------- | ----------- | ----------- | ----------- |
 * | U2      | target      | 180 °C      | 120 °C      |
 * | U3      | 230 °C      | target      | 230 °C      |
 * | U4      | 120 °C      | 180 °C      | target      |
 *
 * Harm of a pass to a part that is on (chance × price): chance near = 0.02 × clamp((joint − 160) / 40), so 180 °C gives
 * 0.02 × 0.5 = 0.01 and 230 °C gives 0.02; a melt adds 0.1, with no growth by heat count. Prices: U3 100, U2 and U4 20.
 *
 * | pass on | harm to U2       | harm to U3       | harm to U4       |
 * | ------- | ---------------- | ---------------- | ---------------- |
 * | U2      | –                | 0.01 × 100 = 1.0 | 0                |
 * | U3      | 0.12 × 20 = 2.4  | –                | 0.12 × 20 = 2.4  |
 * | U4      | 0                | 0.01 × 100 = 1.0 | –                |
 *
 * For each pair with U3, the order of its four passes decides: lift the neighbour X, lift U3, refit U3, refit X costs
 * 1.0 (lifting X while U3 is on) + 1.0 (refitting X while U3 is back) = 2.0; lift U3, lift X, refit X, refit U3 costs
 * 2.4 + 2.4 = 4.8; lift X, lift U3, refit X, refit U3 costs 1.0 + 2.4 = 3.4; lift U3, lift X, refit U3, refit X costs
 * 2.4 + 1.0 = 3.4. So 2.0 for each of the two pairs, 0 for U2 with U4: harm of the best order = 4.0, and U3 comes off last and
 * goes back first. Every pass takes 5 min of heat and 5 min of handling at 1 a minute: 6 × 10 = 60. Everything off first.
 * Each part: reball 12 min, clean 6 + 1.5 × 1 cm² = 7.5 min, inspect 3 min: 3 × 22.5 = 67.5. Prepare 15. Minutes = 142.5.
 * Materials are set to nothing. Cost = 142.5, harm 4.0, together 146.5.
 *
 * Refitting each at once meets U3 on the board at all four passes of U2 and U4 (4 × 1.0), and U2 and U4 on the board at both
 * passes of U3 (4 × 2.4): harm 13.6, so 9.6 more than the best.
 */
import { describe, expect, test } from 'vitest'
import type { PlanInput } from '../../src/plan/index.ts'
import { exposuresOf, passesOf, plainBoard, planned } from './plan-fixture.ts'

const NOTHING = {
  ballsPerThousand: 0,
  fluxPerPass: 0,
  solventPerSite: 0,
  wickPerSite: 0,
  tapePerShield: 0,
  bondRemoverPerPart: 0,
  pastePerPart: 0,
}

const example: PlanInput = {
  model: plainBoard([
    { ref: 'U2', x: 30, price: 20, heatCount: 0 },
    { ref: 'U3', x: 60, price: 100, heatCount: 0 },
    { ref: 'U4', x: 90, price: 20, heatCount: 0 },
  ]),
  lift: ['U4', 'U2', 'U3'],
  exposures: exposuresOf({
    U2: { U3: 180, U4: 120 },
    U3: { U2: 230, U4: 230 },
    U4: { U2: 120, U3: 180 },
  }),
  settings: {
    money: { hourlyRate: 60, valueIfRepaired: 400, valueAsIs: 50, valueIfFailed: 40 },
    materials: NOTHING,
    minutes: { inspect: 3 },
    exposure: { meltRisk: 0.1, perHeatCount: 0, nearRisk: 0.02, neighbourC: 160, nearSpanK: 40, leastPrice: 0 },
    heat: { heatLimit: 7 },
  },
  successProbability: 0.8,
}

describe('three parts in a row, worked by hand', () => {
  const answer = planned(example)

  test('the dear part in the middle comes off last and goes back first', () => {
    const passes = passesOf(answer)
    expect(passes.slice(2, 4)).toEqual(['lift U3', 'refit U3'])
    expect(passes.slice(0, 2).toSorted()).toEqual(['lift U2', 'lift U4'])
    expect(passes.slice(4).toSorted()).toEqual(['refit U2', 'refit U4'])
  })

  test('minutes, money and harm are those of the table', () => {
    expect(answer.best.minutes).toBeCloseTo(142.5, 9)
    expect(answer.best.cost).toBeCloseTo(142.5, 9)
    expect(answer.best.exposureCost).toBeCloseTo(4, 9)
    expect(answer.best.optimality.proved).toBe(true)
  })

  test('each part has melted three times: lift, reball, refit', () => {
    expect(answer.best.heatCounts).toEqual(['U2', 'U3', 'U4'].map((ref) => ({ ref, before: 0, after: 3, limit: 7 })))
  })

  test('refitting each at once is the other way, at 9.6 more', () => {
    expect(answer.alternative?.differsIn).toBe('each part refitted as soon as its site may be cleaned')
    expect(answer.alternative?.costsMore).toBeCloseTo(9.6, 9)
    expect(answer.alternative?.plan.exposureCost).toBeCloseTo(13.6, 9)
  })

  // 0.99⁴ = 0.96059601; success 0.8 · that = 0.768476808; gain 0.768476808 · 400 + 0.231523192 · 40 − 142.5 − 50 =
  // 307.3907232 + 9.26092768 − 192.5 = 124.15165088; break-even (142.5 + 50 − 9.26092768) / 0.768476808 = 238.4445…
  test('worth: U3 stands by at four passes with a chance of 0.01 each to be spoiled; 124.15, break-even at 238.44', () => {
    expect(answer.best.unharmed).toBeCloseTo(0.96059601, 12)
    expect(answer.worth.successProbability).toBeCloseTo(0.768476808, 12)
    expect(answer.worth.costOfRepair).toBeCloseTo(142.5, 9)
    expect(answer.worth.expectedGain).toBeCloseTo(124.15165088, 8)
    expect(answer.worth.breakEvenValue).toBeCloseTo(238.4445, 4)
  })
})
