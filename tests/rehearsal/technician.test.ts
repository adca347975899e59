/** What working in steps costs, with technicians who know too much, too little, or look first. */
import { describe, expect, it } from 'vitest'
import {
  costOfKnowing,
  costOfList,
  createAsker,
  evidenceOfTally,
  knownOf,
  pricesOf,
  type Proposer,
  type SimulatedCard,
  simulateCard,
  type StepsScore,
  tallyOfCard,
  workInSteps,
} from '../../src/rehearsal/index.ts'
import { shippedBoard } from '../support/read-board.ts'

const model = shippedBoard('splice-6')
const prices = pricesOf(model)
const RETEST = 15 * prices.minute

async function work(card: SimulatedCard, proposer: Proposer): Promise<StepsScore> {
  const tally = await tallyOfCard(card)
  if (!tally.ok) throw new Error('unreadable')
  return workInSteps(card, knownOf(card, evidenceOfTally(model, tally.value)), proposer, prices)
}

const cards = Array.from({ length: 60 }, (_, index) => simulateCard(model, 600 + index))
const needy = cards.filter(({ truth }) => truth.needs.length > 0)

describe('a technician in steps', () => {
  it('who knows all pays the needed lifts and one test', async () => {
    for (const card of needy) {
      const { needs } = card.truth
      const steps = await work(card, ({ rounds }) =>
        rounds.length === 0 ? { kind: 'lift', refs: needs } : { kind: 'hand-back' },
      )
      expect(steps.cost).toBeCloseTo(costOfList(prices, needs, needs) + RETEST, 9)
      expect(steps.comeback).toBe(false)
    }
  })

  it('who knows all and goes into what is no part too pays what knowing costs in steps, and no less', async () => {
    const isBeside = ({ ref, lanes, lines }: SimulatedCard['truth']['damages'][number]): boolean =>
      ref === undefined && lanes.length + lines.length > 0
    for (const card of cards) {
      const { needs, damages } = card.truth
      const beside = damages.filter(isBeside)
      const places = new Set(beside.map(({ cause }) => cause)).size
      expect(costOfKnowing(prices, card.truth)).toBeCloseTo(
        costOfList(prices, needs, needs) + (10 * places + 15) * prices.minute,
        9,
      )
      const [only] = beside
      if (beside.length !== 1 || only === undefined || needs.length > 0) continue
      const steps = await work(card, ({ rounds }) =>
        rounds.length === 0 ? { kind: 'put-right', names: [only.at] } : { kind: 'hand-back' },
      )
      expect(steps.cost).toBeCloseTo(costOfKnowing(prices, card.truth), 9)
    }
    expect(cards.some(({ truth }) => truth.needs.length === 0 && truth.damages.some(isBeside))).toBe(true)
  })

  it('who follows what is proposed takes no part off again that came back right', async () => {
    const asker = createAsker(model)
    const failing = needy.filter(({ observations }) => observations.spills.length === 0).slice(0, 4)
    for (const card of failing) {
      const { done } = await work(card, asker.propose)
      const lifts = done.flatMap((each) => (each.startsWith('lift ') ? each.slice('lift '.length).split(' ') : []))
      expect(lifts).toEqual([...new Set(lifts)])
    }
  })

  it('who hands back at once pays the comeback where something was needed, and nothing where not', async () => {
    for (const card of cards) {
      const steps = await work(card, () => ({ kind: 'hand-back' }))
      expect(steps.cost).toBeCloseTo(costOfList(prices, [], card.truth.needs), 9)
      expect(steps.comeback).toBe(card.truth.needs.length > 0)
    }
  })

  it('pays each check by its minutes, and enters what it found', async () => {
    const [card] = needy
    if (card === undefined) throw new Error('no card')
    const at = model.memories[0]?.ref ?? ''
    const seen: number[] = []
    const steps = await work(card, ({ checks }) => {
      seen.push(checks.length)
      return checks.length < 2
        ? { kind: 'check', check: checks.length === 0 ? 'press' : 'warm-cool', at }
        : { kind: 'hand-back' }
    })
    expect(seen).toEqual([0, 1, 2])
    expect(steps.minutesOfChecks).toBe(8 + 4 + 8 + 6)
    expect(steps.cost).toBeCloseTo(costOfList(prices, [], card.truth.needs) + 26 * prices.minute, 9)
  })

  it('sees the lanes pass in the round after the last needed part came off', async () => {
    for (const card of needy.slice(0, 20)) {
      let failing = -1
      await work(card, ({ rounds }) => {
        const last = rounds.at(-1)
        if (last === undefined) return { kind: 'lift', refs: card.truth.needs }
        failing = [...last.lanes.values()].filter((state) => state === 'fail').length
        return { kind: 'hand-back' }
      })
      expect(failing).toBe(0)
    }
  })

  it('does no check twice in one round, and is stopped where there is no end', async () => {
    const [card] = cards
    if (card === undefined) throw new Error('no card')
    const again = await work(card, () => ({ kind: 'check', check: 'press', at: 'U11' }))
    expect(again.done).toEqual(['press U11'])
    const endless = await work(card, () => ({ kind: 'lift', refs: ['U11'] }))
    expect(endless.rounds).toBeLessThan(100)
  })

  it('measures a line that was not measured, with the siblings of a stage', async () => {
    const [card] = cards.filter(({ observations }) => observations.measurements.length === 0)
    if (card === undefined) throw new Error('no card without readings')
    const rail = model.rails.find(({ stages }) => stages.length > 1)
    const at = rail?.stages[0] ?? ''
    let entered: string[] = []
    await work(card, ({ measurements }) => {
      entered = measurements.map(({ line }) => line.name)
      return entered.length === 0 ? { kind: 'check', check: 'stage-siblings', at } : { kind: 'hand-back' }
    })
    expect(new Set(entered)).toEqual(new Set(rail?.stages))
  })
})
