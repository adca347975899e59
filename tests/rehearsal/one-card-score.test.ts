/** One card's score: what was said beside what was true, with somebody who says what he is told to. */
import { describe, expect, it } from 'vitest'
import {
  type Action,
  type Asker,
  type CardScore,
  type Known,
  pricesOf,
  scoreCard,
  type ScoreWish,
  type SimulatedCard,
} from '../../src/rehearsal/index.ts'
import { nothingJudged, type PartSuspicion, type Story, type SuspectsResult } from '../../src/suspects/index.ts'
import { damage, handCard, lanes, model, spillCause, spillMark } from './hand-card.ts'

const { liftCost, comeback } = pricesOf(model)
const die = damage({})
const core = damage({ kind: 'core', at: 'U1', ref: 'U1' })

const told = (kind: Story['causes'][number]['kind'], at: string, ...refs: string[]): Story => ({
  causes: [{ kind, at, refs }],
  probability: 0.25,
  sentence: '',
})
const suspected = (ref: string, probability: number): PartSuspicion => ({
  ref,
  probability,
  comesOff: probability,
  lift: false,
  costIfLifted: 0,
  costIfLeft: 0,
  wrong: { die: 0, joints: 0, beneath: 0, nothing: 1 },
  remedy: { action: 'leave', because: '' },
  why: [],
  whyReached: [],
})

const says =
  (change: Partial<SuspectsResult>): Asker['ask'] =>
  () => ({ ...nothingJudged, ...change })

const asker = (change: Partial<Asker> = {}): Asker => ({
  model,
  ask: says({}),
  costsOf: () => [],
  propose: () => ({ kind: 'hand-back' }),
  proposeWithoutChecks: () => ({ kind: 'hand-back' }),
  remedies: () => ({ steps: [], expectedCost: 0, minutes: 0, works: undefined, others: [] }),
  open: () => [],
  ...change,
})

const WISH: ScoreWish = { now: () => 0, variants: false, steps: false, orders: false, remedies: false }

async function scored(card: SimulatedCard, by: Asker, wish: Partial<ScoreWish> = {}): Promise<CardScore> {
  const score = await scoreCard(card, by, { ...WISH, ...wish })
  if (!score.ok) throw new Error('unreadable')
  return score.value
}

/** The report names these lanes with three errors each, and tells of no other. */
const reporting = (...failing: string[]): SimulatedCard['observations']['report'] => ({
  kind: 'table',
  layout: 'table by hand',
  rows: failing.map((lane) => ({ lane, errors: 3 })),
})

