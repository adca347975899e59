/**
 * What each act at the bench costs and tells, worked by hand from the price book: 60 an hour; prepare 15, heat 12, memory 5,
 * core 12, small part 4, site 6 and 1.5 a cm², reball 12 and 2 a hundred balls, replace 4, look over 15, run 15, go into 10.
 */
import { describe, expect, it } from 'vitest'
import { type SimulatedCard, startJob, workKnowing, workPlainly } from '../../src/rehearsal/index.ts'
import { asKnown, damage, handCard, lanes, model, reading, spillMark } from './hand-card.ts'
import { follow, HAND_BACK, planned, step } from './remedy-support.ts'

// a memory package is 12 by 14 mm with 180 balls, the core 29 by 29 mm, the stage 5 by 6 mm
const LIFT = 17
const SITE = 6 + 1.5 * 1.68
const REPLACE = SITE + 4 + LIFT + 15
const REBALL = SITE + 12 + 3.6 + LIFT + 15
const FLUX = 0.8
const SITE_MATERIALS = 0.5 + 0.7 + 0.8
const BALLS = (4 * 180) / 1000

const joints = damage({ kind: 'joints', at: 'U2/A0' })
const liftU2 = planned([step('lift', 'U2')])

describe('an act at the bench', () => {
  it('lift and new balls: the part is prepared once, cleaned, reballed, looked over and run', () => {
    const { score, asked } = follow(handCard({ damages: [joints] }), [liftU2, planned([step('reball', 'U2')])])
    const minutes = 15 + LIFT + REBALL + 15
    expect(score.proposals).toEqual({
      cost: expect.closeTo(minutes + FLUX + SITE_MATERIALS + BALLS, 9),
      minutes: expect.closeTo(minutes, 9),
      end: 'works',
      runs: 1,
      done: ['lift U2', 'reball U2', 'run'],
    })
    expect(asked.map(({ bench }) => bench)).toEqual([
      { washed: false, takenUp: false, untested: false, lifted: [], offNow: [] },
      { washed: false, takenUp: false, untested: false, lifted: ['U2'], offNow: ['U2'] },
      { washed: false, takenUp: false, untested: false, lifted: ['U2'], offNow: [] },
    ])
    expect(asked.at(-1)?.known.rounds).toEqual([
      { lifted: ['U2'], replaced: [], washed: false, lanes: lanes(), putRight: [] },
    ])
  })

  it('two parts off, one of them new: the board is prepared for the first alone', () => {
    const twice = planned([step('reball', 'U2'), step('replace', 'U3')])
    const { score, asked } = follow(handCard(), [planned([step('lift', 'U2', 'U3', 'U2', 'none')]), twice])
    const minutes = 15 + 2 * LIFT + REBALL + REPLACE + 15
    expect(score.proposals.minutes).toBeCloseTo(minutes, 9)
    expect(score.proposals.cost).toBeCloseTo(minutes + 2 * (FLUX + SITE_MATERIALS) + BALLS + 15, 9)
    expect(score.proposals.done).toEqual(['lift U2', 'lift U3', 'reball U2', 'replace U3', 'run'])
    expect(asked.at(-1)?.known.rounds[0]).toMatchObject({ lifted: ['U2', 'U3'], replaced: ['U3'] })
  })

  it('reballs all where what comes next replaces none', () => {
    const { score } = follow(handCard(), [liftU2, planned([step('reball', 'U2'), step('lift', 'U2')])])
    expect(score.proposals.done).toEqual(['lift U2', 'reball U2', 'run'])
  })

  it('a small part goes back as a new one', () => {
    const { score } = follow(handCard(), [planned([step('lift', 'S1')]), planned([step('reball', 'S1')])])
    const minutes = 15 + 16 + (6 + 1.5 * 0.3 + 4 + 16 + 15) + 15
    expect(score.proposals.done).toEqual(['lift S1', 'replace S1', 'run'])
    expect(score.proposals.cost).toBeCloseTo(minutes + FLUX + SITE_MATERIALS + 4, 9)
  })

  it('washing, taking up and going into places cost their minutes and a run', () => {
    const slips = [{ kind: 'slip', id: 's1', side: 'top', at: { x: 1, y: 1 }, radiusMm: 1 }] as const
    const card = handCard({ seen: { slips } })
    const places = planned([step('repair-around', 'rail VMEM', 'the track of U2.A0', 'what it hit', 'rail VMEM')])
    const { score, asked } = follow(card, [
      planned([step('wash')]),
      planned([step('take-up')]),
      places,
      planned([step('find-short', 'rail VMEM')]),
      planned([step('run-again')]),
    ])
    expect(score.proposals).toMatchObject({ minutes: 25 + 20 + 40 + 10 + 5 * 15, cost: 170, runs: 5 })
    expect(score.proposals.done).toEqual([
      'wash',
      'run',
      'take up',
      'run',
      'repair rail VMEM, the track of U2.A0, what it hit, rail VMEM',
      'run',
      'repair rail VMEM',
      'run',
      'run',
    ])
    const nothing = { lifted: [], replaced: [], washed: false, lanes: lanes() }
    expect(asked.at(-1)?.known.rounds).toEqual([
      { ...nothing, washed: true },
      { ...nothing, washed: true },
      { ...nothing, putRight: ['rail VMEM', 'U2.A0', 'slip s1'] },
      { ...nothing, putRight: ['rail VMEM'] },
      nothing,
    ])
    const { washed, takenUp } = asked.at(-1)?.bench ?? {}
    expect([washed, takenUp]).toEqual([true, true])
    expect(asked[1]?.bench).toMatchObject({ washed: true, takenUp: false })
  })

  it('metal is taken up without a run where a lift comes next', () => {
    const { score } = follow(handCard(), [planned([step('take-up'), step('lift', 'U2')])])
    expect(score.proposals).toMatchObject({ done: ['take up'], runs: 0, minutes: 20 })
  })
})

