import { fc, test } from '@fast-check/vitest'
import { describe, expect, it } from 'vitest'
import { bestLiftList, costOf, type LiftQuestion } from '../../src/suspects/index.ts'

const PARTS = 6

/** Worlds, each with a weight and the parts that need lifting in it, as bits; from them every probability. */
function questionOf(worlds: readonly { weight: number; needs: number }[], costs: readonly number[], comeback: number) {
  const total = worlds.reduce((sum, { weight }) => sum + weight, 0)
  const noneNeeds = (parts: readonly number[]): number => {
    const asked = parts.reduce((bits, part) => bits | (1 << part), 0)
    return worlds.reduce((sum, { weight, needs }) => ((needs & asked) === 0 ? sum + weight : sum), 0) / total
  }
  const question: LiftQuestion = {
    probability: Float64Array.from({ length: PARTS }, (_, part) => 1 - noneNeeds([part])),
    liftCost: Float64Array.from(costs),
    comebackCost: comeback,
    noneNeeds,
  }
  return question
}

const question = fc
  .record({
    worlds: fc.array(fc.record({ weight: fc.integer({ min: 1, max: 50 }), needs: fc.integer({ min: 0, max: 63 }) }), {
      minLength: 1,
      maxLength: 8,
    }),
    costs: fc.array(fc.integer({ min: 1, max: 200 }), { minLength: PARTS, maxLength: PARTS }),
    comeback: fc.integer({ min: 0, max: 600 }),
  })
  .map(({ worlds, costs, comeback }) => questionOf(worlds, costs, comeback))

describe('the lift list', () => {
  test.prop([question], { numRuns: 400, seed: 7 })('costs no more than any other set of parts', (asked) => {
    const best = bestLiftList(asked)
    let cheapest = Infinity
    for (let set = 0; set < 1 << PARTS; set++) {
      const list = [...Array(PARTS).keys()].filter((part) => (set >> part) & 1)
      cheapest = Math.min(cheapest, costOf(asked, list))
    }
    expect(best.cost).toBeCloseTo(cheapest, 8)
    expect(costOf(asked, best.lift)).toBeCloseTo(best.cost, 8)
  })

  it('lifts a part that is not worth it alone once it saves the only comeback that is left', () => {
    const alone = questionOf(
      [
        { weight: 7, needs: 0 },
        { weight: 3, needs: 1 },
      ],
      [100, 1, 1, 1, 1, 1],
      200,
    )
    expect(bestLiftList(alone).lift).toEqual([])
    const dear = questionOf(
      [
        { weight: 7, needs: 0 },
        { weight: 3, needs: 1 },
      ],
      [100, 1, 1, 1, 1, 1],
      300,
    )
    expect(bestLiftList(dear).lift).toEqual([0])
  })

  it('leaves a part once a dearer one, which fails with it, brings the comeback anyway', () => {
    const worlds = [
      { weight: 4, needs: 0 },
      { weight: 6, needs: 3 },
    ]
    expect(bestLiftList(questionOf(worlds, [90, 10, 1, 1, 1, 1], 100)).lift).toEqual([0, 1])
    expect(bestLiftList(questionOf(worlds, [90, 5000, 1, 1, 1, 1], 100)).lift).toEqual([])
  })

  /** Eight parts that need lifting together in one of ten cards, or none does; lifting each costs so much, a comeback so much. */
  const together = (cost: number, comeback: number): LiftQuestion => ({
    probability: new Float64Array(8).fill(0.1),
    liftCost: new Float64Array(8).fill(cost),
    comebackCost: comeback,
    noneNeeds: (parts) => (parts.length === 0 ? 1 : 0.9),
  })
  // each is worth lifting only where all others are: too many to try every set of them
  it('of more than six in doubt is found from both ends, and said to be without a proof', () => {
    // left, all of them cost 0.1 · (1000 + 8 · 100) = 180; lifted 8 · 100
    expect(bestLiftList(together(100, 1000))).toEqual({ lift: [], cost: expect.closeTo(180, 9), exact: false })
    // 0.1 · (5000 + 8 · 50) = 540 left, 400 lifted
    const all = bestLiftList(together(50, 5000))
    expect(all).toEqual({ lift: [0, 1, 2, 3, 4, 5, 6, 7], cost: 400, exact: false })
  })
  it('of parts that no comeback pays for is empty, and proved', () => {
    // one alone left costs at most 0.1 · 100, saved by leaving it 0.9 · 100
    expect(bestLiftList(together(100, 100))).toMatchObject({ lift: [], exact: true })
  })
})
