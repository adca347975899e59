/** The first cleaning follows the substance: what is taken up, how it is washed, how long it dries, what lies on the table. */
import { describe, expect, test } from 'vitest'
import { type BenchTick, type PlanInput, replan } from '../../src/plan/index.ts'
import { type Substance, substances } from '../../src/spill/index.ts'
import { substanceOf } from '../support/board-fixture.ts'
import { exposuresOf, plainBoard, planned } from './plan-fixture.ts'

const input: PlanInput = {
  model: plainBoard([{ ref: 'U2', x: 30, heatCount: 1, package: '180-ball' }]),
  lift: ['U2'],
  exposures: exposuresOf({ U2: {} }),
  successProbability: 0.8,
}

const ownOil: Substance = {
  id: 'cutting-oil',
  name: 'Cutting oil',
  moves: 'crust',
  attacks: [],
  cautions: [],
}

function planOf(spilled: readonly Substance[], more: Partial<PlanInput> = {}) {
  return planned({ ...input, substances: spilled, cleanFirst: spilled, ...more }).best
}

const stepOf = (spilled: readonly Substance[], action: string) =>
  planOf(spilled).steps.find((step) => step.action === action)
const actionsOf = (spilled: readonly Substance[], more: Partial<PlanInput> = {}) =>
  planOf(spilled, more).steps.map(({ action }) => action)

test('before the first heat: photos with pin 1, covers, what has to lie ready, a thermocouple (common practice, no source)', () => {
  const lines = (stepOf([], 'prepare')?.why ?? '').split('\n')
  expect(lines.map((line) => line.slice(0, 2))).toEqual(['1.', '2.', '3.', 'To'])
  expect(lines[0]).toMatch(/Photograph each part with its pin 1.*underfill/)
  expect(lines[1]).toMatch(/polyimide tape/)
  expect(lines[2]).toMatch(/materials listed.*flux.*fix the board.*thermocouple at a joint/)
  expect(lines[3]).toMatch(/nothing underneath while it is hot/)
})

