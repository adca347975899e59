/** Why a pass stands where it does: the strongest reason that holds, as a whole sentence, for one part and for several. */
import { describe, expect, test } from 'vitest'
import { type PlanInput, replan } from '../../src/plan/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, plainBoard, planned } from './plan-fixture.ts'

type Heats = Readonly<Record<string, Readonly<Record<string, number>>>>

/** Parts in a row, far apart, each at no melts, and what a pass on each does to the others. */
function inARow(jointC: Heats, more: Partial<PlanInput> = {}): PlanInput {
  const lift = Object.keys(jointC)
  return {
    model: plainBoard(lift.map((ref, i) => ({ ref, x: 40 + 60 * i, heatCount: 0 }))),
    lift,
    exposures: exposuresOf(jointC),
    successProbability: 1,
    ...more,
  }
}
/** Two under one nozzle, which saves as much as a heating; beside a third. */
const paired = (jointC: Readonly<Record<string, number>>, third: Readonly<Record<string, number>>): PlanInput =>
  inARow({ U2: {}, U3: {}, U4: third }, { groups: [{ refs: ['U2', 'U3'], exposure: exposureOn('U2', jointC, 5) }] })
const whys = (input: PlanInput): Record<string, string> =>
  Object.fromEntries(planned(input).best.steps.map((step) => [`${step.action} ${step.refs.join(' ')}`, step.why]))
const SHARED = 'U2 and U3 share one nozzle, which saves a heating.'

describe('a pass that would melt what is off', () => {
  test('several', () => {
    const told = whys(inARow({ U2: { U3: 230, U4: 230 }, U3: {}, U4: {} }))
    expect(told['lift U2']).toBe('Now, while U3 and U4 are off: this pass would melt their joints.')
    expect(told['refit U2']).toBe('Now, while U3 and U4 are off: this pass would melt their joints.')
  })
  test('by two under one nozzle', () => {
    const told = whys(paired({ U4: 230 }, {}))
    expect(told['lift U2 U3']).toBe(`Now, while U4 is off: this pass would melt its joints. ${SHARED}`)
  })
})

describe('what a later pass would melt comes off first', () => {
  test('by several', () => {
    const told = whys(inARow({ U2: { U4: 230 }, U3: { U4: 230 }, U4: {} }))
    expect(told['lift U4']).toBe('Do U4 first: heating U2 and U3 would melt it.')
  })
  test('two under one nozzle', () => {
    const told = whys(paired({}, { U2: 230, U3: 230 }))
    expect(told['lift U2 U3']).toBe(`Do U2 and U3 first: heating U4 would melt them. ${SHARED}`)
    expect(told['refit U4']).toBe('Now, while U2 and U3 are off: this pass would melt their joints.')
    // that it would melt what is on already is no reason for the place of its own refit
    expect(told['refit U2 U3']).toBe(SHARED)
  })
  test('unless that stays where it is: what is off already is no threat', () => {
    const log = [{ action: 'lift', refs: ['U2'], outcome: 'done' }]
    const { steps } = unwrap(replan(inARow({ U2: {}, U3: { U2: 100 } }), log)).answer.best
    expect(steps.find(({ action }) => action === 'lift')?.why).toBe(
      'Any place among the lifts costs the same: heating it hardly disturbs the others.',
    )
  })
})

describe('heat that does not melt', () => {
  // from 195 °C on joints of SAC305 may crack (Ismail et al., Scientific Reports 12, 15118, 2022)
  test('spares several that are off', () => {
    const told = whys(inARow({ U2: { U3: 205, U4: 205 }, U3: {}, U4: {} }))
    expect(told['lift U2']).toBe('Now, while U3 and U4 are off and take no heat from this pass.')
  })
  test('by two under one nozzle', () => {
    expect(whys(paired({ U4: 205 }, {}))['lift U2 U3']).toBe(
      `Now, while U4 is off and takes no heat from this pass. ${SHARED}`,
    )
  })
})

test('two under one nozzle whose sites a third stood too near', () => {
  const model = plainBoard([
    { ref: 'U2', x: 40, heatCount: 0 },
    { ref: 'U3', x: 60, heatCount: 0 },
    { ref: 'U4', x: 72, heatCount: 0 },
  ])
  expect(whys({ ...paired({}, {}), model })['refit U2 U3']).toBe(
    `Only now: U4 had to be off before this site could be cleaned. ${SHARED}`,
  )
})

describe('the other way', () => {
  test('of two alike is another part first, named with all that share its nozzle', () => {
    // bodies 2 mm apart: both come off before either goes back
    const near = plainBoard([
      { ref: 'U2', x: 40, heatCount: 0 },
      { ref: 'U3', x: 52, heatCount: 0 },
    ])
    const { alternative } = planned(inARow({ U2: {}, U3: {} }, { model: near }))
    expect(alternative?.differsIn).toMatch(/^another part first instead of U[23]$/)
  })
  test('there is none for a single part', () => {
    expect(planned(inARow({ U2: {} })).alternative).toBeUndefined()
  })
  test('nor where all is back on', () => {
    const log = (['lift', 'refit'] as const).map((action) => ({ action, refs: ['U2'], outcome: 'done' }))
    expect(unwrap(replan(inARow({ U2: {} }), log)).answer.alternative).toBeUndefined()
  })
})

describe('a group under one nozzle is passed over', () => {
  const cheap = exposureOn('U2', {}, 0)
  test.each<[string, readonly string[]]>([
    ['of a part and one that is not on the list', ['U2', 'U9']],
    ['of one part alone', ['U2']],
  ])('%s', (_, refs) => {
    const input = inARow({ U2: {}, U3: {} })
    expect(planned({ ...input, groups: [{ refs, exposure: cheap }] })).toEqual(planned(input))
  })
})