describe('the score of a card', () => {
  it('holds stories, list and chances against the truth', async () => {
    const report = reporting('U2.A0', 'U3.A0')
    const card = handCard({ damages: [die, core], causes: [{ kind: 'die', at: 'U2' }], seen: { report } })
    const stories = [
      told('joints', 'U2/A0', 'U2'),
      { ...told('die', 'U2', 'U2'), causes: [...told('die', 'U2', 'U2').causes, ...told('core', 'U1', 'U1').causes] },
      told('die', 'U3', 'U3'),
    ]
    const parts = [suspected('U2', 0.812345678), suspected('U1', 0.001), suspected('U3', 0.0009)]
    let clock = 100
    const now = (): number => (clock += 20)
    const score = await scored(card, asker({ ask: says({ stories, remainder: 0.2, lift: ['U2', 'U3'], parts }) }), {
      now,
    })
    const all = liftCost('U1') + liftCost('U2') + liftCost('U3')
    expect(score).toEqual({
      seed: 5,
      board: 'small',
      layout: 'table by hand',
      kind: 'die',
      kinds: ['die'],
      substance: undefined,
      broken: ['die U2: U2.A0', 'core U1: U2.A0'],
      told: 'unknown',
      failing: ['U2', 'U3'],
      needs: ['U2', 'U1'],
      list: ['U2', 'U3'],
      stories: [
        { causes: ['joints U2/A0'], probability: 0.25 },
        { causes: ['die U2', 'core U1'], probability: 0.25 },
        { causes: ['die U3'], probability: 0.25 },
      ],
      remainder: 0.2,
      first: false,
      firstThree: true,
      firstByPart: false,
      firstThreeByPart: true,
      missed: 1,
      needless: 1,
      cost: {
        liftmap: expect.closeTo(all + comeback, 9),
        named: expect.closeTo(all + comeback, 9),
        namedAndCore: expect.closeTo(all, 9),
        ring: expect.closeTo(all, 9),
        allKnowing: expect.closeTo(liftCost('U1') + liftCost('U2'), 9),
        // and the run that proves
        allKnowingInSteps: expect.closeTo(liftCost('U1') + liftCost('U2') + 15, 9),
      },
      core: [0.001, 1],
      failingSaid: [
        [0.81235, 1],
        [0.0009, 0],
      ],
      allSaid: [
        [0.81235, 1],
        [0.001, 1],
        [0.0009, 0],
      ],
      parts: { U2: 0.81235, U1: 0.001 },
      place: undefined,
      milliseconds: 20,
    })
  })

  it('counts the first story where it is right, by cause or by the parts alone, and no fourth', async () => {
    const card = handCard({ damages: [die] })
    const hits = async (...stories: Story[]) => {
      const { first, firstThree, firstByPart, firstThreeByPart } = await scored(card, asker({ ask: says({ stories }) }))
      return [first, firstThree, firstByPart, firstThreeByPart]
    }
    const [right, byPart, wrong] = [told('die', 'U2', 'U2'), told('joints', 'U2/A0', 'U2'), told('die', 'U3', 'U3')]
    expect(await hits(right)).toEqual([true, true, true, true])
    expect(await hits(byPart)).toEqual([false, false, true, true])
    expect(await hits(wrong, wrong, wrong, right)).toEqual([false, false, false, false])
    expect(await hits()).toEqual([false, false, false, false])
    const { stories } = await scored(card, asker({ ask: says({ stories: Array(8).fill(wrong) }) }))
    expect(stories).toHaveLength(6)
  })

  it('tells two things as two, and the substance of whichever was spilled', async () => {
    const causes = [{ kind: 'die', at: 'U2' } as const, spillCause({ substance: 'water' })]
    const { kind, kinds, substance } = await scored(handCard({ causes }), asker())
    expect([kind, kinds, substance]).toEqual(['two', ['die', 'wet-spill'], 'water'])
    expect((await scored(handCard(), asker())).kind).toBe('')
  })

  it('tells how far place and mark lie from where it was spilled, where all three are there', async () => {
    // 3-4-5 from the mark, 6-8-10 from what is said
    const card = handCard({
      causes: [spillCause({ at: { x: 20, y: 20 } })],
      seen: { spills: [spillMark({ at: { x: 23, y: 24 } })] },
    })
    const grid = { originXMm: 0, originYMm: 0, cellMm: 1, columns: 0, rows: 0 }
    const spill = {
      at: { x: 14, y: 12 },
      sdMm: 7,
      side: 'top',
      grid,
      density: new Float32Array(),
      probability: 1,
    } as const
    const by = asker({ ask: says({ spill }) })
    expect((await scored(card, by)).place).toEqual({ errorMm: 10, markMm: 5, sdMm: 7 })
    expect((await scored(card, asker())).place).toBeUndefined()
    expect((await scored(handCard({ causes: card.truth.causes }), by)).place).toBeUndefined()
    expect((await scored(handCard({ seen: card.observations }), by)).place).toBeUndefined()
  })

  it('judges again without looks, without readings and without both, where that is asked for', async () => {
    const area = { kind: 'clean', id: 'a', side: 'top', at: { x: 1, y: 1 }, radiusMm: 1 } as const
    const measurement = {
      line: { kind: 'rail', name: 'VMEM' },
      quantity: 'ohms',
      phase: 'before',
      reading: { kind: 'value', value: 60 },
      typed: '60',
    } as const
    const card = handCard({ damages: [die], seen: { areas: [area], measurements: [measurement] } })
    // the list is right only with both, and the core is said by how much there is to go by
    const by = asker({
      ask: ({ areas, measurements }) => ({
        ...nothingJudged,
        lift: areas.length + measurements.length === 2 ? ['U2'] : [],
        parts: [suspected('U1', 0.1 * areas.length + 0.2 * measurements.length)],
      }),
    })
    const { without, cost } = await scored(card, by, { variants: true })
    expect(cost.liftmap).toBeCloseTo(liftCost('U2'), 9)
    const liftmap = expect.closeTo(liftCost('U2') + comeback, 9)
    expect(without).toEqual({
      looks: { liftmap, core: [0.2, 0] },
      readings: { liftmap, core: [0.1, 0] },
      both: { liftmap, core: [0, 0] },
    })
    expect(await scored(card, by)).not.toHaveProperty('without')
  })

  it('lets somebody follow the proposals remedy by remedy, where that is asked for', async () => {
    const { remedies } = await scored(handCard({ damages: [die] }), asker(), { remedies: true })
    expect(remedies?.proposals).toMatchObject({ end: 'sent back', cost: 650 })
    expect(await scored(handCard(), asker())).not.toHaveProperty('remedies')
  })
})

