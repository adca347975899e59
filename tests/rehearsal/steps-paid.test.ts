/** What each act of a technician in steps costs and what is known after it, on cards by hand at 60 an hour. */
import { describe, expect, it } from 'vitest'
import {
  type Action,
  type Known,
  type Proposer,
  pricesOf,
  type SimulatedCard,
  type StepsScore,
  workInSteps,
} from '../../src/rehearsal/index.ts'
import { asKnown, damage, handCard, lanes, model, reading } from './hand-card.ts'

const prices = pricesOf(model)
const { liftCost, comeback } = prices
const HAND_BACK: Action = { kind: 'hand-back' }

/** Does these actions in turn; what was known before each, and at the end. */
function follow(card: SimulatedCard, actions: readonly Action[], otherwise?: Proposer) {
  const seen: Known[] = []
  const propose: Proposer = (known) => {
    seen.push(known)
    return actions[seen.length - 1] ?? HAND_BACK
  }
  const score: StepsScore = workInSteps(card, asKnown(card), propose, prices, otherwise)
  return { score, seen, last: seen.at(-1) ?? asKnown(card) }
}
const press: Action = { kind: 'check', check: 'press', at: 'U2' }
const wrongDie = damage({})
const wrongCore = damage({ kind: 'core', at: 'U1', ref: 'U1' })

describe('a lift in steps', () => {
  it('costs each part and one run of 15 minutes, and closes a round', () => {
    const card = handCard({ damages: [wrongDie] })
    const { score, last } = follow(card, [{ kind: 'lift', refs: ['U2', 'U3'] }])
    const cost = liftCost('U2') + liftCost('U3') + 15
    expect(score).toEqual({
      cost: expect.closeTo(cost, 9),
      costBesideProof: expect.closeTo(cost - 15, 9),
      minutesOfChecks: 0,
      checks: 0,
      rounds: 1,
      lifted: ['U2', 'U3'],
      comeback: false,
      done: ['lift U2 U3'],
    })
    const mended = model.lanes.map(({ id }) => id)
    expect(last.rounds).toEqual([{ lifted: ['U2', 'U3'], putRight: mended, lanes: lanes() }])
  })

  it('of the wrong part leaves a comeback with the lift of the right one', () => {
    const { score } = follow(handCard({ damages: [wrongDie, wrongCore] }), [{ kind: 'lift', refs: ['U2'] }])
    expect(score.cost).toBeCloseTo(liftCost('U2') + 15 + comeback + liftCost('U1'), 9)
    expect(score.comeback).toBe(true)
  })

  it('names a part that came off twice once, and pays it twice', () => {
    const lift: Action = { kind: 'lift', refs: ['U2'] }
    const { score } = follow(handCard({ damages: [wrongDie] }), [lift, lift])
    expect(score).toMatchObject({ lifted: ['U2'], rounds: 2, done: ['lift U2', 'lift U2'] })
    expect(score.cost).toBeCloseTo(2 * (liftCost('U2') + 15), 9)
    expect(score.costBesideProof).toBeCloseTo(score.cost - 15, 9)
  })

  it('marks film where it lay, at most in two places, or the middle clean', () => {
    const wet = ['U2/A0', 'none', 'U2/B0']
    const card = handCard({ change: { lift: (refs) => refs.map((ref) => ({ ref, atFault: false, wet, kinds: [] })) } })
    const { last } = follow(card, [{ kind: 'lift', refs: ['U2'] }])
    const { x = 0, y = 0 } = model.regionById.get('U2/A0')?.centre ?? {}
    // the second of the two has no place on this board, and the third is one too many
    expect(last.areas).toEqual([{ kind: 'film', id: 'under-U2/A0', at: { x, y }, side: 'top', radiusMm: 1.5 }])
    const clean = follow(handCard(), [{ kind: 'lift', refs: ['U3', 'U1', 'S1'] }]).last.areas
    expect(clean).toEqual([
      { kind: 'clean', id: 'under-U3', at: { x: 25, y: 40 }, side: 'bottom', radiusMm: 1.5 },
      { kind: 'clean', id: 'under-U1', at: { x: 60, y: 40 }, side: 'top', radiusMm: 1.5 },
    ])
  })

  it('mends what can be seen in passing: tracks, marked slips, and rails that read off', () => {
    const slips = [{ kind: 'slip', id: 's1', side: 'top', at: { x: 1, y: 1 }, radiusMm: 1 }] as const
    const measurements = [reading('VMEM', 0.4)]
    const { last } = follow(handCard({ seen: { slips, measurements } }), [{ kind: 'lift', refs: ['U2'] }])
    const tracks = model.lanes.map(({ id }) => id)
    expect(last.rounds[0]?.putRight).toEqual([...tracks, 'slip s1', 'rail VMEM'])
    const fine = follow(handCard({ seen: { measurements: [reading('VMEM', 60)] } }), [{ kind: 'lift', refs: ['U2'] }])
    expect(fine.last.rounds[0]?.putRight).toEqual(tracks)
  })
})

