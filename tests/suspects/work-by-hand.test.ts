/**
 * Money and minutes of lifts by the shipped price book, worked by hand (minutes and prices: common practice or stated there, no
 * source), and what a list of parts to lift is expected to cost. A core of 20 × 20 mm, a memory package of 12 × 12 mm and a power stage of
 * 5 × 5 mm, none with a known ball grid; a minute costs 1.
 */
import { describe, expect, it } from 'vitest'
import type { BoardModel, PlacedPart } from '../../src/board/index.ts'
import {
  bestLiftList,
  comebackCost,
  costOf,
  createJudge,
  defaultAssumptions,
  defaultPriceBook,
  type Findings,
  type LiftQuestion,
  liftCost,
  liftMinutes,
  liftWork,
  pricesOf,
  refitWork,
  worthLost,
} from '../../src/suspects/index.ts'
import { smallBoard } from './small-board.ts'

const board = smallBoard({
  memories: [{ ref: 'U2', at: { x: 90, y: 50 }, lanes: ['A0', 'A1'] }],
  core: true,
  corridors: true,
  commandRegions: false,
  rails: [],
  stages: ['S1'],
})
const part = (ref: string): PlacedPart => {
  const found = board.partByRef.get(ref)
  if (found === undefined) throw new Error(`no ${ref}`)
  return found
}
const prices = pricesOf(defaultAssumptions)

describe('the work on one part', () => {
  // heat-up 12, handling 12 / 5 / 4; flux 0.8
  it.each([
    ['U1', 24, 24.8],
    ['U2', 17, 17.8],
    ['S1', 16, 16.8],
  ] as const)('lifting %s takes %d minutes and costs %d', (ref, minutes, money) => {
    expect(liftWork(part(ref), defaultPriceBook).minutes).toBeCloseTo(minutes, 9)
    expect(liftWork(part(ref), defaultPriceBook).money).toBeCloseTo(money, 9)
  })

  it.each([
    ['corner', 6],
    ['edge', 12],
    ['underfill', 25],
  ] as const)('glue (%s) adds %i minutes and 2 of softener', (bonding, more) => {
    const bare = part('U2')
    const glued = { ...bare, description: { ...bare.description, bonding } }
    const [plain, held] = [liftWork(bare, defaultPriceBook), liftWork(glued, defaultPriceBook)]
    expect(held.minutes - plain.minutes).toBeCloseTo(more, 9)
    expect(held.money - plain.money).toBeCloseTo(more + 2, 9)
  })

  // site 6 + 1.5 a cm² (4, 1.44, 0.25 cm²): 12, 8.16, 6.375; on new balls 12, a new part 4; heat-up and handling again; inspection 15.
  // Solvent 0.5, braid 0.7, flux 0.8; paste 0.5 where it is made ready itself.
  it.each([
    ['U1', 'reball', 12 + 12 + 24 + 15, 2.5],
    ['U2', 'reball', 8.16 + 12 + 17 + 15, 2.5],
    ['U2', 'replace', 8.16 + 4 + 17 + 15, 2],
    ['S1', 'replace', 6.375 + 4 + 16 + 15, 2],
  ] as const)('putting %s back (%s) takes %d minutes, and %d of materials', (ref, action, minutes, materials) => {
    const work = refitWork(part(ref), action, defaultPriceBook)
    expect(work.minutes).toBeCloseTo(minutes, 9)
    expect(work.money).toBeCloseTo(minutes + materials, 9)
  })

  // lost in lifting: a core in 6 of 100, and the card with it, 800 − 100; memory in 2 of 100, 15; a stage is bought anew for 4
  it.each([
    ['U1', 24 + 63, 24.8 + 65.5 + 0.06 * 700],
    ['U2', 17 + 52.16, 17.8 + 54.66 + 0.02 * 15],
    ['S1', 16 + 41.375, 16.8 + 43.375 + 4],
  ] as const)('all of it for %s: %d minutes, %d', (ref, minutes, money) => {
    expect(liftMinutes(part(ref), prices)).toBeCloseTo(minutes, 9)
    expect(liftCost(part(ref), prices)).toBeCloseTo(money, 9)
  })

  it('a comeback costs three hours and 150 of goodwill: 330', () => {
    expect(comebackCost(prices)).toBeCloseTo(330, 9)
  })

  it('a card that is worth less working than broken is no loss', () => {
    expect(worthLost(100, defaultPriceBook)).toBe(700)
    expect(worthLost(900, defaultPriceBook)).toBe(0)
  })
})

