/** A plan of remedies in words, on cards small enough to reckon by hand: steps, what depends on what is seen, other ways, endings. */
import { describe, expect, test } from 'vitest'
import { proposeRemedies, type RemedyProposal, type TreeProblem } from '../../src/suspects/index.ts'
import { smallTree, SURE } from './small-tree.ts'

/** Something lies under U1 (0.6) or the die of U2 is bad (0.4); U1: lift 100, reball 40; U2: lift 50, reball 20, new 35; a run 10. */
const { work, either } = smallTree(1)
type Steps = RemedyProposal['steps']
const said = (steps: Steps): string[] => steps.map(({ action, refs, next }) => [action, ...refs, next].join(' | '))
const proposed = (problem: TreeProblem): RemedyProposal => proposeRemedies(problem, ['U1', 'U2'])

const LOOK = 'If something lies under U1 (60 %): clean, reball and refit U1. If it is clean there (40 %): lift U2.'
const DONE = 'Test again. If it passes (over 99.9 %), hand it back.'

describe('two parts', () => {
  const { steps, others, endings, expectedCost, works } = proposed(either)
  test('the likelier is lifted, and what lies under it decides', () => {
    expect(said(steps)).toEqual([`lift | U1 | ${LOOK}`, `reball | U1 | ${DONE}`])
    // 100 + 0.6 · (40 + 10) + 0.4 · (50 + 40 + 35 + 10)
    expect(expectedCost).toBeCloseTo(184, 9)
    expect(works).toBeCloseTo(1, 9)
  })
  test('beside both at once and sending it back, cheapest first', () => {
    expect(others.map(({ name }) => name)).toEqual(['Lift U1 and U2 at once', 'Send it back unrepaired'])
    // 150 + 0.6 · (40 + 20 + 10) + 0.4 · (40 + 35 + 10); a working card is worth 1000 more than this one
    expect(others.map((other) => other.expectedCost)).toEqual([expect.closeTo(226, 9), expect.closeTo(1000, 9)])
    expect(others.map((other) => said(other.steps))).toEqual([
      ['lift | U1 | U2 | ', `reball | U1 | U2 | ${DONE}`],
      ['return | '],
    ])
  })
  test('each ending has its chance, its money, and whether a new part was bought', () => {
    expect(endings?.map(({ probability, money, newParts }) => [probability, money, newParts])).toEqual([
      [expect.closeTo(0.6, 9), expect.closeTo(150, 9), false],
      [expect.closeTo(0.4, 9), expect.closeTo(235, 9), true],
    ])
  })
})

test('a wash that cures half of what lies beneath comes first: it passes with 0.6 · 0.5', () => {
  const { steps, others } = proposed({ ...either, wash: work(20), cures: { ...SURE, washBeneath: 0.5 } })
  expect(said(steps)[0]).toBe(
    'wash | Test again. If it passes (30 %), run it for hours, warm and from cold, then hand it back. If it still fails: lift U2.',
  )
  expect(others.map(({ name }) => name)).toEqual([
    'Lift U1 first and look under it',
    'Lift U1 and U2 at once',
    'Send it back unrepaired',
  ])
})

test('metal is taken up by hand before any heat, in each way that heats, and costs its 30 once', () => {
  const { steps, others, expectedCost } = proposed({ ...either, byHand: true, wash: work(30) })
  const BY_HAND =
    'take-up | Dry swabs, until the last stays clean. Then measure the rails cold; no power and no heat before.'
  expect(said(steps)).toEqual([BY_HAND, `lift | U1 | ${LOOK}`, `reball | U1 | ${DONE}`])
  expect(expectedCost).toBeCloseTo(214, 9)
  expect(others.map((other) => said(other.steps)[0])).toEqual([BY_HAND, 'return | '])
})

test('metal that a run after taking it up may cure is taken up with the rails measured cold before power', () => {
  const cures = { ...SURE, washBeneath: 0.9 }
  const { steps } = proposed({ ...either, byHand: true, wash: work(5), cures })
  // 0.6 · 0.9
  expect(said(steps)[0]).toBe(
    'take-up | Dry swabs, until the last stays clean; then measure the rails cold, no power before. Test again. If it passes (54 %), run it for hours, warm and from cold, then hand it back. If U2 still fails: lift U2. If U1 and U2 still fail: lift U1.',
  )
})

test('a part whose loss ends the repair says so: 0.1 lost, 0.9 · 0.6 and 0.9 · 0.4 else', () => {
  const [core, memory] = either.parts
  if (core === undefined || memory === undefined) throw new Error('two parts')
  const { steps, others } = proposed({ ...either, parts: [{ ...core, lossChance: 0.1, lossEnds: true }, memory] })
  const first = others.find(({ name }) => name === 'Lift U1 first and look under it')
  expect(said(first?.steps ?? [])[0]).toBe(
    'lift | U1 | If something lies under U1 (54 %): clean, reball and refit U1. If it is clean there (36 %): lift U2. If it or its pads are lost (10 %), the repair ends.',
  )
  // U2 goes first, as a new one: of ten cards four pass
  expect(said(steps).slice(0, 2)).toEqual([
    'lift | U2 | ',
    'replace | U2 | Test again. If it passes (40 %), hand it back. If it still fails: lift U1.',
  ])
})

describe('a rail that may be at fault', () => {
  const withRail: TreeProblem = {
    ...either,
    faults: [...either.faults, { kind: 'beside', at: 'rail VMEM', touches: 3 }],
    sets: Int32Array.from([2, 8]),
    places: [{ name: 'rail VMEM', fault: 8 }],
  }
  test('is gone into first, as that costs least', () => {
    expect(said(proposed(withRail).steps)).toEqual([
      'repair-around | rail VMEM | Test again. If it passes (40 %), hand it back. If it still fails: lift U1.',
      'lift | U1 | ',
      `reball | U1 | ${DONE}`,
    ])
  })
  test('and reads short is hunted before anything else; only sending it back stands beside it', () => {
    const { steps, others } = proposed({ ...withRail, places: [{ name: 'rail VMEM', fault: 8, hunt: work(30) }] })
    expect(said(steps)[0]).toBe(
      'find-short | rail VMEM | Card unplugged: feed in 0.3 V and at most 1 A, never more than the rail’s own voltage, and look for what warms or where the millivolts are least. No power before it reads right again. Test again. If it passes (40 %), hand it back. If it still fails: lift U1.',
    )
    expect(others.map(({ name }) => name)).toEqual(['Send it back unrepaired'])
  })
})

test('a card that is worth less than the first lift goes back as it is', () => {
  const { steps, others, works, expectedCost } = proposed({ ...either, giveUpCold: 90, giveUpHot: 90 })
  expect(said(steps)).toEqual(['return | '])
  expect([works, expectedCost]).toEqual([0, 90])
  expect(others.map(({ name }) => name)).not.toContain('Send it back unrepaired')
})

test('what was lifted and refitted before is lifted again in words', () => {
  // a refit cures only half of what lies beneath: U1 may have to come off twice
  const cures = { ...SURE, reballBeneath: 0.5 }
  const problem: TreeProblem = { ...either, sets: Int32Array.from([2]), weights: Float64Array.from([1]), cures }
  const words = said(proposed(problem).steps).join('\n')
  expect(words).toContain('Test again. If it passes (50 %), hand it back. If it still fails: lift U1 again.')
})
