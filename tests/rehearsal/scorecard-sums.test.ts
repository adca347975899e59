/** What a scorecard makes of three cards' scores, each figure worked by hand. */
import { describe, expect, it } from 'vitest'
import { type RemedyScore, remedySummary, scorecardOf } from '../../src/rehearsal/index.ts'
import { cardScore, threeCards } from './score-support.ts'

const head = { seed: 7, mixture: 'middle', weights: { die: 1 } }
const card = scorecardOf(head, threeCards)

describe('the scorecard of three cards', () => {
  it('says what it is of, and the mean cost of each who worked on them', () => {
    expect(card).toMatchObject({ cards: 3, ...head })
    expect(card.cost).toEqual({
      liftmap: 600 / 3,
      steps: 540 / 3,
      named: 630 / 3,
      namedAndCore: 570 / 3,
      ring: 700 / 3,
      allKnowing: 360 / 3,
      allKnowingInSteps: 450 / 3,
    })
  })

  it('gives ratios of sums, not means of ratios', () => {
    const values = Object.entries(card.ratio).map(([name, { value }]) => [name, value])
    expect(Object.fromEntries(values)).toEqual({
      liftmapToAllKnowing: 600 / 360,
      liftmapToNamedAndCore: 600 / 570,
      stepsToAllKnowing: 540 / 360,
      stepsToAllKnowingInSteps: 540 / 450,
      stepsToNamedAndCore: 540 / 570,
    })
  })

  it('gives shares of cards, and what was missed and needless as means', () => {
    const { first, firstThree, firstByPart, firstThreeByPart, missed, needless, coreShare } = card
    expect([first, firstThree, firstByPart, firstThreeByPart]).toEqual([1 / 3, 2 / 3, 2 / 3, 2 / 3])
    expect([missed, needless, coreShare]).toEqual([1, 1, 2 / 3])
  })

  it('holds what was said against what was so, by the core, by packages that failed and by all', () => {
    // core: 0.2 and not, 0.8 and so, 0.4 and so; failing: 0.9 so, 0.5 not, 0.7 so; all: 0.1 not
    expect(card.ece.core).toBeCloseTo((0.2 + 0.2 + 0.6) / 3, 12)
    expect(card.ece.failing).toBeCloseTo((0.1 + 0.5 + 0.3) / 3, 12)
    expect(card.ece.all).toBeCloseTo(0.1, 12)
    expect(card.brier.core).toBeCloseTo((0.04 + 0.04 + 0.36) / 3, 12)
    expect(card.brier.failing).toBeCloseTo((0.01 + 0.25 + 0.09) / 3, 12)
    expect(card.brier.all).toBeCloseTo(0.01, 12)
    const { core, failing, all } = card.reliability
    expect([core.count, failing.count, all.count]).toEqual([3, 3, 1])
    // of one that is said with 0.1: 0.9 · 0.1 + 0.1 · 0.9 by chance, within what 60 draws leave open
    expect(Math.abs(card.eceByChance.all - 0.18)).toBeLessThan(0.12)
    expect(card.eceByChance).toEqual({
      core: core.eceByChance,
      failing: failing.eceByChance,
      all: all.eceByChance,
    })
  })

  it('gives each its interval about the same mean', () => {
    const means = Object.entries(card.cost).map(([name, value]) => [`cost.${name}`, value] as const)
    expect(Object.keys(card.ci)).toEqual([...means.map(([name]) => name), 'first', 'firstThree', 'missed', 'needless'])
    for (const [name, value] of means) expect(card.ci[name]?.value).toBeCloseTo(value, 9)
    expect(card.ci['first']?.value).toBeCloseTo(1 / 3, 12)
    expect(card.ci['firstThree']?.value).toBeCloseTo(2 / 3, 12)
    expect([card.ci['missed']?.value, card.ci['needless']?.value]).toEqual([1, 1])
    // of three drawn from three, all are the same one in 1 of 27 draws: more than the 2.5 % that are cut at either end
    expect(card.ci['cost.allKnowing']).toMatchObject({ low: 40, high: 240 })
    expect(card.ci['missed']).toMatchObject({ low: 0, high: 2 })
  })

  it('tells places, times and what it took in steps', () => {
    expect(card.place).toEqual({ cards: 2, errorMm: 2, markMm: 3.5, sdMm: 2.5 })
    expect(card.milliseconds).toEqual({ median: 40, mean: 100 / 3, most: 50 })
    expect(card.steps).toEqual({
      costBesideProof: 495 / 3,
      checks: 2,
      minutesOfChecks: 16,
      rounds: 2,
      comebacks: 1 / 3,
      orders: { cards: 1, steps: 110, random: 140, fixed: 130, noChecks: 150 },
    })
  })

  it('judges with less only the cards that were judged so, beside the same cards with everything', () => {
    const rounded = Object.entries(card.without).map(([name, { cards, liftmap, eceCore }]) => [
      name,
      cards,
      liftmap,
      Number(eceCore.toFixed(9)),
    ])
    expect(rounded).toEqual([
      ['nothingLess', 1, 100, 0.2],
      ['looks', 1, 110, 0.3],
      ['readings', 1, 130, 0.4],
      ['looksAndReadings', 1, 140, 0.5],
      ['withChecks', 1, 290, 0.1],
    ])
  })

  it('groups by what happened, board, substance, named packages and the owner’s word, in the order of the names', () => {
    const counts = (groups: typeof card.byKind) => Object.entries(groups).map(([name, { cards }]) => [name, cards])
    expect(counts(card.byKind)).toEqual([
      ['die', 2],
      ['wet-spill', 1],
    ])
    expect(counts(card.byBoard)).toEqual([
      ['first', 2],
      ['second', 1],
    ])
    expect(counts(card.bySubstance)).toEqual([
      ['none', 2],
      ['water', 1],
    ])
    expect(counts(card.byFailing)).toEqual([
      ['1', 1],
      ['4', 1],
      ['5 or more', 1],
    ])
    expect(counts(card.byTold)).toEqual([
      ['accident', 2],
      ['unknown', 1],
    ])
    expect(card.byKind['die']).toEqual({
      cards: 2,
      cost: {
        liftmap: 150,
        steps: 145,
        named: 115,
        namedAndCore: 110,
        ring: 175,
        allKnowing: 60,
        allKnowingInSteps: 97.5,
      },
      first: 0.5,
      firstThree: 0.5,
      firstByPart: 1,
      missed: 1,
      needless: 1.5,
      coreSaid: expect.closeTo(0.3, 12),
      coreWas: 0.5,
    })
  })

  it('leaves out what nobody did', () => {
    const plain = scorecardOf(head, [cardScore({}), cardScore({})])
    expect([plain.steps, plain.remedies]).toEqual([undefined, undefined])
    expect(plain.without).not.toHaveProperty('withChecks')
    expect(plain.cost).not.toHaveProperty('steps')
    expect(plain.ci).not.toHaveProperty(['cost.steps'])
    expect(Object.keys(plain.ratio)).toEqual(['liftmapToAllKnowing', 'liftmapToNamedAndCore'])
    expect(plain.ratio['liftmapToAllKnowing']).toEqual({ value: 0, low: 0, high: 0 })
    expect(scorecardOf(head, []).milliseconds).toEqual({ median: 0, mean: 0, most: 0 })
  })
})

