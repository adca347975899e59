/** Bench work that is ticked off leaves the plan, comes back where it has to be done again, and moves no pass. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import {
  type BenchTick,
  benchTickSchema,
  type Plan,
  type PlanInput,
  replan,
  stepActions,
} from '../../src/plan/index.ts'
import { substanceOf } from '../support/board-fixture.ts'
import { exposuresOf, passesOf, plainBoard, planned } from './plan-fixture.ts'

const input: PlanInput = {
  model: plainBoard([
    { ref: 'U2', x: 30, heatCount: 1, package: '180-ball' },
    { ref: 'U3', x: 60, heatCount: 1, package: '180-ball' },
  ]),
  lift: ['U2', 'U3'],
  exposures: exposuresOf({ U2: { U3: 150 }, U3: { U2: 150 } }),
  successProbability: 0.8,
  substances: [substanceOf('coolant-eg')],
  cleanFirst: [substanceOf('coolant-eg')],
}

function after(log: unknown, ticks: readonly BenchTick[]): Plan {
  const answer = replan(input, log, ticks)
  if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
  return answer.value.answer.best
}

const tick = (action: BenchTick['action'], afterPasses = 0, refs = ['U2', 'U3']): BenchTick => ({
  action,
  refs,
  outcome: 'done',
  minutes: 10,
  afterPasses,
})
const done = (action: 'lift' | 'refit', ref: string, more: object = {}) => ({
  action,
  refs: [ref],
  outcome: 'done',
  ...more,
})
const actions = (plan: Plan): string[] => plan.steps.map(({ action }) => action)
const lifts = [done('lift', 'U2'), done('lift', 'U3')]

describe('work that was ticked off', () => {
  test('before the first heat is gone from the plan with its minutes; the passes stay', () => {
    const whole = planned(input).best
    expect(actions(whole).slice(0, 4)).toEqual(['wash', 'dry', 'test', 'prepare'])
    const rest = after([], [tick('wash'), tick('dry'), tick('test'), tick('prepare')])
    expect(actions(rest)).toEqual(actions(whole).slice(4))
    const gone = whole.steps.slice(0, 4).reduce((sum, { minutes }) => sum + minutes, 0)
    expect(rest.minutes).toBeCloseTo(whole.minutes - gone, 6)
  })
  test('and washed and dried, the card is tested again before any lift', () => {
    const { steps } = planned(input).best
    const at = steps.findIndex(({ action }) => action === 'test')
    expect(steps[at - 1]?.action).toBe('dry')
    expect(steps.findIndex(({ action }) => action === 'lift')).toBeGreaterThan(at)
    expect(steps[at]?.why).toMatch(/Measure the rails cold.*\n2\. Run the memory test .*\n.*what passes stays on/)
    expect(steps[at]?.cautions.join(' ')).toMatch(/before it is dry and every rail was measured cold/)
  })
  test('one by one leaves what was not done yet', () => {
    expect(actions(after([], [tick('wash')])).slice(0, 3)).toEqual(['dry', 'test', 'prepare'])
  })
  test('between lift and refit too: the site is clean, then the balls are on', () => {
    expect(actions(after(lifts, []))).toEqual(expect.arrayContaining(['clean', 'reball']))
    const clean = after(lifts, [tick('clean', 2)])
    expect(actions(clean)).not.toContain('clean')
    expect(actions(clean)).toContain('reball')
    expect(actions(after(lifts, [tick('clean', 2), tick('reball', 2)]))).toEqual(['refit', 'refit', 'inspect'])
  })
  test('for one part is still to be done for the other', () => {
    const rest = after(lifts, [tick('clean', 2, ['U2'])])
    expect(rest.steps.find(({ action }) => action === 'clean')?.refs).toEqual(['U3'])
  })
  test('as left out is gone as well', () => {
    expect(actions(after([], [{ ...tick('wash'), outcome: 'skipped' }]))).not.toContain('wash')
  })
})

test('what was found wet after it was dried is dried again, until that is ticked', () => {
  const wet = [done('lift', 'U2', { found: [{ ref: 'U2', what: ['wet'] }] })]
  expect(actions(after(wet, [tick('dry', 0)]))).toContain('dry')
  expect(actions(after(wet, [tick('dry', 0), tick('dry', 1)]))).not.toContain('dry')
})

/** What stands under a part boils and bursts joints at the next heat, until an oven was at it: common practice, no source. */
describe('wet under a part that would not come off', () => {
  const cleanCard: PlanInput = { ...input, substances: [], cleanFirst: [] }
  const failed = { action: 'lift', refs: ['U2'], outcome: 'failed', peakC: 20, found: [{ ref: 'U2', what: ['wet'] }] }
  const told = (...ticks: readonly BenchTick[]) => {
    const answer = replan(cleanCard, [failed], ticks)
    if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
    const { steps } = answer.value.answer.best
    const lift = steps.find(({ action, refs }) => action === 'lift' && refs.includes('U2'))
    return {
      isToBeDried: steps.some(({ action }) => action === 'dry'),
      warns: /boils/.test(`${lift?.cautions.join()}`),
    }
  }
  test.each<[string, readonly BenchTick[], ReturnType<typeof told>]>([
    ['is to be dried, and its lift warns', [], { isToBeDried: true, warns: true }],
    ['and dried is dry', [tick('dry', 1)], { isToBeDried: false, warns: false }],
    ['and baked is dry, for a bake dries as well', [tick('bake', 1, ['U3'])], { isToBeDried: false, warns: false }],
    [
      'and not baked after all is as wet as before',
      [{ ...tick('bake', 1, ['U3']), outcome: 'skipped' }],
      { isToBeDried: true, warns: true },
    ],
    [
      'and left wet on purpose is asked for no more, but its lift warns',
      [{ ...tick('dry', 1), outcome: 'skipped' }],
      { isToBeDried: false, warns: true },
    ],
    ['is not dried by what was prepared since', [tick('prepare', 1)], { isToBeDried: true, warns: true }],
  ])('%s', (_, ticks, expected) => {
    expect(told(...ticks)).toEqual(expected)
  })
})