describe('a check at the bench', () => {
  const check = (id: string, at: string) => planned([step('check')], { check: { check: id, at } })
  const answering = (change: Partial<ReturnType<SimulatedCard['withLeft']>>): SimulatedCard =>
    handCard({
      change: {
        withLeft: () => ({ outcomeOf: () => true, measure: () => [], test: () => lanes(), ...change }),
      },
    })

  it('is answered with the run that it came after', () => {
    const { score, asked } = follow(answering({}), [planned([step('run-again')]), check('press', 'U2')])
    expect(score.proposals).toMatchObject({ minutes: 15 + 12, done: ['run', 'check press U2'] })
    expect(asked.at(-1)?.known.checks).toEqual([{ check: 'press', at: 'U2', found: true, run: 1 }])
  })

  it('of an edge is a mark, and of none that the card has is paid and marks nothing', () => {
    const mark = { id: 'look-U1-south', side: 'top', at: { x: 60, y: 24.7 }, radiusMm: 1.5 }
    const look = check('edge-look', 'the south edge of U1')
    expect(follow(answering({}), [look]).asked.at(-1)?.known.areas).toEqual([{ ...mark, kind: 'residue' }])
    const clean = follow(answering({ outcomeOf: () => false }), [look])
    expect(clean.asked.at(-1)?.known.areas).toEqual([{ ...mark, kind: 'clean' }])
    const nowhere = follow(answering({}), [check('edge-look', 'nowhere')])
    expect([nowhere.asked.at(-1)?.known.areas, nowhere.score.proposals.minutes]).toEqual([[], 3])
  })

  it('of a line pays for what was not read before, at least for one', () => {
    const read = [reading('S1', 9000, 'stage'), reading('S2', 9100, 'stage')]
    const stage = check('stage-siblings', 'S1')
    const { score, asked } = follow(answering({ measure: () => read }), [stage, stage])
    expect(asked.at(-1)?.known.measurements).toEqual(read)
    expect(asked.at(-1)?.known.unanswered).toEqual([
      { check: 'stage-siblings', at: 'S1' },
      { check: 'stage-siblings', at: 'S1' },
    ])
    expect(score.proposals).toMatchObject({ minutes: 3 + 2, done: Array(2).fill('check stage-siblings S1') })
  })

  it('that nobody knows is none', () => {
    const { score } = follow(answering({}), [check('none', 'U2'), planned([step('check')])])
    expect(score.proposals).toMatchObject({ minutes: 0, done: [] })
  })
})