describe('those who work remedy by remedy, on three cards', () => {
  const job = (end: RemedyScore['plain']['end'], cost: number, minutes = 0, runs = 0) => ({
    end,
    cost,
    minutes,
    runs,
    done: [],
  })
  const scores: readonly RemedyScore[] = [
    {
      proposals: job('works', 100, 60, 1),
      allKnowing: job('works', 80),
      plain: job('comes back', 400),
      said: { cost: 150, works: 0.9 },
    },
    {
      proposals: job('sent back', 650, 30, 2),
      allKnowing: job('sent back', 650),
      plain: job('lost', 850),
      said: { cost: 500, works: 0.3 },
    },
    {
      proposals: job('works', 300, 120, 3),
      allKnowing: job('works', 270),
      plain: job('works', 250),
      said: undefined,
    },
  ]

  it('cost their means, end in their shares, and are held to what was promised where something was', () => {
    const summary = remedySummary(scores)
    if (summary === undefined) throw new Error('nothing')
    const { cost, ratio, ends, said } = summary
    expect(summary).toMatchObject({ cards: 3, minutes: 70, runs: 2 })
    expect([cost.proposals.value, cost.allKnowing.value, cost.plain.value]).toEqual([350, 1000 / 3, 500])
    expect([ratio.toAllKnowing.value, ratio.toPlain.value]).toEqual([1.05, 0.7])
    const none = { works: 0, 'comes back': 0, 'sent back': 0, lost: 0 }
    expect(ends).toEqual({
      proposals: { ...none, works: 2 / 3, 'sent back': 1 / 3 },
      allKnowing: { ...none, works: 2 / 3, 'sent back': 1 / 3 },
      plain: { works: 1 / 3, 'comes back': 1 / 3, 'sent back': 0, lost: 1 / 3 },
    })
    // two were reckoned: 0.9 and it worked, 0.3 and it went back
    expect(said).toEqual({
      cards: 2,
      works: 0.6,
      worked: 0.5,
      ece: expect.closeTo((0.1 + 0.3) / 2, 12),
      cost: 325,
      came: 375,
    })
  })

  it('are none on no card, and stand on the scorecard of those cards on which they worked', () => {
    expect(remedySummary([])).toBeUndefined()
    const [remedies] = scores
    if (remedies === undefined) throw new Error('nothing')
    expect(scorecardOf(head, [cardScore({ remedies }), cardScore({})]).remedies?.cards).toBe(1)
  })
})
