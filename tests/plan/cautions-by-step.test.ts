/** Which cautions stand at which step, all of them and in their order. Common practice, no source, unless a sentence names one. */
import { describe, expect, test } from 'vitest'
import { type PlanInput, type PlanStep, replan, type StepAction } from '../../src/plan/index.ts'
import type { Substance } from '../../src/spill/index.ts'
import { stackedBoard } from '../support/stacked-board.ts'
import { substanceOf, unwrap } from '../support/board-fixture.ts'
import { exposuresOf, type PlainPart, plainBoard, planned } from './plan-fixture.ts'

const SAID = {
  hot: 'Air, nozzle and board burn skin for minutes after the heat is off, and the air flow starts fires: eye protection, nothing that burns within half a metre.',
  fumes: 'Flux fumes cause asthma: extract them at the source; a dust mask does not help.',
  lead: 'These joints hold lead: wash your hands, do not eat at the bench, wipe dust wet.',
  maybeLead: 'Old or repaired joints may hold lead: wash your hands, do not eat at the bench.',
  solvent:
    'Solvent vapour catches fire (isopropyl alcohol from 12 °C up): let the board cool until it is hand-warm, keep hot tools off, air the room, and let it dry fully before heat or power.',
  static: 'Static kills parts without a mark: earthed bench and wrist strap.',
  bond: 'Soften and part the bond all around first: a bonded part that is pulled tears pads out of the board.',
  glueFumes:
    'Hot glue gives off vapour that makes skin and airways allergic: extract it at the source, and wear gloves.',
  blade:
    'Thin blades and picks slip: cut away from your hand, flat to the mask, eyes covered; tracks and small parts lie beside the rim.',
  wet: 'Liquid trapped under a part boils and bursts joints: dry before heat.',
  oven: 'An oven with flux or coolant residue in it is not for food, and glycol vapour is harmful: extract it.',
  airOff:
    'Solvent vapour in a closed oven can explode: let the board air off until nothing smells, and leave the oven’s vent open.',
  unplugged: 'Unplug the card and see that its capacitors are discharged.',
  firstPower:
    'First power from a supply with its limit set low, a hand at the switch: what gets hot or smells comes off power at once.',
  powerFirst:
    'Wet boards corrode and short under power: nothing gets power before it is dry and every rail was measured cold.',
  power: 'Measure cold before power: a bridge under a refitted part shorts its rail.',
  sheet:
    'The substance’s data sheet and the rules of your place take precedence; where they differ or you are in doubt, ask somebody qualified.',
  local: 'Follow your local rules; where you are not qualified for this, ask somebody who is.',
} as const
type Said = keyof typeof SAID
const all = (...which: Said[]): string[] => which.map((each) => SAID[each])

function liftAll(parts: readonly PlainPart[], more: Partial<PlanInput> = {}): PlanInput {
  const lift = parts.map(({ ref }) => ref)
  const exposures = exposuresOf(Object.fromEntries(lift.map((ref) => [ref, {}])))
  return { model: plainBoard(parts), lift, exposures, successProbability: 1, ...more }
}
const at = (steps: readonly PlanStep[], action: StepAction): readonly string[] | undefined =>
  steps.find((step) => step.action === action)?.cautions

const U2: PlainPart = { ref: 'U2', x: 50, heatCount: 0, package: '180-ball', bonding: 'edge' }
const U3: PlainPart = { ref: 'U3', x: 150, heatCount: 3, moistureLevel: '3' }
/** Of which nothing is known that hurts. */
const syrup: Substance = { id: 'syrup', name: 'Syrup', moves: 'crust', attacks: [], cautions: [] }

