import { describe, expect, it } from 'vitest'
import {
  accidentKinds,
  middleMixture,
  mixtureCalled,
  mixtureNames,
  type SimulatedCard,
  simulateCard,
  tallyOfCard,
  variedMixture,
} from '../../src/rehearsal/index.ts'
import { seededRandom } from '../../src/base/index.ts'
import { SHIPPED, shippedBoard } from '../support/read-board.ts'

const boards = SHIPPED.map(shippedBoard)

function cardsOf(count: number, mixture = mixtureCalled('middle')): SimulatedCard[] {
  return Array.from({ length: count }, (_, index) => {
    const board = boards[index % boards.length]
    if (board === undefined) throw new Error('no board')
    return simulateCard(board, 5000 + index, mixture)
  })
}

const cards = cardsOf(400)
const coreNeeded = (list: readonly SimulatedCard[]): number =>
  list.filter(({ model, truth }) => truth.needs.includes(model.core?.ref ?? '')).length / list.length

describe('a simulated card', () => {
  it('is the same for the same seed, and another for another', () => {
    const [board] = boards
    if (board === undefined) throw new Error('no board')
    const told = (seed: number): string => JSON.stringify(simulateCard(board, seed).observations)
    expect(told(11)).toBe(told(11))
    expect(told(11)).not.toBe(told(12))
  })

  it('needs no part that is not at fault, and every part under which a lane or line is spoiled', () => {
    for (const { truth } of cards) {
      const faulty = truth.damages.filter(({ lanes, lines }) => lanes.length + lines.length > 0)
      expect(new Set(truth.needs)).toEqual(new Set(faulty.flatMap(({ ref }) => ref ?? [])))
    }
  })

  it('passes all lanes again once everything that it needs was put right, but for rails that are weak under load', () => {
    const ofLoad = ({ truth }: SimulatedCard): boolean =>
      truth.damages.some(({ kind, lines }) => (kind === 'rail' || kind === 'rail-branch') && lines.length === 0)
    for (const card of cards.filter((each) => !ofLoad(each))) {
      const lanes = card.retest(card.truth.needs.length > 0 ? card.truth.needs : ['nothing in particular'])
      expect([...lanes.values()]).not.toContain('fail')
    }
  })

  it('fails no lane that nothing spoils, in its report as in a retest', async () => {
    for (const card of cards.slice(0, 200)) {
      const tally = await tallyOfCard(card)
      if (!tally.ok) throw new Error(JSON.stringify(tally.faults))
      const lanes = tally.value.parts.flatMap(({ channels }) => channels.flatMap((channel) => channel.lanes))
      const failing = lanes.filter(({ state }) => state === 'fail').map(({ id }) => id)
      expect(card.truth.spoiled).toEqual(expect.arrayContaining(failing))
      const again = [...card.retest([])].filter(([, state]) => state === 'fail').map(([id]) => id)
      expect(card.truth.spoiled).toEqual(expect.arrayContaining(again))
    }
  })

  it('answers a check the same way however often it is asked', () => {
    for (const card of cards.slice(0, 60)) {
      const at = card.model.memories[0]?.ref ?? ''
      const answers = Array.from({ length: 5 }, () => card.outcomeOf('press', at))
      expect(new Set(answers).size).toBe(1)
    }
  })

  it('finds under a lifted part what truly was there', () => {
    for (const card of cards) {
      const found = card.lift(card.truth.needs)
      expect(found.every(({ atFault }) => atFault)).toBe(true)
    }
  })
})

describe('checks on simulated cards', () => {
  it('find a bad joint by pressing about as often as the catalogue says', () => {
    const middle = middleMixture()
    const weights = { ...middle.weights }
    for (const kind of accidentKinds) weights[kind] = kind === 'joints' ? 1 : 0
    const joints = cardsOf(160, { ...middle, weights, figures: { ...middle.figures, secondAccident: 0 } })
    const found = joints.filter((card) => card.outcomeOf('press', card.truth.needs[0] ?? '')).length
    expect(found / joints.length).toBeGreaterThan(0.42)
    expect(found / joints.length).toBeLessThan(0.7)
  })

  it('seldom find something at a part that is fine', () => {
    const asked = cards.flatMap((card) =>
      card.model.memories
        .filter(({ ref }) => !card.truth.needs.includes(ref))
        .map(({ ref }) => card.outcomeOf('press', ref)),
    )
    expect(asked.filter(Boolean).length / asked.length).toBeLessThan(0.06)
  })
})

describe('the mixtures', () => {
  it('are at least three, and differ in how often the core must come off', () => {
    expect(mixtureNames.length).toBeGreaterThanOrEqual(3)
    expect(coreNeeded(cardsOf(250, mixtureCalled('core-heavy')))).toBeGreaterThan(0.5)
    expect(coreNeeded(cardsOf(250, mixtureCalled('die-heavy')))).toBeLessThan(0.27)
  })

  it('need the core on about a third of the cards in the middle (common practice, no source)', () => {
    expect(coreNeeded(cards)).toBeGreaterThan(0.26)
    expect(coreNeeded(cards)).toBeLessThan(0.42)
  })

  it('hold two independent things on about one card in twelve', () => {
    const two = cards.filter(({ truth }) => truth.causes.length > 1).length / cards.length
    expect(two).toBeGreaterThan(0.04)
    expect(two).toBeLessThan(0.13)
  })

  it('vary around themselves with a seed, and sum to one', () => {
    const middle = middleMixture()
    const varied = variedMixture(middle, seededRandom(3))
    const weights = Object.values(varied.weights)
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9)
    expect(varied.weights).not.toEqual(middle.weights)
    for (const weight of weights) expect(weight).toBeGreaterThanOrEqual(0)
  })
})
