/** What is said at an open site and of what goes back on it. The work is common practice, no source. */
import { describe, expect, test } from 'vitest'
import { passLogSchema, type PlanInput, type PlanStep, replan, type StepAction } from '../../src/plan/index.ts'
import { substanceOf, unwrap } from '../support/board-fixture.ts'
import { exposureOn, exposuresOf, heatAt, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

const U2: PlainPart = { ref: 'U2', x: 50, heatCount: 0, package: '180-ball' }

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const stepIn = (steps: readonly PlanStep[], action: StepAction): PlanStep | undefined =>
  steps.find((step) => step.action === action)
const linesOf = (input: PlanInput, action: StepAction): string[] =>
  (stepIn(planned(input).best.steps, action)?.why ?? '').split('\n')
/** After U2 came off and this was found under it. */
const foundUnder = (what: 'metal' | 'wet' | 'corroded' | 'clean', input: PlanInput): readonly PlanStep[] =>
  unwrap(
    replan(
      input,
      passLogSchema.parse([{ action: 'lift', refs: ['U2'], outcome: 'done', found: [{ ref: 'U2', what: [what] }] }]),
    ),
  ).answer.best.steps

describe('the step that cleans a site', () => {
  const starts = (lines: readonly string[]): string[] => lines.map((line) => line.split(' ').slice(0, 3).join(' '))
  const coolant = substanceOf('coolant-eg')
  const metal = substanceOf('gallium-indium')
  const ALLOY_FIRST = 'Take up every trace of alloy with dry swabs before the braid.'

  test('of a dry card: look, braid, solvent, read the bare pads', () => {
    const lines = linesOf(liftAll([U2]), 'clean')
    expect(lines[0]).toBe('While the part is off. Look and log what lies there before wiping.')
    expect(starts(lines)).toEqual(['While the part', 'Braid the old', 'Let it cool,', 'Then read the'])
  })
  test('of a wetted one: what was spilled comes off before the braid, and no alloy is spoken of', () => {
    const lines = linesOf(liftAll([U2], { substances: [coolant] }), 'clean')
    expect(lines[1]).toBe('Clean off the coolant with deionised water, then isopropyl alcohol, and let it dry.')
    expect(starts(lines)).toEqual(['While the part', 'Clean off the', 'Braid the old', 'Let it cool,', 'Then read the'])
  })
  test('that alloy may have reached: swabs before braid, bin and tip apart after it; the alloy is not wiped', () => {
    const lines = linesOf(liftAll([U2], { substances: [metal] }), 'clean')
    expect(lines[1]).toBe(ALLOY_FIRST)
    expect(lines.at(-2)).toMatch(/^Wick all old solder off board and part: .*touch no other card\.$/)
    expect(starts(lines)).toEqual([
      'While the part',
      'Take up every',
      'Braid the old',
      'Let it cool,',
      'Wick all old',
      'Then read the',
    ])
  })
  test('that coolant and alloy reached: each by its own way', () => {
    const lines = linesOf(liftAll([U2], { substances: [metal, coolant] }), 'clean')
    expect(lines.slice(1, 3)).toEqual([
      ALLOY_FIRST,
      'Clean off the coolant with deionised water, then isopropyl alcohol, and let it dry.',
    ])
    expect(lines.at(-2)).toMatch(/^Wick all old solder/)
  })
  test.each([
    ['with', [metal]],
    ['without', []],
  ] as const)('under which metal was found is named, %s a note of what was spilled', (_, substances) => {
    const lines = (stepIn(foundUnder('metal', liftAll([U2], { substances })), 'clean')?.why ?? '').split('\n')
    expect(lines[1]).toBe(
      'Take up the metal under U2 with dry swabs, then wick away the solder that has taken it up, so that fresh solder goes onto clean pads.',
    )
    expect(lines.at(-2)).toMatch(/^Wick all old solder/)
    expect(lines).not.toContain(ALLOY_FIRST)
  })
  test('of parts without balls reads no bare pads', () => {
    const coil: PlainPart = { ref: 'C2', x: 50, kind: 'capacitor', heatCount: 0 }
    expect(starts(linesOf(liftAll([coil]), 'clean'))).toEqual(['While the part', 'Braid the old', 'Let it cool,'])
    expect(linesOf(liftAll([{ ...coil, ref: 'U1', kind: 'core' }]), 'clean').at(-1)).toMatch(/^Then read the bare pads/)
    expect(linesOf(liftAll([coil, { ...U2, x: 90 }]), 'clean').at(-1)).toMatch(/^Then read the bare pads/)
  })
  test('beside parts that are on still says why that is safe', () => {
    // far apart nothing keeps the first from going back before the second comes off
    const { steps } = planned(liftAll([U2, { ...U2, ref: 'U3', x: 150 }])).best
    const cleans = steps.filter(({ action }) => action === 'clean')
    expect(cleans.map(({ why }) => why.split(/[;.]/)[0])).toEqual([
      'Before these sites are refitted',
      'While the part is off',
    ])
  })

  // 6 min a site and 1.5 min each cm² of body: 12 × 14 mm is 1.68 cm², so 8.52 min; the price book's minutes on top
  test.each([
    ['clean', 8.52],
    ['corroded', 8.52 + 15],
    ['metal', 8.52 + 20],
  ] as const)('where the site is %s takes %d minutes', (what, minutes) => {
    const settings = { minutes: { cleanCorroded: 15, takeUpMetal: 20, cleanSite: 6, cleanPerCm2: 1.5 } }
    expect(stepIn(foundUnder(what, liftAll([U2], { settings })), 'clean')?.minutes).toBeCloseTo(minutes, 9)
  })
})

describe('what goes back on', () => {
  const worn = { ...U2, heatCount: 3 }
  const stage: PlainPart = { ref: 'U9', x: 63, kind: 'power-stage', heatCount: 0 }
  const bad = (...refs: string[]): Partial<PlanInput> => ({ replace: new Set(refs) })
  const MEMORY =
    'Take memory of the same maker, density and speed grade, or one that the card’s straps and firmware accept.'
  const LOOK = 'Look it over, and see that it is dry, before its site is heated.'
  const TIN = 'It brings no balls: tin its pads thin and level, or print paste with a heat pad about half covered.'
  // bodies of 12 mm, 2 mm apart: too near for solvent, so all come off before any goes back
  const U3 = { ...U2, ref: 'U3', x: 64 }

  test.each<[string, readonly PlainPart[], Partial<PlanInput>, string]>([
    ['worn memory', [worn], {}, `New parts go on: U2 is at the limit of 3 melts. ${MEMORY} ${LOOK}`],
    [
      'two that are worn',
      [worn, { ...worn, ref: 'U3', x: 64 }],
      {},
      `New parts go on: U2 and U3 are at the limit of 3 melts. ${MEMORY} ${LOOK}`,
    ],
    [
      'bad memory',
      [U2],
      bad('U2'),
      `New parts go on: U2 may be bad itself, and a new one costs less than a comeback. ${MEMORY} ${LOOK}`,
    ],
    [
      'two that are bad',
      [U2, U3],
      bad('U2', 'U3'),
      `New parts go on: U2 and U3 may be bad themselves, and new ones cost less than a comeback. ${MEMORY} ${LOOK}`,
    ],
    [
      'one bad, one worn',
      [worn, U3],
      bad('U3'),
      `New parts go on: U3 may be bad itself, and a new one costs less than a comeback and U2 is at the limit of 3 melts. ${MEMORY} ${LOOK}`,
    ],
    [
      'a bad core',
      [{ ...U2, kind: 'core' }],
      bad('U2'),
      `New parts go on: U2 may be bad itself, and a new one costs less than a comeback. Take the same type. ${LOOK}`,
    ],
    [
      'a bad power stage',
      [stage],
      bad('U9'),
      `New parts go on: U9 may be bad itself, and a new one costs less than a comeback. Take the same type. ${TIN} ${LOOK}`,
    ],
    [
      'a power stage beside memory',
      [stage, U2],
      bad('U2', 'U9'),
      `New parts go on: U2 and U9 may be bad themselves, and new ones cost less than a comeback. ${MEMORY} ${TIN} ${LOOK}`,
    ],
  ])('%s', (_, parts, more, words) => {
    const { steps } = planned(liftAll(parts, more)).best
    expect(stepIn(steps, 'replace')?.why).toBe(words)
  })

  test('a part that is worn and another that is not: each in its own step, four minutes a new one', () => {
    const { steps } = planned(liftAll([worn, U3, { ...worn, ref: 'U4', x: 57, y: 66 }])).best
    expect(stepIn(steps, 'replace')).toMatchObject({ refs: ['U2', 'U4'], minutes: 8 })
    expect(stepIn(steps, 'reball')?.refs).toEqual(['U3'])
    expect(stepIn(steps, 'reball')?.why).toMatch(/^It came off with fewer than 3 melts: back on new balls\.\n1\. /)
  })
  test('two that are used again', () => {
    expect(linesOf(liftAll([U2, U3]), 'reball')[0]).toBe('They came off with fewer than 3 melts: back on new balls.')
  })
  test('of balls that took up metal every old one is wicked off', () => {
    expect(stepIn(foundUnder('metal', liftAll([U2])), 'reball')?.why.split('\n')[0]).toBe(
      'It came off with fewer than 3 melts: back on new balls. Wick every old ball off U2 first, down to the pads: they took up metal.',
    )
    expect(stepIn(foundUnder('wet', liftAll([U2])), 'reball')?.why).not.toContain('took up metal')
  })
})

describe('the last step looks at the work', () => {
  const numbers = (input: PlanInput): string[] => linesOf(input, 'inspect').map((line) => line.slice(0, 2))
  test('in four lines; in five where a cooler was in what was spilled and nothing was dried', () => {
    expect(numbers(liftAll([U2]))).toEqual(['1.', '2.', '3.', '4.'])
    const metal = [substanceOf('gallium-indium')]
    expect(numbers(liftAll([U2], { substances: metal, cleanFirst: metal }))).toEqual(['1.', '2.', '3.', '4.', '5.'])
    expect(linesOf(liftAll([U2], { substances: metal }), 'inspect')[3]).toMatch(/^4\. Before the cooler goes back on: /)
  })
  test('a card that was dried has its cooler looked at then', () => {
    const wet = [substanceOf('coolant-eg')]
    expect(numbers(liftAll([U2], { substances: wet, cleanFirst: wet }))).toHaveLength(4)
    expect(linesOf(liftAll([U2], { substances: wet, cleanFirst: wet }), 'dry').join(' ')).toContain('cooler')
  })
  test('at ten minutes a part', () => {
    const two = liftAll([U2, { ...U2, ref: 'U3', x: 150 }], { settings: { minutes: { inspect: 10 } } })
    expect(stepIn(planned(two).best.steps, 'inspect')).toMatchObject({
      refs: ['U2', 'U3'],
      minutes: 20,
      setting: undefined,
    })
  })
})

describe('a step that heats says what gets hot beside it', () => {
  const model = plainBoard([
    U2,
    ...['U3', 'U4', 'U5', 'U10', 'U6'].map((ref, i) => ({ ref, x: 100 + 20 * i, heatCount: 0 })),
  ])
  const exposure = {
    ...exposureOn('U2', {}),
    liftFromS: 61,
    neighbours: [
      heatAt('U3', 190),
      heatAt('U10', 220),
      heatAt('U4', 220),
      heatAt('U5', 60),
      { ...heatAt('U6', 150, 262), cracksFromC: 140 },
    ],
  }
  const input: PlanInput = { ...liftAll([U2]), model, exposures: new Map([['U2', exposure]]) }
  const lift = stepIn(planned(input).best.steps, 'lift')

  test('hottest first, alike by ref, none that stays cool; with its limit and where it cracks', () => {
    expect(lift?.exposed.map(({ ref, jointPeakC }) => [ref, jointPeakC]).slice(0, 2)).toEqual([
      ['U4', 220],
      ['U10', 220],
    ])
    expect(lift?.exposed.map(({ ref }) => ref)).not.toContain('U5')
    expect(lift?.exposed.at(-1)).toEqual({
      ref: 'U6',
      jointPeakC: 150,
      melts: false,
      overLimit: true,
      cracksFromC: 140,
    })
  })
  test('a lift says from when on joints are liquid, a refit until when hands stay off', () => {
    const refit = stepIn(planned(input).best.steps, 'refit')
    expect([lift?.liftFromS, lift?.handsOffUntilC]).toEqual([61, undefined])
    // SAC305 melts at 217 °C; firm well below it
    expect(refit?.handsOffUntilC).toBeLessThan(217)
    expect(refit?.liftFromS).toBeUndefined()
    expect(lift?.setting?.airC).toBe(340)
  })
  test('not of one that is off, that comes off in the same pass, or that stays off', () => {
    const two = liftAll([U2, { ...U2, ref: 'U3', x: 90 }], {
      exposures: exposuresOf({ U2: { U3: 220 }, U3: { U2: 220 } }),
    })
    const { steps } = planned(two).best
    const lifts = steps.filter(({ action }) => action === 'lift')
    expect(lifts.map(({ exposed }) => exposed.length)).toEqual([1, 0])
    const group = exposureOn('U2', { U3: 220, U2: 220 }, 6)
    const together = planned({ ...two, groups: [{ refs: ['U2', 'U3'], exposure: group }] }).best.steps
    expect(stepIn(together, 'lift')).toMatchObject({ refs: ['U2', 'U3'], exposed: [] })
  })
})