describe('the end of a job', () => {
  it('sent back untouched loses what a repair would have brought, after heat some more', () => {
    const back = planned([step('return')])
    expect(follow(handCard(), [], back).score.proposals).toMatchObject({ cost: 650, end: 'sent back', runs: 0 })
    const hot = follow(handCard(), [liftU2], back).score.proposals
    expect(hot).toMatchObject({ cost: 15 + LIFT + FLUX + 700, end: 'sent back' })
    expect(follow(handCard(), [], planned([])).score.proposals).toMatchObject({ cost: 650, end: 'sent back' })
  })

  it('handed back with something left is a comeback of 180 minutes and 150', () => {
    expect(follow(handCard({ damages: [joints] }), []).score.proposals).toMatchObject({ cost: 330, end: 'comes back' })
    expect(follow(handCard(), []).score.proposals).toMatchObject({ cost: 0, end: 'works', minutes: 0, done: [] })
  })

  it('a core that is lost in the lift ends it before anything else is asked', () => {
    const card = handCard({ figures: { liftLosesCore: 1 } })
    const { score, asked } = follow(card, [planned([step('lift', 'U1')])])
    expect(score.proposals).toMatchObject({ cost: 15 + 24 + FLUX + 700, end: 'lost' })
    expect(asked).toHaveLength(1)
  })

  it('comes after 30 steps at the latest, as working where the last run passed', () => {
    const again = planned([step('run-again')])
    expect(follow(handCard(), [], again).score.proposals).toMatchObject({ runs: 30, end: 'works', cost: 450 })
    const failing = follow(handCard({ damages: [joints] }), [], again).score.proposals
    expect(failing).toMatchObject({ runs: 30, end: 'sent back', cost: 450 + 650 })
  })

  it('is held to what the first plan promised, where it reckoned anything', () => {
    const promising = planned([step('run-again')], { expectedCost: 120, works: 0.8 })
    expect(follow(handCard(), [promising, planned([step('hand-back')], { works: 1 })]).score.said).toEqual({
      cost: 120,
      works: 0.8,
    })
    expect(follow(handCard(), [HAND_BACK]).score.said).toBeUndefined()
  })
})