describe('what was spilled', () => {
  test('is washed, blown out and dried, and nothing is baked within floor life', () => {
    // Repair guide 2.2.1 Cleaning, local (after IPC-7721): water, alcohol to take it out, blow dry.
    const coolant = [substanceOf('coolant-pg')]
    expect(actionsOf(coolant).slice(0, 4)).toEqual(['wash', 'dry', 'test', 'prepare'])
    expect(actionsOf(coolant)).not.toContain('bake')
    expect(stepOf(coolant, 'wash')?.why).toMatch(
      /1\. .*deionised water.*2\. Flush with isopropyl alcohol.*3\. Blow out/s,
    )
  })

  test('and holds glycol is never left to an oven: it boils at 188 °C (CRC Handbook, from memory)', () => {
    expect(stepOf([substanceOf('coolant-pg')], 'wash')?.why).toMatch(/an oven alone leaves .*188 °C/i)
  })

  test('and dries in hours is dried apart from the bake that floor life asks for', () => {
    // J-STD-033: level 3, thin, over by more than 72 h: 33 h at 90 °C (published bake tables).
    const steps = planOf([substanceOf('water')], {
      floorLife: new Map([['U2', 'over by more or unknown']]),
      bakeHours: () => 33,
    }).steps
    expect(steps.slice(0, 4).map(({ action, hours }) => [action, hours])).toEqual([
      ['wash', undefined],
      ['dry', 2],
      ['test', undefined],
      ['bake', 33],
    ])
    expect(steps[3]?.why).toMatch(/floor life/)
  })

  test('and is liquid metal is taken up by hand; nothing is flushed, and no oven is asked for', () => {
    const metal = [substanceOf('gallium-indium-tin')]
    expect(actionsOf(metal).slice(0, 2)).toEqual(['take-up', 'prepare'])
    expect(stepOf(metal, 'take-up')?.why).toMatch(
      /^First of all, take the liquid metal off by hand:\n1\. .*never brush, flood or blow/,
    )
  })

  // Ludwig, Pereiro-López and Bellet 2005: gallium goes along aluminium's grain boundaries until it crumbles.
  test('that eats aluminium is covered without foil, and who takes it up reads of lye and eyes before all else', () => {
    const metal = [substanceOf('gallium-indium')]
    expect(stepOf(metal, 'prepare')?.why).toContain('no aluminium foil on this card')
    expect(stepOf([substanceOf('water')], 'prepare')?.why).toContain('aluminium foil where the air blows')
    const cautions = stepOf(metal, 'take-up')?.cautions ?? []
    expect(cautions[0]).toMatch(/damages eyes|blinds/)
    expect(cautions[1]).toMatch(/damages eyes|blinds/)
    expect(cautions.some((caution) => caution.startsWith('Static kills'))).toBe(true)
  })

  test('is looked for on the cooler: aluminium that gallium has touched is scrap', () => {
    // Ludwig, Pereiro-López and Bellet, Acta Materialia 53 (2005) 151–162: it goes along the grain boundaries.
    for (const action of ['take-up', 'inspect'])
      expect(stepOf([substanceOf('gallium-indium')], action)?.why).toMatch(/aluminium .*is scrap/)
    expect(planned(input).best.steps.find(({ action }) => action === 'inspect')?.why).not.toMatch(/cooler/)
  })

  test('and of which nothing is known is not washed by guess: its data sheet is asked for, and it dries long', () => {
    expect(stepOf([ownOil], 'wash')?.why).toBe(
      'Nothing is known of how cutting oil comes off: get its data sheet before anything wet goes onto the card, and clean by that.',
    )
    expect(stepOf([ownOil], 'dry')?.hours).toBe(8)
  })

  test('of two kinds is taken up before anything wet, and dried as warm as the gentler bears, so much longer', () => {
    const both = [substanceOf('flux-fresh'), substanceOf('coolant-eg'), substanceOf('gallium-indium')]
    expect(actionsOf(both).slice(0, 3)).toEqual(['take-up', 'wash', 'dry'])
    // flux bears at most 60 °C, coolant wants 2 h at 80 °C: twice as long for each 20 K less (common practice, no source)
    expect(stepOf(both, 'dry')).toMatchObject({ hours: 4 })
    expect(stepOf(both, 'dry')?.why).toContain('60 °C for 4 h')
  })

  test('that was taken up by hand and wants warmth is dried as well', () => {
    expect(stepOf([substanceOf('varnish')], 'dry')?.why).toContain('50 °C for 30 min')
  })

  test('of two pastes, each says what stays under a body: what conducts means that the part comes off', () => {
    const words = stepOf([substanceOf('thermal-paste'), substanceOf('cooling-compound')], 'take-up')?.why ?? ''
    expect(words).toMatch(/filler that stays under a body does no harm/)
    expect(words).toMatch(/may conduct/)
  })

  test('comes off the card first and is rinsed after that: each line stands in its own step', () => {
    const lye = [substanceOf('battery-alkaline')]
    expect(actionsOf(lye).slice(0, 3)).toEqual(['take-up', 'wash', 'dry'])
    expect(stepOf(lye, 'take-up')?.why).toContain('crystals')
    expect(stepOf(lye, 'take-up')?.why).not.toMatch(/vinegar|deionised water|isopropyl/)
    expect(stepOf(lye, 'wash')?.why).toMatch(/vinegar.*deionised water.*isopropyl alcohol/s)
    expect(stepOf(lye, 'wash')?.why).not.toContain('crystals')
  })

  test('after a skipped bake is dried all the same', () => {
    const coolant = substanceOf('coolant-eg')
    const skipped: BenchTick = { action: 'bake', refs: ['U2'], outcome: 'skipped', minutes: 0, afterPasses: 0 }
    const again = replan({ ...input, substances: [coolant], cleanFirst: [coolant] }, [], [skipped])
    expect(again.ok && again.value.answer.best.steps.map(({ action }) => action)).toContain('dry')
  })

  test.each(substances)('is $id: everything that its cleaning takes lies on the table, once', (substance) => {
    const materials = planOf([substance]).materials.map(({ what }) => what)
    const { takeUp, rinses = [] } = substance.cleaning ?? {}
    for (const needed of new Set([...rinses, ...(takeUp === undefined ? [] : [takeUp])].map((rinse) => rinse.with)))
      expect(materials.filter((what) => what === needed)).toEqual([needed])
  })

  test.each(substances)('is $id: its first steps read as sentences', (substance) => {
    for (const { action, why } of planOf([substance]).steps) {
      if (action !== 'take-up' && action !== 'wash' && action !== 'dry') continue
      expect(why).toMatch(/^[A-Z].*\.$/s)
      expect(why).not.toMatch(/\.\.|undefined| {2}|; \.|\.;/)
    }
  })
})
