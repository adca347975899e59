/** What is told of the difference between two plans, all of it and in whole sentences. */
import { describe, expect, test } from 'vitest'
import { changesBetween, type PassEntry, type PlanAnswer, type PlanInput, replan } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const U2: PlainPart = { ref: 'U2', x: 50, heatCount: 0 }
const U3: PlainPart = { ref: 'U3', x: 150, heatCount: 0 }
const both = liftAll([U2, U3])
const told = (before: PlanInput, after: PlanInput): string[] => changesBetween(planned(before), planned(after))

describe('passes', () => {
  test('that are gone and that are new, each by name', () => {
    expect(told(liftAll([U2]), { ...both, lift: ['U3'] })).toEqual([
      'No longer in the plan: lift U2, refit U2.',
      'New in the plan: lift U3, refit U3.',
    ])
  })
  test('under one nozzle are others than those by themselves', () => {
    const groups = [{ refs: ['U2', 'U3'], exposure: exposureOn('U2', {}, 6) }]
    expect(told(both, { ...both, groups }).slice(0, 2)).toEqual([
      expect.stringMatching(/^No longer in the plan: (lift U2|lift U3), .*\.$/),
      'New in the plan: lift U2 and U3, refit U2 and U3.',
    ])
  })
  test('are missed where they failed or were left, not where they were done', () => {
    const lift = (refs: string[], outcome: 'done' | 'failed'): PassEntry => ({
      action: 'lift',
      refs,
      outcome,
      measured: [],
      found: [],
      replaced: false,
    })
    const rest = planned({ ...both, lift: ['U3'] })
    expect(changesBetween(planned(both), rest, [lift(['U2'], 'failed')])[0]).toBe(
      'No longer in the plan: lift U2, refit U2.',
    )
    expect(changesBetween(planned(both), rest, [lift(['U2'], 'done')])[0]).toBe('No longer in the plan: refit U2.')
  })
  test('in the same order are no news', () => {
    expect(told(both, both)).toEqual([])
  })
})

describe('what becomes of parts', () => {
  const bad = (...refs: string[]): PlanInput => ({ ...both, replace: new Set(refs) })
  const REPLACED = 'must now be replaced: at the heat limit.'
  test('one and two that are replaced', () => {
    expect(told(both, bad('U2'))).toContain(`U2 ${REPLACED}`)
    expect(told(both, bad('U2', 'U3')).filter((each) => each.includes('replaced'))).toEqual([`U2 and U3 ${REPLACED}`])
    expect(told(bad('U2'), bad('U2', 'U3')).filter((each) => each.includes('replaced'))).toEqual([`U3 ${REPLACED}`])
  })
  test('and that are spared', () => {
    expect(told(bad('U2', 'U3'), both).filter((each) => each.includes('again'))).toEqual([
      'U2 and U3 can now be used again.',
    ])
    // off the list is not used again
    expect(told(bad('U2', 'U3'), { ...both, lift: ['U2'] }).filter((each) => each.includes('again'))).toEqual([
      'U2 can now be used again.',
    ])
  })
})

describe('drying and baking', () => {
  const wet = (...refs: string[]): PlanAnswer => {
    const found = refs.map((ref) => ({ ref, what: ['wet'] }))
    return unwrap(replan(both, [{ action: 'lift', refs: ['U2'], outcome: 'done', found }])).answer
  }
  const dry = (before: PlanAnswer, after: PlanAnswer): string[] =>
    changesBetween(before, after).filter((each) => each.startsWith('Dry'))
  test('of other parts than before, with its hours', () => {
    expect(dry(planned(both), wet('U2'))).toEqual(['Dry U2 for 8 h before the next heat.'])
    expect(dry(wet('U2'), wet('U2', 'U3'))).toEqual(['Dry U2 and U3 for 8 h before the next heat.'])
    expect(dry(wet('U2'), wet('U2'))).toEqual([])
    expect(dry(wet('U2'), planned(both))).toEqual([])
  })
  // J-STD-033, bake tables of the user side: level 3, body to 1.4 mm: 33 h at 90 °C over by more, 23 h over by at most 72 h
  test('for another time than before', () => {
    const moist = liftAll([{ ...U2, moistureLevel: '3' }])
    const over = (by: 'over by more or unknown' | 'over by at most 72 h'): PlanInput => ({
      ...moist,
      floorLife: new Map([['U2', by]]),
    })
    const [more, less] = [over('over by more or unknown'), over('over by at most 72 h')]
    expect(told(more, less)).toEqual(['Bake 23 h before the next heat instead of 33 h.'])
    expect(told(moist, less)).toEqual(['Bake 23 h before the next heat instead of 0 h.'])
    expect(told(more, moist)).toEqual(['Nothing is to be baked any more.'])
    expect(told(more, more)).toEqual([])
  })
})

describe('melts at the end', () => {
  const beside = (kind: 'memory' | 'capacitor', count: number): PlanInput => ({
    ...liftAll([U2]),
    model: plainBoard([U2, { ref: 'X9', x: 250, kind }]),
    exposures: exposuresOf({ U2: { X9: 220 } }),
    heatCounts: new Map([['X9', count]]),
  })
  const melts = (before: PlanInput, after: PlanInput): string[] =>
    told(before, after).filter((each) => each.startsWith('X9'))
  test('within the limit, and beyond it', () => {
    expect(melts(beside('memory', 0), beside('memory', 1))).toEqual(['X9 ends with 3 melts, not 2 as planned.'])
    expect(melts(beside('memory', 1), beside('memory', 2))).toEqual([
      'X9 ends with 4 melts, not 3 as planned, beyond its limit of 3.',
    ])
    expect(melts(beside('memory', 1), beside('memory', 1))).toEqual([])
  })
  test('of a chip part, which has no limit', () => {
    expect(melts(beside('capacitor', 1), beside('capacitor', 4))).toEqual(['X9 ends with 6 melts, not 3 as planned.'])
  })
  test('once', () => {
    const replaced: PlanInput = { ...both, replace: new Set(['U2']) }
    expect(told(both, replaced)).toContain('U2 ends with 1 melt, not 3 as planned.')
  })
  test('of what is molten by one of them alone are no news', () => {
    expect(melts(liftAll([U2]), beside('memory', 2))).toEqual([])
  })
})

describe('chance and gain', () => {
  const withGain = (gain: number, chance = 0.5): PlanAnswer => {
    const answer = planned(both)
    const worth = { ...answer.worth, curesProbability: chance, successProbability: chance, expectedGain: gain }
    return { ...answer, worth }
  }
  test.each<[number, number, string[]]>([
    [5, 6, []],
    [5, 0, ['Going on no longer pays.']],
    [0, 5, ['Going on now pays.']],
    [0, -5, []],
    [-5, 5, ['Going on now pays.']],
  ])('from a gain of %d to %d', (before, after, words) => {
    expect(changesBetween(withGain(before), withGain(after))).toEqual(words)
  })
  test('a chance that moves is told, where it is that of the cure', () => {
    expect(changesBetween(withGain(5, 0.5), withGain(5, 0.4))).toEqual([
      'The chance of success goes from 50 % to 40 %.',
    ])
    const safer = withGain(5)
    expect(changesBetween(withGain(5), { ...safer, worth: { ...safer.worth, successProbability: 0.6 } })).toEqual([])
  })
})
