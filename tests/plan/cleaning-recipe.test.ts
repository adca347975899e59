/** The recipes of the first cleaning, line by line, from substances made up here: every word is theirs or the trade's (common practice, no source). */
import { describe, expect, test } from 'vitest'
import { checkIn, type Plan, type PlanInput, replan, type StepAction } from '../../src/plan/index.ts'
import type { Substance } from '../../src/spill/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { exposuresOf, plainBoard, planned } from './plan-fixture.ts'

const source = 'made up'
const spirit = { with: 'spirit', how: 'rinse with spirit', source }
const cleaning = {
  where: 'card',
  dissolvesIn: [{ words: 'water', source }],
  notIn: [{ words: 'oil', source }],
  rinses: [
    { with: 'water, warm', how: 'rinse with warm water', source },
    { with: 'water, cold', how: 'rinse with cold water', source },
    spirit,
  ],
  driveOut: { words: 'Blow it out.', source },
  leftByDrying: { words: 'a crust of salt', source },
  dryC: { value: 60, high: 70, source },
  dryMinutes: { value: 90, source },
  howKnown: { words: 'No white rim is left.', source },
  destroys: [{ words: 'Paper.', source }],
  cooler: { words: 'Look for white rims on it.', source },
} satisfies Substance['cleaning']
const made = (name: string, more: Partial<NonNullable<Substance['cleaning']>> = {}): Substance => ({
  id: name,
  name,
  moves: 'crust',
  attacks: [],
  cautions: [],
  cleaning: { ...cleaning, ...more },
})
const brine = made('Brine, salted')
const byHand = { with: 'dry swabs', how: 'dab it up', source }
const wax = made('Wax', { where: 'spots', takeUp: byHand, dryC: { value: 20, source } })

const input: PlanInput = {
  model: plainBoard([{ ref: 'U2', x: 30, heatCount: 0 }]),
  lift: ['U2'],
  exposures: exposuresOf({ U2: {} }),
  successProbability: 1,
}
const planOf = (...spilled: Substance[]): Plan => planned({ ...input, substances: spilled, cleanFirst: spilled }).best
const linesOf = (plan: Plan, action: StepAction): string[] | undefined =>
  plan.steps.find((step) => step.action === action)?.why.split('\n')

describe('a card that is rinsed', () => {
  test('line by line, with what to check and what an oven alone would leave', () => {
    expect(linesOf(planOf(brine), 'wash')).toEqual([
      'Cooler off, before any heat: wash off the brine.',
      '1. Rinse with warm water.',
      '2. Rinse with cold water.',
      '3. Rinse with spirit.',
      '4. Blow it out.',
      'Check: no white rim is left. An oven alone leaves a crust of salt.',
    ])
    expect(linesOf(planOf(brine), 'take-up')).toBeUndefined()
  })
  test('dries for its time at its temperature, and the cooler is looked at', () => {
    expect(linesOf(planOf(brine), 'dry')).toEqual([
      'Let the solvent air off until nothing smells, then dry at 60 °C for 1 h 30 min. Before the cooler goes back on: look for white rims on it.',
    ])
  })
  test('is tested before anything is lifted', () => {
    expect(linesOf(planOf(brine), 'test')).toEqual([
      'Cleaning alone often cures a wet card, and a run costs less than a lift.',
      '1. Measure the rails cold. Where nothing speaks against power, fit the cooler with paste and pads and plug in its fans.',
      '2. Run the memory test for hours, warm and from cold; only putting the card together counts as minutes here.',
      '3. Add the run as a report: what passes stays on, and the steps below follow it.',
    ])
    expect(linesOf(planOf(brine, wax), 'test')).toBeUndefined()
  })
  test('of two that come off alike is washed once', () => {
    expect(linesOf(planOf(brine, made('Sea water')), 'wash')).toEqual(linesOf(planOf(brine), 'wash'))
  })
  test('at an open site the same liquids serve, each named once in a row', () => {
    expect(linesOf(planOf(brine, made('Syrup', { rinses: [spirit] })), 'clean')?.[1]).toBe(
      'Clean off the brine with water, then spirit and the syrup with spirit, and let it dry.',
    )
  })
})