describe('a technician in steps on the scorecard', () => {
  const press = (at: string): Action => ({ kind: 'check', check: 'press', at })
  const card = handCard({ damages: [core], seen: { report: reporting('U2.A0') } })
  /** Presses U2, then lifts the core. */
  const propose = ({ checks, rounds }: Known): Action =>
    checks.length === 0 ? press('U2') : rounds.length === 0 ? { kind: 'lift', refs: ['U1'] } : { kind: 'hand-back' }
  const by = asker({
    propose,
    ask: ({ checks, rounds }) => ({
      ...nothingJudged,
      lift: checks.length > 0 ? ['U1'] : [],
      parts: [suspected('U1', checks.length > 0 && rounds.length === 0 ? 0.75 : 0.5)],
    }),
  })

  it('pays 12 minutes of checks, the lift and a run; the list after the checks stands beside', async () => {
    const score = await scored(card, by, { steps: true })
    const cost = 12 + liftCost('U1') + 15
    expect(score.steps).toMatchObject({ minutesOfChecks: 12, checks: 1, rounds: 1, done: ['press U2', 'lift U1'] })
    expect(score.cost.steps).toBeCloseTo(cost, 9)
    expect(score.checked).toEqual({ liftmap: expect.closeTo(liftCost('U1'), 9), core: [0.75, 1] })
    expect(score.core).toEqual([0.5, 1])
    expect(score).not.toHaveProperty('otherOrders')
    expect(await scored(card, by)).not.toHaveProperty('steps')
  })

  it('hands the list at once back as one who never decided anything but a check', async () => {
    const never = asker({ ...by, propose: ({ checks }) => press(`U${checks.length}`) })
    const { checked, steps } = await scored(card, never, { steps: true })
    expect(steps?.checks).toBe(40)
    expect(checked).toEqual({ liftmap: expect.closeTo(liftCost('U1') + comeback, 9), core: [0.5, 1] })
  })

  it('is held against other choices of checks: by chance, the first that is open, none', async () => {
    const open = [press('U3'), { kind: 'check', check: 'warm-cool', at: 'U3' } as const]
    const without = ({ rounds }: Known): Action =>
      rounds.length === 0 ? { kind: 'lift', refs: ['U2'] } : { kind: 'hand-back' }
    const others = asker({ ...by, open: () => open, proposeWithoutChecks: without })
    const { otherOrders } = await scored(card, others, { steps: true, orders: true })
    const lift = liftCost('U1') + 15
    expect(otherOrders).toMatchObject({ steps: expect.closeTo(12 + lift, 9), fixed: expect.closeTo(12 + lift, 9) })
    // who asks nothing lifts U2, and the core comes back
    expect(otherOrders?.noChecks).toBeCloseTo(liftCost('U2') + 15 + liftCost('U1') + comeback, 9)
    // press 8 + 4 minutes, or warm and cool 8 + 6
    expect([12 + lift, 14 + lift].map((each) => each.toFixed(6))).toContain(otherOrders?.random.toFixed(6))
  })

  it('who picks checks otherwise stops after eight, and lifts at once where none is open', async () => {
    let open = (known: Known): Action[] => [press(`U${known.checks.length}`)]
    const others = asker({ ...by, propose: () => press('U2'), open: (known) => open(known) })
    const eight = await scored(card, others, { steps: true, orders: true })
    expect(eight.otherOrders?.fixed).toBeCloseTo(8 * 12 + liftCost('U1') + comeback, 9)
    open = () => []
    const none = await scored(card, others, { steps: true, orders: true })
    expect(none.otherOrders?.random).toBeCloseTo(liftCost('U1') + comeback, 9)
  })
})

it('the report alone is what is judged first: lanes that it does not speak of are untested', async () => {
  const asked: Known[] = []
  const by = asker({
    ask: (known) => {
      asked.push(known)
      return nothingJudged
    },
  })
  await scored(handCard({ damages: [die], seen: { report: reporting('U3.B0'), told: 'accident' } }), by)
  expect(asked).toHaveLength(1)
  const untested = new Map([...lanes()].map(([id]) => [id, id === 'U3.B0' ? 'fail' : 'untested']))
  expect(asked[0]).toMatchObject({ told: 'accident', checks: [], rounds: [] })
  expect(asked[0]?.lanes).toEqual(untested)
})
