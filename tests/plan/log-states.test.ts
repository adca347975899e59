/** Where a job stands after a log: what is off, back, wet, torn; which side is up; what each entry counts; what does not fit. */
import { describe, expect, test } from 'vitest'
import { sayFault } from '../../src/base/index.ts'
import { type BenchTick, type PlanInput, replan } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, heatAt, plainBoard } from './plan-fixture.ts'

const refs = ['U2', 'U3', 'U4', 'U5']
const input: PlanInput = {
  model: plainBoard(refs.map((ref, i) => ({ ref, x: 40 + 80 * i, heatCount: 0, side: i === 2 ? 'bottom' : 'top' }))),
  lift: ['U2', 'U3', 'U4'],
  exposures: new Map([
    ...exposuresOf({ U2: { U3: 220, U4: 220, U5: 220 }, U3: {} }),
    ['U4', exposureOn('U4', {}, 5, 'bottom')],
  ]),
  successProbability: 1,
}
const pass = (action: 'lift' | 'refit', ref: string | string[], outcome = 'done', more: object = {}) => ({
  action,
  refs: [ref].flat(),
  outcome,
  ...more,
})
const found = (ref: string, ...what: string[]) => ({ found: [{ ref, what }] })
const after = (log: readonly object[], from = input, ticks: readonly BenchTick[] = []): PlanInput =>
  unwrap(replan(from, log, ticks)).input
const countsAfter = (log: readonly object[], from = input): Record<string, number> =>
  Object.fromEntries(after(log, from).heatCounts ?? [])
const refusedOf = (log: unknown, from = input): string[] => {
  const answer = replan(from, log)
  return answer.ok ? [] : answer.faults.map(sayFault)
}

describe('an entry that does not fit is refused', () => {
  const ON = 'expected a part that is still on. Correct the order of the log.'
  const OFF = 'expected a part that is off. Correct the order of the log.'
  test.each<[string, readonly object[], string]>([
    ['a refit of what is on', [pass('refit', 'U2')], `$.log[0].refs: found U2, which is still on, ${OFF}`],
    [
      'a lift of what is off',
      [pass('lift', 'U2'), pass('lift', ['U3', 'U2'])],
      `$.log[1].refs: found U2, which is off already, ${ON}`,
    ],
    [
      'a refit of what is back',
      [pass('lift', 'U2'), pass('refit', 'U2'), pass('refit', 'U2')],
      `$.log[2].refs: found U2, which is refitted already, ${OFF}`,
    ],
    [
      'a lift of what is back',
      [pass('lift', 'U2'), pass('refit', 'U2'), pass('lift', 'U2')],
      `$.log[2].refs: found U2, which is refitted already, ${ON}`,
    ],
    [
      'of what was skipped',
      [pass('lift', 'U2', 'skipped'), pass('lift', 'U2')],
      '$.log[1].refs: found U2, expected a part that is on the lift list and was not skipped.',
    ],
    [
      'all of the list skipped',
      ['U2', 'U3', 'U4'].map((ref) => pass('lift', ref, 'skipped')),
      '$.log: found every part of the list skipped, expected at least one part that is still to be lifted or refitted. There is nothing left to plan; put a part on the lift list to go on.',
    ],
  ])('%s', (_, log, message) => {
    expect(refusedOf(log)).toEqual([message])
  })
  test('each with its own fault, and nothing follows from it', () => {
    expect(
      refusedOf([pass('refit', 'U2'), pass('refit', 'U2'), pass('lift', 'U9')]).map((each) => each.slice(0, 12)),
    ).toEqual(['$.log[0].ref', '$.log[1].ref', '$.log[2].ref'])
  })
  test('as is a log that is none, and a question that is none', () => {
    expect(refusedOf('all done')[0]).toMatch(/^\$\.log: found "all done", expected /)
    expect(refusedOf([], { ...input, settings: { pace: { core: -1 } } })[0]).toMatch(/^\$\.settings\.pace\.core: /)
    expect(refusedOf([pass('lift', 'U2')], { ...input, lift: [] })[0]).toMatch(/^\$\.lift: found an empty list/)
  })
})

