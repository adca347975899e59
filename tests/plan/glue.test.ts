/** Glue at corners and rim, and underfill: a step of its own before the lift, minutes by kind, pads that may tear with it. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import {
  type BenchTick,
  defaultShopSettings,
  gluedYet,
  type PlanInput,
  replan,
  stepTitle,
} from '../../src/plan/index.ts'
import { exposuresOf, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

type Bonding = NonNullable<PlainPart['bonding']>
const inputWith = (bonding: Bonding): PlanInput => ({
  model: plainBoard([
    { ref: 'U2', x: 30, heatCount: 1, package: '180-ball' },
    { ref: 'U3', x: 60, heatCount: 1, package: '180-ball', bonding },
  ]),
  lift: ['U2', 'U3'],
  exposures: exposuresOf({ U2: { U3: 150 }, U3: { U2: 150 } }),
  successProbability: 0.8,
  settings: { exposure: { meltRisk: 0, nearRisk: 0, overLimitRisk: 0 } },
})
const titles = (input: PlanInput): string[] => planned(input).best.steps.map(stepTitle)
const unglued: BenchTick = { action: 'unglue', refs: ['U3'], outcome: 'done', minutes: 12, afterPasses: 0 }

describe('a glued part', () => {
  test.each(['corner', 'edge', 'underfill'] as const)('%s: its glue is broken right before its lift', (bonding) => {
    const order = titles(inputWith(bonding))
    const at = order.indexOf('Break the glue of U3')
    expect(order[at + 1]).toBe('Lift U3')
    expect(order.filter((title) => title.startsWith('Break'))).toEqual(['Break the glue of U3'])
  })

  test('without glue there is no such step', () => {
    expect(titles(inputWith('none')).some((title) => title.startsWith('Break'))).toBe(false)
  })

  test.each([
    ['corner', 6],
    ['edge', 12],
    ['underfill', 25],
  ] as const)('%s takes %i minutes more, all of them in that step', (bonding, minutes) => {
    const [bare, glued] = [planned(inputWith('none')).best, planned(inputWith(bonding)).best]
    expect(glued.minutes - bare.minutes).toBeCloseTo(minutes, 9)
    expect(glued.steps.find(({ action }) => action === 'unglue')?.minutes).toBeCloseTo(minutes, 9)
  })

  test.each([
    // 0.8 · (1 − chance · (1 − 0.85)): a torn pad leaves 0.85 of the chance of success
    ['corner', 0.8 * (1 - 0.05 * 0.15)],
    ['edge', 0.8 * (1 - 0.1 * 0.15)],
    ['underfill', 0.8 * (1 - 0.3 * 0.15)],
  ] as const)('%s leaves so much of the chance of success', (bonding, chance) => {
    expect(planned(inputWith(bonding)).worth.curesProbability).toBeCloseTo(chance, 9)
  })

  test('says that a pad may tear, with its chance, and that the figure has no source', () => {
    expect(planned(inputWith('underfill')).notes.join(' ')).toMatch(/U3 is glued: a pad comes off .* 30 % \(stated/)
    expect(planned(inputWith('none')).notes.join(' ')).not.toContain('glued')
  })

  test('is warmed to 150 °C, under the melting point of SAC305 (217 °C), and underfill parts only at the lift', () => {
    const why = (bonding: Bonding): string =>
      planned(inputWith(bonding)).best.steps.find(({ action }) => action === 'unglue')?.why ?? ''
    expect(defaultShopSettings.rules.glueSoftC).toBeLessThan(217)
    expect(why('edge')).toContain('150 °C')
    expect(why('edge')).toContain('No lift before nothing bridges part and board.')
    expect(why('underfill')).toContain('it parts only at the lift')
  })

  test('warns of vapour and of the blade where the glue is broken', () => {
    const step = planned(inputWith('edge')).best.steps.find(({ action }) => action === 'unglue')
    expect(step?.cautions.join(' ')).toMatch(/vapour.*blades and picks slip/s)
  })
})

describe('glue that was broken', () => {
  test('leaves the plan with its minutes', () => {
    const before = planned(inputWith('edge')).best
    const answer = replan(inputWith('edge'), [], [unglued])
    if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
    const { best } = answer.value.answer
    expect(best.steps.some(({ action }) => action === 'unglue')).toBe(false)
    expect(before.minutes - best.minutes).toBeCloseTo(12, 9)
  })

  test('is what lets a part be lifted: skipped, it holds as before', () => {
    const u3 = inputWith('edge').model.parts.filter(({ ref }) => ref === 'U3')
    expect(gluedYet(u3, [])).toEqual(['U3'])
    expect(gluedYet(u3, [{ ...unglued, outcome: 'skipped' }])).toEqual(['U3'])
    expect(gluedYet(u3, [unglued])).toEqual([])
  })
})
