/** How often each part is molten from the first pass to the last, what is replaced because of it, and what no pass reaches. */
import { describe, expect, test } from 'vitest'
import { type Plan, type PlanInput, replan } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposuresOf, passesOf, plainBoard, planned } from './plan-fixture.ts'

type Heats = Readonly<Record<string, Readonly<Record<string, number>>>>

/** Parts far apart: those with a pass of their own are on the list. */
function inARow(parts: Readonly<Record<string, { price?: number; heatCount: number }>>, jointC: Heats): PlanInput {
  return {
    model: plainBoard(Object.entries(parts).map(([ref, more], i) => ({ ref, x: 30 + 60 * i, ...more }))),
    lift: Object.keys(jointC),
    exposures: exposuresOf(jointC),
    successProbability: 1,
  }
}
const countsOf = ({ heatCounts }: Plan): string[] =>
  heatCounts.map(({ ref, before, after }) => `${ref} ${before} to ${after}`)
const replacedIn = ({ steps }: Plan): readonly string[] =>
  steps.flatMap(({ action, refs }) => (action === 'replace' ? refs : []))

/**
 * U2 and U3 are so dear that U4 may melt neither: U4 comes off last and goes back first, molten at both of their lifts and at
 * both of their refits. Three melts of its own (lift, balls, refit) and these four.
 */
describe('a part that melts twice before it comes off', () => {
  const heats: Heats = { U2: { U4: 220 }, U3: { U4: 220 }, U4: { U2: 220, U3: 220 } }
  const withCount = (heatCount: number): PlanInput =>
    inARow(
      { U2: { price: 9000, heatCount: 0 }, U3: { price: 9000, heatCount: 0 }, U4: { price: 10, heatCount } },
      heats,
    )

  test('comes off last and goes back first', () => {
    const passes = passesOf(planned(withCount(0)))
    expect(passes.slice(2, 4)).toEqual(['lift U4', 'refit U4'])
  })
  test('is used again where it was molten twice in all by then: 0 + 4 + 3', () => {
    const { best } = planned(withCount(0))
    expect(replacedIn(best)).toEqual([])
    expect(countsOf(best)).toEqual(['U2 0 to 3', 'U3 0 to 3', 'U4 0 to 7'])
  })
  // J-STD-020 classes by three reflow cycles
  test('is replaced where that makes three: the new one is molten at its refit and at two after it', () => {
    const { best } = planned(withCount(1))
    expect(replacedIn(best)).toEqual(['U4'])
    expect(countsOf(best)).toEqual(['U2 0 to 3', 'U3 0 to 3', 'U4 1 to 3'])
  })
  test('and logged as far as that, is replaced all the same', () => {
    const log = ['U2', 'U3', 'U4'].map((ref) => ({ action: 'lift', refs: [ref], outcome: 'done' }))
    expect(replacedIn(unwrap(replan(withCount(1), log)).answer.best)).toEqual(['U4'])
    expect(replacedIn(unwrap(replan(withCount(0), log)).answer.best)).toEqual([])
  })
})

test('of two at two melts that melt each other, the first is used again and the other replaced', () => {
  // a new one costs 4 min and 15, new balls 12 min and 0.5 of paste: 6.5 more, whichever comes first
  const answer = planned(inARow({ U2: { heatCount: 2 }, U3: { heatCount: 2 } }, { U2: { U3: 220 }, U3: { U2: 220 } }))
  const { best } = answer
  const [first, second] = passesOf(answer).flatMap((pass) => (pass.startsWith('lift') ? [pass.slice(5)] : []))
  expect(replacedIn(best)).toEqual([second])
  expect(best.steps.find(({ action }) => action === 'reball')?.refs).toEqual([first])
})

describe('a neighbour that is not on the list', () => {
  const beside = inARow(
    { U2: { heatCount: 0 }, U3: { heatCount: 1 }, U4: { heatCount: 1 } },
    { U2: { U3: 217, U4: 216 } },
  )
  test('is molten at the lift and at the refit, where its joints melt at all', () => {
    expect(countsOf(planned(beside).best)).toEqual(['U2 0 to 3', 'U3 1 to 3'])
  })
  test('counts on from what the case knows', () => {
    expect(countsOf(planned({ ...beside, heatCounts: new Map([['U3', 4]]) }).best)).toEqual(['U2 0 to 3', 'U3 4 to 6'])
  })
  test('has a limit where it is a package, none where it is a chip part', () => {
    const model = plainBoard([
      { ref: 'U2', x: 30, heatCount: 0 },
      { ref: 'U3', x: 90, heatCount: 1 },
      { ref: 'C1', x: 150, heatCount: 1, kind: 'capacitor' },
    ])
    const { best } = planned({ ...beside, model, exposures: exposuresOf({ U2: { U3: 220, C1: 220 } }) })
    expect(best.heatCounts.map(({ ref, limit }) => [ref, limit])).toEqual([
      ['U2', 3],
      ['U3', 3],
      ['C1', undefined],
    ])
  })
})

describe('no pass melts', () => {
  const pair = inARow({ U2: { heatCount: 0 }, U3: { heatCount: 0 } }, { U2: { U3: 220 }, U3: {} })
  test('what is off for good', () => {
    const log = [
      { action: 'lift', refs: ['U3'], outcome: 'done' },
      { action: 'refit', refs: ['U3'], outcome: 'skipped' },
    ]
    expect(countsOf(unwrap(replan(pair, log)).answer.best)).toEqual(['U2 0 to 3'])
  })
  test('what is off at the time', () => {
    expect(countsOf(planned(pair).best)).toEqual(['U2 0 to 3', 'U3 0 to 3'])
  })
})

test('a part that was molten two hundred times is not used again', () => {
  const worn = inARow({ U2: { heatCount: 0 } }, { U2: {} })
  expect(replacedIn(planned({ ...worn, heatCounts: new Map([['U2', 200]]) }).best)).toEqual(['U2'])
})