describe('where the job stands', () => {
  test('off, back, off for good, and off the list', () => {
    const { begun, lift } = after([
      pass('lift', 'U2'),
      pass('lift', 'U3'),
      pass('refit', 'U3'),
      pass('refit', 'U2', 'skipped'),
    ])
    expect([begun?.lifted, begun?.refitted, begun?.leftOff, begun?.cleaned]).toEqual([
      new Set(),
      new Set(['U3']),
      new Set(['U2']),
      new Set(['U3']),
    ])
    expect(lift).toEqual(['U3', 'U4'])
  })
  test('what was left on is not off for good', () => {
    const { begun, lift } = after([pass('lift', 'U2', 'skipped')])
    expect([begun?.leftOff.size, lift]).toEqual([0, ['U3', 'U4']])
  })
  test.each<[string, readonly object[], 'top' | 'bottom' | undefined]>([
    ['none before a heat', [pass('lift', 'U2', 'skipped')], undefined],
    ['that of the last heat', [pass('lift', 'U2'), pass('lift', 'U4')], 'bottom'],
    ['though it failed', [pass('lift', 'U4'), pass('lift', 'U2', 'failed')], 'top'],
    ['that of the one before where nothing is known of it', [pass('lift', 'U4'), pass('lift', ['U2', 'U3'])], 'bottom'],
  ])('which side is up: %s', (_, log, side) => {
    expect(after(log).begun?.side).toBe(side)
  })
  test('what lay under parts, each for itself', () => {
    const { begun } = after([
      pass('lift', 'U2', 'done', found('U2', 'corroded', 'metal')),
      pass('lift', 'U3', 'done', found('U3', 'torn-pad', 'wet')),
    ])
    expect(begun).toMatchObject({
      corroded: new Set(['U2']),
      metal: new Set(['U2']),
      wet: new Set(['U3']),
      tornPads: ['U3'],
    })
  })
  test('wet until the next heat, which a skipped pass is not', () => {
    const wet = pass('lift', 'U2', 'done', found('U2', 'wet'))
    expect(after([wet, pass('lift', 'U3', 'skipped')]).begun?.wet).toEqual(new Set(['U2']))
    expect(after([wet, pass('lift', 'U3', 'failed')]).begun?.wet).toEqual(new Set())
    expect(after([wet, pass('lift', 'U3')]).begun?.wet).toEqual(new Set())
  })
  test('wet under one of two is wet, though the card was dried before', () => {
    const two = pass('lift', ['U2', 'U3'], 'done', {
      found: [
        { ref: 'U2', what: ['clean'] },
        { ref: 'U3', what: ['wet'] },
      ],
    })
    const dried = (afterPasses: number): BenchTick => ({
      action: 'dry',
      refs: ['U2'],
      outcome: 'done',
      minutes: 10,
      afterPasses,
    })
    expect(after([two], input, [dried(0)]).begun?.wet).toEqual(new Set(['U3']))
    expect(after([two], input, [dried(1)]).begun?.wet).toEqual(new Set())
  })
  test('torn pads that were noted ball by ball, where the log says nothing too', () => {
    const noted = { ...input, tornBalls: new Map([['U3', 2]]) }
    expect(after([pass('lift', 'U2', 'done', found('U2', 'torn-pad'))], noted).begun?.tornPads).toEqual([
      'U2',
      'U3',
      'U3',
    ])
  })
  test('and bench work that was ticked, by part', () => {
    const clean: BenchTick = { action: 'clean', refs: ['U2', 'U3'], outcome: 'done', minutes: 8, afterPasses: 2 }
    const { begun } = after([pass('lift', 'U2'), pass('lift', 'U3')], input, [clean, { ...clean, action: 'reball' }])
    expect(begun?.cleaned).toEqual(new Set(['U2', 'U3']))
    expect(begun?.ticked).toEqual(new Set(['clean U2', 'clean U3', 'reball U2', 'reball U3']))
  })
  test.each<[string, readonly object[], readonly object[]]>([
    [
      'off',
      [pass('lift', 'U2', 'done', found('U2', 'corroded', 'metal', 'torn-pad'))],
      [pass('lift', 'U3'), pass('refit', 'U2')],
    ],
    ['back', [pass('lift', 'U2'), pass('refit', 'U2')], [pass('lift', 'U3')]],
    ['off for good', [pass('lift', 'U2'), pass('refit', 'U2', 'skipped')], [pass('lift', 'U3', 'failed')]],
    ['wet', [pass('lift', 'U2', 'done', found('U2', 'wet'))], [pass('lift', 'U3', 'skipped')]],
    ['turned', [pass('lift', 'U4')], [pass('lift', 'U3', 'skipped')]],
  ])('%s in one log is the same as in one that goes on from another', (_, first, second) => {
    expect(after(second, after(first))).toEqual(after([...first, ...second]))
  })
})

