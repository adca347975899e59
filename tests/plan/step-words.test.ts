/** The words of single steps, whole: prepare, break glue, reball, inspect, dry what was found wet, bake, and why nothing is baked. The work is common practice, no source, unless a source is named. */
import { describe, expect, test } from 'vitest'
import { type BenchTick, type PlanInput, replan, type StepAction } from '../../src/plan/index.ts'
import { substanceOf, unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const whyOf = (input: PlanInput, action: StepAction, log: readonly object[] = []): string | undefined =>
  unwrap(replan(input, log)).answer.best.steps.find((step) => step.action === action)?.why
const U2: PlainPart = { ref: 'U2', x: 50, heatCount: 0, package: '180-ball' }
const U3: PlainPart = { ref: 'U3', x: 63, heatCount: 0 }

describe('before the first heat', () => {
  const LAST =
    '3. Lay out the materials listed, run flux around each part, fix the board, place a thermocouple at a joint.\nTouch nothing underneath while it is hot.'
  const FIRST = '1. Photograph each part with its pin 1; look for glue at its corners and underfill.'
  const shielded = (...refs: string[]): PlanInput => {
    const exposure = exposureOn('U2', {})
    const setting = { ...exposure.setting, shields: refs.map((ref) => ({ ref, kind: 'tape' as const })) }
    return liftAll([U2], { exposures: new Map([['U2', { ...exposure, setting }]]) })
  }
  test('tape and foil', () => {
    expect(whyOf(liftAll([U2]), 'prepare')).toBe(
      `${FIRST}\n2. Cover what stands inside and beside the nozzle with polyimide tape, and aluminium foil where the air blows.\n${LAST}`,
    )
  })
  test('and over what is to be covered, each once and by number', () => {
    expect(whyOf(shielded('U10', 'U4', 'U10'), 'prepare')).toBe(
      `${FIRST}\n2. Cover what stands inside and beside the nozzle with polyimide tape, and aluminium foil where the air blows, cover U4 and U10.\n${LAST}`,
    )
  })
  test('no foil where gallium lay, which eats aluminium', () => {
    expect(whyOf(liftAll([U2], { substances: [substanceOf('gallium-indium')] }), 'prepare')).toBe(
      `${FIRST}\n2. Cover what stands inside and beside the nozzle with polyimide tape, two layers where the air blows: no aluminium foil on this card.\n${LAST}`,
    )
  })
})

describe('the step that breaks glue', () => {
  const HOW =
    'pulled, it tears pads out. Warm the board to about 150 °C, under every joint’s melting point, and pick the soft glue away from the rim in small bites, flat to the mask.'
  const UNDER =
    'What lies under the part stays: it parts only at the lift, by a thin blade from a corner once every joint is liquid.'
  test.each([
    ['corner', `U2 is glued at the corners: ${HOW} No lift before nothing bridges part and board.`],
    ['edge', `U2 is bonded all around: ${HOW} No lift before nothing bridges part and board.`],
    ['underfill', `U2 is underfilled: ${HOW} ${UNDER}`],
  ] as const)('%s', (bonding, words) => {
    expect(whyOf(liftAll([{ ...U2, bonding }]), 'unglue')).toBe(words)
  })
  test('of two under one nozzle is one step, by number, without what is broken already', () => {
    const glued = liftAll(
      [
        { ...U2, ref: 'U10', bonding: 'corner' },
        { ...U3, ref: 'U4', bonding: 'edge' },
      ],
      { groups: [{ refs: ['U4', 'U10'], exposure: exposureOn('U4', {}, 5) }] },
    )
    const step = planned(glued).best.steps.find(({ action }) => action === 'unglue')
    // 6 min at the corners, 12 all around
    expect(step).toMatchObject({ refs: ['U4', 'U10'], minutes: 18 })
    expect(step?.why).toBe(
      `U4 is bonded all around and U10 is glued at the corners: ${HOW} No lift before nothing bridges part and board.`,
    )
    const tick: BenchTick = { action: 'unglue', refs: ['U4'], outcome: 'done', minutes: 12, afterPasses: 0 }
    const { steps } = unwrap(replan(glued, [], [tick])).answer.best
    expect(steps.find(({ action }) => action === 'unglue')).toMatchObject({ refs: ['U10'], minutes: 6 })
  })
})

describe('the step that sets new balls', () => {
  // 12 min by itself: 4 to wick, 2 to look, 3 to melt, 3 to wash; SAC305, molten from 217 °C: firm 30 K below it, balls at 230 to 250 °C
  test('of a part without a known grid', () => {
    expect(
      whyOf(liftAll([{ ...U3, jointAlloy: 'SAC305' }]), 'reball')
        ?.split('\n')
        .slice(1),
    ).toEqual([
      '1. Wick the old balls off over a warm plate, level, and clean the pads with solvent (4 min).',
      '2. Look at every pad under the microscope: one that is lifted or bare means a new part (2 min).',
      '3. A film of tacky flux, stencil and balls of the size that came off, SAC305 (0 min).',
      '4. Melt them with soft air on a warm plate, balls at 230 to 250 °C, until each is round and bright; not moved above 180 °C (3 min).',
      '5. Wash the flux off, blow dry, and look for balls that are missing, low or bridged (3 min).',
    ])
  })
  // both: 24 min and 2 min each hundred of 180 balls: 8, 4, 3.6, 6, 6; running 8, 12, 15.6, 21.6, 27.6 make 8, 4, 4, 6, 6
  test('of two names the balls of each, with minutes for both', () => {
    const lines = whyOf(liftAll([U2, U3]), 'reball')
      ?.split('\n')
      .slice(1)
    expect(lines?.map((line) => /\((\d+) min\)\.$/.exec(line)?.[1])).toEqual(['8', '4', '4', '6', '6'])
    expect(lines?.[2]).toBe(
      '3. A film of tacky flux, stencil of 0.75 mm pitch, 180 balls of 0.45 mm, SAC305 (taken for granted; the board file gives none) and stencil and balls of the size that came off, SAC305 (taken for granted; the board file gives none) (4 min).',
    )
  })
})

describe('the last step', () => {
  const START =
    '1. Wash off the flux and dry the board.\n2. Before power: look at each new joint from the side, and measure the rails of these parts cold.\n3. First power: bench supply, its limit low, watch for heat.\n'
  const RUN = 'In the test machine: read every rail, run the test, warm and from cold.'
  test('of a dry card', () => {
    expect(whyOf(liftAll([U2]), 'inspect')).toBe(`${START}4. ${RUN}`)
  })
  test('looks at the cooler where nothing was dried', () => {
    const why = whyOf(liftAll([U2], { substances: [substanceOf('gallium-indium')] }), 'inspect')
    expect(why?.startsWith(`${START}4. Before the cooler goes back on: `)).toBe(true)
    expect(why?.endsWith(`.\n5. ${RUN}`)).toBe(true)
  })
})

describe('what was found wet', () => {
  const found = (...refs: string[]) => [
    { action: 'lift', refs: ['U2'], outcome: 'done', found: refs.map((ref) => ({ ref, what: ['wet'] })) },
  ]
  const REST = 'before the next heat. What is trapped boils and bursts joints.'
  test('is dried as long as the shop says where nobody knows what it was', () => {
    expect(whyOf(liftAll([U2, U3]), 'dry', found('U2', 'U3'))).toBe(
      `Something wet was found under U2 and U3: rinse there once more, blow out under the parts around it, then dry at 90 °C for 8 h ${REST}`,
    )
  })
  test('is dried by what was spilled where that is known', () => {
    // coolant wants 2 h at 80 °C
    expect(whyOf(liftAll([U2], { substances: [substanceOf('coolant-eg')] }), 'dry', found('U2'))).toBe(
      `Something wet was found under U2: rinse there once more, blow out under the parts around it, then dry at 80 °C for 2 h ${REST}`,
    )
  })
})

// J-STD-033, bake tables of the user side: level 3, body to 1.4 mm, over by more than 72 h: 33 h at 90 °C
describe('the bake', () => {
  const moist: PlainPart = { ...U3, moistureLevel: '3' }
  const OVER = [
    ['U3', 'over by more or unknown'],
    ['U4', 'over by more or unknown'],
  ] as const
  test('of one and of two', () => {
    const why = (parts: readonly PlainPart[]) => whyOf(liftAll(parts, { floorLife: new Map(OVER) }), 'bake')
    const REST =
      'over floor life and will be heated beyond 200 °C; trapped moisture bursts parts and joints when they are heated.'
    expect(why([moist])).toBe(`At 90 °C for 33 h, before any other heat: U3 is ${REST}`)
    expect(why([moist, { ...moist, ref: 'U4', x: 150 }])).toBe(
      `At 90 °C for 33 h, before any other heat: U3 and U4 are ${REST}`,
    )
  })
  test('is none once something was lifted, nor for a ref that the board has not', () => {
    const over = liftAll([moist, U2], { floorLife: new Map(OVER) })
    expect(whyOf(over, 'bake', [{ action: 'lift', refs: ['U2'], outcome: 'done' }])).toBeUndefined()
    expect(whyOf(liftAll([U2], { floorLife: new Map([['U9', 'over by more or unknown']]) }), 'bake')).toBeUndefined()
  })

  const ASKS = 'J-STD-033 asks for 33 h at 90 °C before more than 200 °C. Set it under time out of the dry bag.'
  const unbaked = (input: PlanInput, log: readonly object[] = []): string =>
    unwrap(replan(input, log)).answer.best.unbaked
  test('that is not planned is said of those that are due one', () => {
    const level1: PlainPart = { ...U3, ref: 'U4', x: 150, moistureLevel: '1' }
    const unknown: PlainPart = { ...U3, ref: 'U5', x: 200 }
    expect(unbaked(liftAll([moist, level1, unknown]))).toBe(
      `No bake is planned: U3 (level 3) counts as within floor life. Over it, or unknown, ${ASKS}`,
    )
    expect(unbaked(liftAll([moist, { ...moist, ref: 'U6', x: 200 }]))).toBe(
      `No bake is planned: U3 (level 3) and U6 (level 3) count as within floor life. Over it, or unknown, ${ASKS}`,
    )
    expect(unbaked(liftAll([level1, unknown]))).toBe('')
  })
  test('of a wet card it is said that drying is no bake', () => {
    const WET = `No bake is planned. Drying takes the liquid away, not the damp inside the bodies: if U3 (level 3) stood wet or open for days, ${ASKS}`
    const wet = [substanceOf('coolant-eg')]
    expect(unbaked(liftAll([moist], { substances: wet, cleanFirst: wet }))).toBe(WET)
    const found = { action: 'lift', refs: ['U2'], outcome: 'done', found: [{ ref: 'U2', what: ['wet'] }] }
    expect(unbaked(liftAll([{ ref: 'U2', x: 150, heatCount: 0 }, moist]), [found])).toBe(WET)
  })
  test('is no matter for what came off, went back or stays off', () => {
    const input = liftAll([moist, { ...U2, x: 150 }])
    const pass = (action: 'lift' | 'refit', outcome = 'done') => ({ action, refs: ['U3'], outcome })
    const names = (log: readonly object[]): boolean => unbaked(input, log).includes('U3')
    expect(names([])).toBe(true)
    expect(names([pass('lift')])).toBe(false)
    expect(names([pass('lift'), pass('refit')])).toBe(false)
    expect(names([pass('lift'), pass('refit', 'skipped')])).toBe(false)
  })
})