describe('one who knows', () => {
  const knowing = (card: SimulatedCard) => workKnowing(startJob(card, asKnown(card)))
  const track = (lane: string) => damage({ kind: 'corridor', at: lane, ref: undefined })

  it('tries four times, then sends it back', () => {
    const round = LIFT + REPLACE + 15 + FLUX + SITE_MATERIALS + 15
    const { end, runs, cost } = knowing(handCard({ damages: [damage({})], figures: { newPartGood: 0 } }))
    expect([end, runs]).toEqual(['sent back', 4])
    expect(cost).toBeCloseTo(15 + 4 * round + 700, 9)
  })

  it('goes into each place once, lifts what is at fault, and replaces what is bad itself', () => {
    const damages = [track('U2.A0'), track('U2.A0'), joints, damage({ kind: 'spill', at: 'U3/A0', ref: 'U3' })]
    const { done } = knowing(handCard({ damages: [...damages, damage({ kind: 'core', at: 'U1', ref: 'U1' })] }))
    expect(done).toEqual([
      'repair U2.A0',
      'lift U2',
      'lift U3',
      'lift U1',
      'reball U2',
      'reball U3',
      'replace U1',
      'run',
    ])
    expect(knowing(handCard({ damages: [track('U2.A0')] }))).toMatchObject({ done: ['repair U2.A0', 'run'], cost: 25 })
    expect(knowing(handCard())).toMatchObject({ done: [], cost: 0, end: 'works' })
  })

  it('sends back at once what costs as much as the repair brings', () => {
    const bad = [
      damage({ kind: 'core', at: 'U1', ref: 'U1' }),
      damage({}),
      damage({ at: 'U3', ref: 'U3' }),
      damage({ kind: 'power-stage', at: 'S1', ref: 'S1' }),
    ]
    // core 24 and 6 + 1.5 · 8.41 + 4 + 24 + 15, and 250; memories; stage 16 and 41.45, and 4; prepare, run
    const core = 24 + 6 + 1.5 * 8.41 + 4 + 24 + 15 + FLUX + SITE_MATERIALS + 250
    const memory = LIFT + REPLACE + FLUX + SITE_MATERIALS + 15
    const all = 15 + core + 2 * memory + (16 + 41.45 + FLUX + SITE_MATERIALS + 4) + 15
    const places = model.lanes.map(({ id }) => track(id))
    const five = knowing(handCard({ damages: [...bad, ...places.slice(0, 5)] }))
    expect(five.cost).toBeCloseTo(all + 50, 9)
    expect(five.end).toBe('works')
    const six = knowing(handCard({ damages: [...bad, ...places.slice(0, 6)] }))
    expect(six).toEqual({ minutes: 0, runs: 0, done: [], cost: 650, end: 'sent back' })
  })
})

describe('the plain rule', () => {
  const plainly = (card: SimulatedCard) => workPlainly(startJob(card, asKnown(card)))
  const bothFail = [
    { lane: 'U2.A0', bits: 255, reads: 'high', perRead: 1 },
    { lane: 'U3.A0', bits: 255, reads: 'high', perRead: 1 },
  ] as const

  it('runs what passes once more, and hands it back', () => {
    expect(plainly(handCard())).toMatchObject({ done: ['run'], cost: 15, end: 'works' })
    const lines = [{ kind: 'rail', name: 'VMEM', severity: 1 }] as const
    const hidden = damage({ kind: 'rail', at: 'rail VMEM', ref: undefined, lanes: [], lines })
    expect(plainly(handCard({ damages: [hidden] }))).toMatchObject({ done: ['run'], cost: 345, end: 'comes back' })
  })

  it('takes up and washes what was spilled first', () => {
    const spills = [spillMark({})]
    const onTrack = damage({ kind: 'spill', at: 'U2.A0', ref: undefined })
    const washed = plainly(handCard({ damages: [onTrack], seen: { spills } }))
    expect(washed).toMatchObject({ done: ['take up', 'wash', 'run'], cost: 60, end: 'works' })
  })

  it('gives failing packages new ones, then takes off the core, then sends it back', () => {
    const memory = LIFT + REPLACE + FLUX + SITE_MATERIALS + 15
    const die = plainly(handCard({ damages: [damage({})] }))
    expect(die).toMatchObject({ done: ['lift U2', 'replace U2', 'run'], end: 'works' })
    expect(die.cost).toBeCloseTo(15 + memory + 15, 9)
    const packages = ['lift U2', 'lift U3', 'replace U2', 'replace U3', 'run']
    const patch = damage({ kind: 'core-patch', at: 'U1', ref: 'U1', lanes: bothFail })
    expect(plainly(handCard({ damages: [patch] }))).toMatchObject({
      done: [...packages, 'lift U1', 'reball U1', 'run'],
      end: 'works',
    })
    const core = damage({ kind: 'core', at: 'U1', ref: 'U1', lanes: bothFail })
    expect(plainly(handCard({ damages: [core] }))).toMatchObject({
      done: [...packages, 'lift U1', 'reball U1', 'run'],
      end: 'sent back',
    })
  })
})