describe('an entry counts as molten', () => {
  test('its own part, and what the model melts beside it and is on', () => {
    expect(countsAfter([pass('lift', 'U2')])).toEqual({ U2: 1, U3: 1, U4: 1, U5: 1 })
    expect(countsAfter([pass('lift', 'U3'), pass('lift', 'U2')])).toEqual({ U2: 1, U3: 1, U4: 1, U5: 1 })
    expect(countsAfter([pass('lift', 'U3'), pass('refit', 'U3', 'skipped'), pass('lift', 'U2')])).toEqual({
      U2: 1,
      U3: 1,
      U4: 1,
      U5: 1,
    })
  })
  test('what was put back since, though not while it was off: lift, then balls, refit and this', () => {
    expect(countsAfter([pass('lift', 'U3'), pass('refit', 'U3'), pass('lift', 'U2')])['U3']).toBe(1 + 2 + 1)
  })
  test('what stood beside a pass that failed', () => {
    expect(countsAfter([pass('lift', 'U2', 'failed')])).toEqual({ U2: 1, U3: 1, U4: 1, U5: 1 })
    expect(countsAfter([pass('lift', 'U2', 'failed', { peakC: 150 })])).toEqual({ U3: 1, U4: 1, U5: 1 })
  })
  test('nothing where it was skipped', () => {
    expect(countsAfter([pass('lift', 'U2', 'skipped')])).toEqual({})
  })
  test('what was measured in place of what was modelled, and no ref that the board has not', () => {
    const measured = [
      { ref: 'U3', peakC: 100 },
      { ref: 'U9', peakC: 300 },
    ]
    expect(countsAfter([pass('lift', 'U2', 'done', { measured })])).toEqual({ U2: 1, U4: 1, U5: 1 })
  })
  test('never its own part twice', () => {
    expect(countsAfter([pass('lift', 'U3', 'done', { measured: [{ ref: 'U3', peakC: 240 }] })])).toEqual({ U3: 1 })
  })
  test('at a refit what the refit’s own heat melts', () => {
    const lifting = exposureOn('U3', { U5: 220 })
    const refit = { setting: lifting.setting, minutes: 5, neighbours: [heatAt('U4', 220)], short: undefined }
    const own = { ...input, exposures: new Map([...input.exposures, ['U3', { ...lifting, refit }]]) }
    expect(countsAfter([pass('lift', 'U3')], own)).toEqual({ U3: 1, U5: 1 })
    expect(countsAfter([pass('lift', 'U3'), pass('refit', 'U3')], own)).toEqual({ U3: 3, U4: 1, U5: 1 })
  })
  test('under one nozzle what their common heat melts; nothing where it is none that was solved', () => {
    const groups = [
      { refs: ['U2', 'U3', 'U5'], exposure: exposureOn('U2', { U4: 220, U5: 220 }) },
      { refs: ['U3', 'U2'], exposure: exposureOn('U2', { U5: 220 }) },
    ]
    expect(countsAfter([pass('lift', ['U2', 'U3'])], { ...input, groups })).toEqual({ U2: 1, U3: 1, U5: 1 })
    expect(countsAfter([pass('lift', ['U2', 'U4'])], { ...input, groups })).toEqual({ U2: 1, U4: 1 })
  })
})