describe('a step has its own cautions, and no other', () => {
  const moist = { floorLife: new Map([['U3', 'over by more or unknown' as const]]) }
  const { steps } = planned(liftAll([U2, U3], { substances: [syrup], cleanFirst: [syrup], ...moist })).best
  test.each<[StepAction, Said[]]>([
    ['wash', ['unplugged', 'solvent', 'static', 'sheet']],
    ['dry', ['airOff', 'oven']],
    ['test', ['powerFirst', 'firstPower']],
    ['bake', ['oven']],
    ['prepare', ['static', 'unplugged']],
    ['unglue', ['hot', 'glueFumes', 'blade']],
    ['clean', ['hot', 'fumes', 'solvent', 'maybeLead', 'sheet']],
    ['reball', ['hot', 'fumes', 'solvent', 'static', 'maybeLead']],
    ['replace', ['static']],
    ['refit', ['hot', 'fumes', 'maybeLead']],
    ['inspect', ['unplugged', 'solvent', 'power', 'firstPower']],
  ])('%s', (action, which) => {
    expect(at(steps, action)).toEqual(all(...which, 'local'))
  })
  test('lift, of what is glued', () => {
    const lifts = steps.filter(({ action }) => action === 'lift')
    expect(lifts.find(({ refs }) => refs.includes('U2'))?.cautions).toEqual(
      all('hot', 'fumes', 'maybeLead', 'bond', 'sheet', 'local'),
    )
    expect(lifts.find(({ refs }) => refs.includes('U3'))?.cautions).toEqual(
      all('hot', 'fumes', 'maybeLead', 'sheet', 'local'),
    )
  })
})

describe('lead', () => {
  const leaded = planned(liftAll([{ ...U2, bonding: 'none', jointAlloy: 'Sn63Pb37' }])).best.steps
  test.each<[StepAction, Said[]]>([
    ['lift', ['hot', 'fumes', 'lead']],
    ['clean', ['hot', 'fumes', 'solvent', 'lead']],
    ['reball', ['hot', 'fumes', 'solvent', 'static', 'lead']],
    ['refit', ['hot', 'fumes', 'lead']],
  ])('is a fact at the %s of tin-lead joints', (action, which) => {
    expect(at(leaded, action)).toEqual(all(...which, 'local'))
  })
})

describe('what was spilled', () => {
  const metal = substanceOf('gallium-indium')
  const { steps } = planned(liftAll([U2], { substances: [metal], cleanFirst: [metal] })).best
  const own = (action: StepAction): string[] =>
    (at(steps, action) ?? []).filter((caution) => !Object.values<string>(SAID).includes(caution))
  test('is warned of where it is touched, and nowhere else', () => {
    expect(own('take-up').length).toBeGreaterThan(0)
    for (const action of ['lift', 'clean'] as const) expect(own(action).toSorted()).toEqual(own('take-up').toSorted())
    for (const action of ['prepare', 'unglue', 'reball', 'refit', 'inspect'] as const) expect(own(action)).toEqual([])
  })
  test('by hand before all else, at a lift and a site after the heat', () => {
    expect(at(steps, 'take-up')?.slice(-4)).toEqual(all('unplugged', 'solvent', 'static', 'local'))
    expect(at(steps, 'lift')?.slice(0, 4)).toEqual(all('hot', 'fumes', 'maybeLead', 'bond'))
  })
  test('what blinds stands first of it', () => {
    const blinds = own('take-up').map((caution) => /\bblinds\b|damages eyes/.test(caution))
    expect(blinds).toEqual(blinds.toSorted((a, b) => Number(b) - Number(a)))
    expect(blinds).toContain(true)
  })
})

test('what was found wet is dried with care, and its lift warns while it is wet', () => {
  const found = [{ ref: 'U2', what: ['wet'] }]
  const failed = { action: 'lift', refs: ['U2'], outcome: 'failed', peakC: 20, found }
  const { steps } = unwrap(replan(liftAll([{ ...U2, bonding: 'none' }]), [failed])).answer.best
  expect(at(steps, 'dry')).toEqual(all('airOff', 'oven', 'wet', 'local'))
  expect(at(steps, 'lift')).toEqual(all('hot', 'fumes', 'maybeLead', 'wet', 'local'))
  expect(at(steps, 'clean')).toEqual(all('hot', 'fumes', 'solvent', 'maybeLead', 'local'))
})

test('bare stacks are warned of wherever the core is held', () => {
  const { steps } = planned({
    model: stackedBoard(),
    lift: ['U1'],
    exposures: exposuresOf({ U1: {} }),
    successProbability: 1,
    heatCounts: new Map([['U1', 0]]),
  }).best
  const held = 'U11 and U12 stand bare beside the die and chip at a touch: nudge and hold the core by its substrate.'
  expect(steps.flatMap(({ action, cautions }) => (cautions.includes(held) ? [action] : []))).toEqual([
    'lift',
    'reball',
    'refit',
  ])
})