describe('going into rails and tracks', () => {
  it('costs 10 minutes each and a run, and hands on only the rails', () => {
    const asked: unknown[] = []
    const retest: SimulatedCard['retest'] = (...args) => {
      asked.push(args)
      return lanes('U2.B1')
    }
    const names = ['rail VMEM', 'U2.A0']
    const { score, last } = follow(handCard({ change: { retest } }), [
      { kind: 'run-again' },
      { kind: 'put-right', names },
      { kind: 'run-again' },
      { kind: 'lift', refs: ['U3'] },
    ])
    expect(asked).toEqual([
      [[], undefined],
      [[], ['rail VMEM']],
      [[], ['rail VMEM']],
      [['U3'], ['rail VMEM']],
    ])
    expect(score.cost).toBeCloseTo(15 + (20 + 15) + 15 + (liftCost('U3') + 15), 9)
    expect(score.done).toEqual(['run again', 'put right rail VMEM, U2.A0', 'run again', 'lift U3'])
    expect(score.rounds).toBe(4)
    const tracks = model.lanes.map(({ id }) => id)
    expect(last.rounds.map(({ lifted, putRight }) => ({ lifted, putRight }))).toEqual([
      { lifted: [], putRight: undefined },
      { lifted: [], putRight: ['rail VMEM', ...tracks] },
      { lifted: [], putRight: undefined },
      { lifted: ['U3'], putRight: tracks },
    ])
    expect(last.rounds.every((round) => round.lanes.get('U2.B1') === 'fail')).toBe(true)
  })
})

describe('a check in steps', () => {
  const told: unknown[] = []
  const change: Partial<SimulatedCard> = {
    outcomeOf: (...args) => {
      told.push(args)
      return true
    },
  }

  it('is paid by its minutes, and its answer stands with the run that it came after', () => {
    const { score, last } = follow(handCard({ change }), [press, { kind: 'lift', refs: ['U3'] }, press])
    // 8 to set up and 4 for the one place
    expect(score).toMatchObject({ checks: 2, minutesOfChecks: 24, done: ['press U2', 'lift U3', 'press U2'] })
    expect(score.cost).toBeCloseTo(24 + liftCost('U3') + 15, 9)
    expect(last.checks).toEqual([
      { check: 'press', at: 'U2', found: true, run: 0 },
      { check: 'press', at: 'U2', found: true, run: 1 },
    ])
    expect(told).toEqual([
      ['press', 'U2', [], undefined],
      ['press', 'U2', ['U3'], []],
    ])
  })

  it('that was made already is not made again, but what is done otherwise', () => {
    const otherwise: Proposer = ({ rounds }) => (rounds.length === 0 ? { kind: 'lift', refs: ['U2'] } : HAND_BACK)
    const { score } = follow(handCard(), [press, press, press, press], otherwise)
    expect(score.done).toEqual(['press U2', 'lift U2', 'press U2'])
    expect(follow(handCard(), [press, press]).score.done).toEqual(['press U2'])
  })

  it('that the catalogue does not have is none, and 40 actions are the most', () => {
    const { score } = follow(handCard(), [{ kind: 'check', check: 'none', at: 'U2' }])
    expect(score).toMatchObject({ checks: 0, cost: 0, done: [] })
    const endless = workInSteps(handCard(), asKnown(handCard()), () => ({ kind: 'run-again' }), prices)
    expect(endless.rounds).toBe(40)
  })

  it('of an edge marks residue or clean where the edge is', () => {
    const look: Action = { kind: 'check', check: 'edge-look', at: 'the south edge of U1' }
    const mark = { id: 'look-U1-south', side: 'top', at: { x: 60, y: 24.7 }, radiusMm: 1.5 }
    const seen = follow(handCard({ change }), [look])
    expect(seen.last.areas).toEqual([{ ...mark, kind: 'residue' }])
    expect(follow(handCard(), [look]).last.areas).toEqual([{ ...mark, kind: 'clean' }])
    // 1 to set up and 2 for the one edge
    expect(seen.score.minutesOfChecks).toBe(3)
    expect(follow(handCard(), [{ ...look, at: 'nowhere' }]).last.areas).toEqual([])
  })

  it('of a line enters what was not read before, and pays for each of those, at least one', () => {
    const asked: unknown[] = []
    const measure: SimulatedCard['measure'] = (...args) => {
      asked.push(args)
      return [reading('S1', 9000, 'stage'), reading('S2', 9100, 'stage'), reading('S3', 9200, 'stage')]
    }
    const at = (name: string): Action => ({ kind: 'check', check: 'stage-siblings', at: name })
    const card = handCard({ seen: { measurements: [reading('S1', 8900, 'stage')] }, change: { measure } })
    const { score, last } = follow(card, [at('S1'), at('S2'), { kind: 'lift', refs: ['U3'] }, at('S1')])
    expect(last.measurements.map(({ typed }) => typed)).toEqual(['8900', '9100', '9200'])
    expect(last.unanswered?.map((each) => each.at)).toEqual(['S1', 'S2', 'S1'])
    // 1 to set up and 1 for each reading: two new ones, then none
    expect(score.minutesOfChecks).toBe(3 + 2 + 2)
    expect(asked).toEqual([
      [{ kind: 'stage', name: 'S1' }, [], undefined],
      [{ kind: 'stage', name: 'S2' }, [], undefined],
      [{ kind: 'stage', name: 'S1' }, ['U3'], []],
    ])
    // a rail of the same name is another line
    const rail = handCard({
      seen: { measurements: [reading('S1', 1, 'rail')] },
      change: { measure: () => [reading('S1', 9000, 'stage')] },
    })
    expect(follow(rail, [at('S1')]).last.measurements).toHaveLength(2)
  })
})