describe('what is taken up by hand', () => {
  test('is wiped on the spot, airs off and is checked, without a wash or an oven', () => {
    const plan = planOf(wax)
    expect(linesOf(plan, 'take-up')).toEqual([
      'First of all, take the wax off by hand:',
      '1. Dab it up.',
      '2. Rinse with warm water.',
      '3. Rinse with cold water.',
      '4. Rinse with spirit.',
      '5. Blow it out.',
      'Let it air for 1 h 30 min. Check: no white rim is left.',
    ])
    expect([linesOf(plan, 'wash'), linesOf(plan, 'dry')]).toEqual([undefined, undefined])
  })
  test('and joints take up sends one to the cooler at once', () => {
    const alloy = made('Alloy', { ...wax.cleaning, joints: { words: 'They get soft.', source } })
    expect(linesOf(planOf(alloy), 'take-up')?.at(-1)).toBe('Look at the cooler now: look for white rims on it.')
  })
  test('first, then rinsed off the whole card', () => {
    const plan = planOf(made('Resin', { takeUp: byHand }))
    expect(linesOf(plan, 'take-up')).toEqual(['First of all, take the resin off by hand:', '1. Dab it up.'])
    expect(linesOf(plan, 'wash')?.[0]).toBe('Cooler off, before any heat: wash off the resin.')
  })
  test('on spots that want warmth are dried, and say so in the step that dries', () => {
    const plan = planOf(made('Lacquer', { where: 'spots', takeUp: byHand, dryC: { value: 35, source } }))
    expect(linesOf(plan, 'take-up')?.at(-1)).toBe('Check: no white rim is left.')
    expect(linesOf(plan, 'dry')?.[0]).toMatch(/^Let the solvent air off until nothing smells, then dry at 35 °C/)
  })
})

describe('one drying for all', () => {
  const hoursOf = (...spilled: Substance[]): number | undefined =>
    planOf(...spilled).steps.find(({ action }) => action === 'dry')?.hours
  const dries = (name: string, value: number, high: number | undefined, minutes: number): Substance =>
    made(name, {
      dryC: { value, ...(high === undefined ? {} : { high }), source },
      dryMinutes: { value: minutes, source },
    })
  // twice the time for each 20 K below its own temperature (common practice, no source)
  test.each<[string, Substance[], number]>([
    ['of one by itself its own 1.5 h', [brine], 1.5],
    ['of two that want the same the longer', [dries('a', 60, 60, 60), dries('b', 60, 60, 180)], 3],
    ['held 20 K below its own, twice as long', [dries('a', 80, 80, 60), dries('b', 60, 60, 30)], 2],
    ['held 10 K below it, 2^(10/20) as long', [dries('a', 70, 70, 60), dries('b', 60, 60, 30)], 2 ** 0.5],
    [
      'as warm as the warmer where the other bears that: no shorter',
      [dries('a', 80, 80, 60), dries('b', 60, 90, 90)],
      1.5,
    ],
  ])('%s', (_, spilled, hours) => {
    expect(hoursOf(...spilled)).toBeCloseTo(hours, 12)
  })
})

describe('on the table for it', () => {
  const tableOf = (...spilled: Substance[]): string[] =>
    planOf(...spilled)
      .materials.filter(({ why }) => /onto the|Takes up/.test(why))
      .map(({ what, amount, why, cost }) => `${what} | ${amount} | ${why} | ${cost}`)
  test('each liquid with its turn, at no cost of its own', () => {
    expect(tableOf(brine)).toEqual([
      'water, warm | to rinse | First onto the brine. | 0',
      'water, cold | to rinse | Then onto the brine. | 0',
      'spirit | to rinse | Last onto the brine. | 0',
    ])
  })
  test('swabs, and what wipes spots', () => {
    expect(tableOf(wax)).toEqual([
      'dry swabs | to take it up | Takes up the wax, dry. | 0',
      'water, warm | to wipe | First onto the wax. | 0',
      'water, cold | to wipe | Then onto the wax. | 0',
      'spirit | to wipe | Last onto the wax. | 0',
    ])
  })
  test('what serves two stands once, for both', () => {
    const syrup = made('Syrup', { rinses: [spirit] })
    expect(tableOf(brine, syrup).at(-1)).toBe('spirit | to rinse | Last onto the brine. First onto the syrup. | 0')
  })
  test('what serves one twice is said once', () => {
    const twice = made('Tar', { rinses: [spirit, spirit, spirit, spirit] })
    expect(tableOf(twice)).toEqual([
      'spirit | to rinse | First onto the tar. Then onto the tar. Last onto the tar. | 0',
    ])
  })
  test('is nothing once something was heated', () => {
    const wet = { ...input, substances: [brine], cleanFirst: [brine] }
    const { best } = unwrap(replan(wet, [{ action: 'lift', refs: ['U2'], outcome: 'done' }])).answer
    expect(best.materials.some(({ what }) => what === 'spirit')).toBe(false)
  })
})

test('a line that says what to check is told from one that does not', () => {
  expect([checkIn('Check: no white rim is left.'), checkIn('Blow it out. Check: rims')]).toEqual([
    'no white rim is left.',
    undefined,
  ])
})