/** Two parts that fail apart from each other: the first with 0.5, the second with 0.2. */
const apart = (liftCosts: readonly number[], comeback: number): LiftQuestion => ({
  probability: Float64Array.from([0.5, 0.2]),
  liftCost: Float64Array.from(liftCosts),
  comebackCost: comeback,
  noneNeeds: (parts) => parts.reduce((product, at) => product * (at === 0 ? 0.5 : 0.8), 1),
})

describe('what a list is expected to cost', () => {
  const question = apart([40, 100], 300)
  // what is left and needed after all costs its lift then, and one comeback for all of it
  it.each([
    [[], 0.5 * 40 + 0.2 * 100 + 300 * (1 - 0.5 * 0.8)],
    [[0], 40 + 0.2 * 100 + 300 * 0.2],
    [[1], 100 + 0.5 * 40 + 300 * 0.5],
    [[0, 1], 140],
  ])('lifting %j', (lift, cost) => {
    expect(costOf(question, lift)).toBeCloseTo(cost, 9)
  })
  it('the least of the four is the list: 120', () => {
    expect(bestLiftList(question)).toMatchObject({ lift: [0], exact: true })
    expect(bestLiftList(question).cost).toBeCloseTo(120, 9)
  })
  // left, the second costs 0.2 · (lift + comeback); lifted, its lift: worth leaving while 0.2 · 300 <= 0.8 · lift, from 75 on
  it.each([
    [74, [0, 1]],
    [76, [0]],
  ])('a lift at %i against a comeback of 300 that it saves in one of five: %j', (lift, list) => {
    expect(bestLiftList(apart([40, lift], 300)).lift).toEqual(list)
  })
})

/** The tracks of U2 run from the core eastwards; a tool slipped across them, or beside. */
describe('a slip', () => {
  const lanes: Findings['lanes'] = new Map([
    ['U2.A0', 'fail'],
    ['U2.A1', 'fail'],
  ])
  const straight: BoardModel = {
    ...board,
    corridors: board.corridors.map((corridor) => ({
      ...corridor,
      path: [
        { x: 60, y: 50 },
        { x: 80, y: 50 },
      ],
    })),
  }
  const chanceOfSlip = (yMm: number): number => {
    const findings: Findings = {
      lanes,
      signatures: new Map(),
      spills: [],
      areas: [],
      slips: [{ kind: 'slip', id: 'k', side: 'top', at: { x: 70, y: yMm }, radiusMm: 3 }],
      rails: new Map(),
    }
    const { stories } = createJudge(straight).judge({ findings, spills: [] })
    return stories
      .filter(({ causes }) => causes.length === 1 && causes[0]?.kind === 'slip')
      .reduce((sum, { probability }) => sum + probability, 0)
  }

  // tracks are 2 mm wide: a blade of 3 mm about its point meets them up to 3 + 1 mm from their middle
  it('meets a track by its edge, not by its middle', () => {
    expect(chanceOfSlip(50)).toBeGreaterThan(0.5)
    expect(chanceOfSlip(53.9)).toBeCloseTo(chanceOfSlip(50), 9)
    expect(chanceOfSlip(54.1)).toBeLessThan(0.05)
  })
})

describe('handing a card back', () => {
  const findings: Findings = {
    lanes: new Map([
      ['U2.A0', 'fail'],
      ['U2.A1', 'pass'],
    ]),
    signatures: new Map(),
    spills: [],
    areas: [],
    slips: [],
    rails: new Map(),
  }

  // Where a comeback costs nothing in itself, no lift pays on a guess: what is left is each part's lift, as often as it is needed.
  it('costs no less than the lifts that come later, each by its chance', () => {
    const judge = createJudge(board)
    const money = { minutesPerComeback: 0, comebackGoodwill: 0 }
    const input = { findings, spills: [], prices: { money } }
    const { now } = judge.rankChecks({ ...input, places: [] })
    const later = judge
      .judge(input)
      .parts.reduce((sum, { ref, probability }) => sum + probability * liftCost(part(ref), prices), 0)
    expect(later).toBeGreaterThan(10)
    expect(now.first).toBe('hand-back')
    expect(now.cost).toBeGreaterThan(later - 1e-3)
  })
})