test('a card that was heated is not washed any more, whichever parts are off, back or left off', () => {
  const three: PlanInput = {
    ...input,
    model: plainBoard(['U2', 'U3', 'U4'].map((ref, i) => ({ ref, x: 30 + 30 * i, heatCount: 1 }))),
    lift: ['U2', 'U3', 'U4'],
    exposures: exposuresOf({ U2: {}, U3: {}, U4: {} }),
  }
  const skipped = (ref: string) => ({ action: 'refit', refs: [ref], outcome: 'skipped' })
  const off = [done('lift', 'U2'), done('lift', 'U3')]
  for (const log of [
    off.slice(1),
    [...off, done('refit', 'U2')],
    [...off, skipped('U2')],
    [...off, done('refit', 'U2'), skipped('U3')],
  ]) {
    const answer = replan(three, log)
    expect(answer.ok && actions(answer.value.answer.best)).toContain('lift')
    expect(answer.ok && actions(answer.value.answer.best)).not.toContain('wash')
    expect(answer.ok && actions(answer.value.answer.best)).not.toContain('prepare')
  }
})

test('every step beside the passes can be ticked off, as it is named', () => {
  for (const action of stepActions) {
    const isPass = action === 'lift' || action === 'refit'
    expect([action, benchTickSchema.safeParse({ ...tick('wash'), action }).success]).toEqual([action, !isPass])
  }
})

test('no tick moves a pass', () => {
  const order = passesOf(planned(input))
  for (const action of ['wash', 'dry', 'test', 'prepare', 'clean', 'reball', 'inspect'] as const) {
    const answer = replan(input, [], [tick(action)])
    if (!answer.ok) throw new Error(answer.faults.map(sayFault).join('\n'))
    expect(passesOf(answer.value.answer)).toEqual(order)
  }
})

describe('metal', () => {
  const both = [substanceOf('coolant-eg'), substanceOf('gallium-indium')]
  const spilled: PlanInput = { ...input, substances: both, cleanFirst: both }

  test('that may lie on the board is taken up before anything else, and not with heat or alcohol alone', () => {
    // Ethanol helps as a mechanical eraser only: Ma, Zhou and Liu, arXiv 1706.01457 (2017), abstract.
    const [first] = planned(spilled).best.steps
    expect(first?.action).toBe('take-up')
    expect(first?.why).toContain('dry swabs')
    const answer = replan(spilled, [], [tick('take-up')])
    expect(answer.ok && answer.value.answer.best.steps[0]?.action).toBe('wash')
  })
  test('that was found under a part is taken up when its site is cleaned, with its minutes and without an oven', () => {
    const found = [done('lift', 'U2', { found: [{ ref: 'U2', what: ['metal'] }] }), done('lift', 'U3')]
    const plan = after(found, [])
    const plain = after([done('lift', 'U2'), done('lift', 'U3')], [])
    const cleanOf = ({ steps }: Plan) => steps.find(({ action }) => action === 'clean')
    expect(cleanOf(plan)?.why).toMatch(/wiping\.\nTake up the metal under U2 with dry swabs, then wick/)
    expect((cleanOf(plan)?.minutes ?? 0) - (cleanOf(plain)?.minutes ?? 0)).toBe(20)
    expect(actions(plan)).not.toContain('dry')
    expect(plan.steps.find(({ action }) => action === 'reball')?.why).toMatch(/Wick every old ball off U2 first/)
  })
})
