import { describe, expect, it } from 'vitest'
import {
  type CauseAt,
  comebackCost,
  defaultAssumptions,
  liftCosts,
  pricesOf as shopPrices,
  type Story,
} from '../../src/suspects/index.ts'
import { costOfList, isTrueStory, liftsTheSame, plainLists, pricesOf, trueStories } from '../../src/rehearsal/index.ts'
import type { Damage, Truth } from '../../src/rehearsal/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const model = shippedBoard('bowline-8')
const prices = pricesOf(model)
const [core = 0, first = 0, second = 0] = liftCosts(model, ['U1', 'U11', 'U12'], shopPrices(defaultAssumptions))
const comeback = comebackCost(shopPrices(defaultAssumptions))

describe('what a list costs', () => {
  it('is its lifts where nothing was left', () => {
    expect(costOfList(prices, ['U11', 'U12'], ['U11'])).toBeCloseTo(first + second, 9)
    expect(costOfList(prices, [], [])).toBe(0)
  })

  it('is one comeback more, whatever was left, and the lifts of it', () => {
    expect(costOfList(prices, ['U12'], ['U11', 'U1'])).toBeCloseTo(second + first + core + comeback, 9)
  })

  it('is least for exactly what is needed', () => {
    const needs = ['U1', 'U12']
    const best = costOfList(prices, needs, needs)
    for (const list of [[], ['U1'], ['U12'], ['U1', 'U11', 'U12'], ['U11']])
      expect(costOfList(prices, list, needs)).toBeGreaterThan(best)
  })
})

describe('the plain rules', () => {
  const lanes = (...failing: string[]): Map<string, string> =>
    new Map(model.lanes.map(({ id }) => [id, failing.includes(id) ? 'fail' : 'pass']))

  it('leave the core alone where one package is named, but for the ring', () => {
    const lists = plainLists(model, lanes('U11.A0', 'U11.B1'))
    expect(lists).toEqual({ named: ['U11'], namedAndCore: ['U11'], ring: ['U11', 'U1'] })
  })

  it('take the core off where two are named', () => {
    const lists = plainLists(model, lanes('U11.A0', 'U14.A0'))
    expect(lists.named).toEqual(['U11', 'U14'])
    expect(lists.namedAndCore).toEqual(['U11', 'U14', 'U1'])
  })

  it('take nothing off where nothing is named', () => {
    expect(plainLists(model, lanes())).toEqual({ named: [], namedAndCore: [], ring: [] })
  })
})

describe('a true story', () => {
  const lane = { lane: 'U11.A0', bits: 255, reads: 'high', perRead: 1 } as const
  const damage = (kind: Damage['kind'], at: string, ref: string | undefined): Damage => ({
    cause: 0,
    kind,
    at,
    ref,
    lanes: [lane],
    lines: [],
  })
  const truthOf = (...damages: Damage[]): Truth => ({ causes: [], damages, spoiled: [], needs: [] })
  const story = (...causes: Pick<CauseAt, 'kind' | 'at'>[]): Story => ({
    causes: causes.map((cause) => ({ refs: [], ...cause })),
    probability: 1,
    sentence: '',
  })
  const matches = (truth: Truth, told: Story): boolean => isTrueStory(model, told, trueStories(model, truth))

  it('may call the core a patch or the whole of it', () => {
    const truth = truthOf(damage('core-patch', 'U1', 'U1'))
    expect(matches(truth, story({ kind: 'core', at: 'U1' }))).toBe(true)
    expect(matches(truth, story({ kind: 'core-patch', at: 'north-east of U1' }))).toBe(true)
    expect(matches(truth, story({ kind: 'spill', at: 'north of U1' }))).toBe(false)
  })

  it('keeps a die apart from its joints', () => {
    const truth = truthOf(damage('joints', 'U11/A0', 'U11'))
    expect(matches(truth, story({ kind: 'joints', at: 'U11/A0' }))).toBe(true)
    expect(matches(truth, story({ kind: 'die', at: 'U11' }))).toBe(false)
    expect(liftsTheSame({ ...story(), causes: [{ kind: 'die', at: 'U11', refs: ['U11'] }] }, ['U11'])).toBe(true)
  })

  it('holds all that is at fault and nothing more', () => {
    const truth = truthOf(damage('die', 'U11', 'U11'), damage('die', 'U12', 'U12'))
    expect(matches(truth, story({ kind: 'die', at: 'U11' }))).toBe(false)
    expect(matches(truth, story({ kind: 'die', at: 'U11' }, { kind: 'die', at: 'U12' }))).toBe(true)
    const three = story({ kind: 'die', at: 'U11' }, { kind: 'die', at: 'U12' }, { kind: 'core', at: 'U1' })
    expect(matches(truth, three)).toBe(false)
  })

  it('of a slip that nobody marked is told by what it broke', () => {
    const truth = truthOf(damage('slip', 'U11.A0', undefined))
    expect(matches(truth, story({ kind: 'slip', at: 'west of U11' }))).toBe(true)
    expect(matches(truth, story({ kind: 'corridor', at: 'U11.A0' }))).toBe(true)
    expect(matches(truth, story({ kind: 'corridor', at: 'U11.A1' }))).toBe(false)
  })

  it('of a card on which nothing is wrong has no causes', () => {
    expect(matches(truthOf(), story())).toBe(true)
    expect(matches(truthOf(), story({ kind: 'die', at: 'U11' }))).toBe(false)
  })
})
