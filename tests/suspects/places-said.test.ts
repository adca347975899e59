/** Places and causes as they are said: points by what lies over them or which way they are, names of places, causes as nouns and as stories. */
import { describe, expect, test } from 'vitest'
import {
  type CauseAt,
  type CauseKind,
  causeNoun,
  placeSaid,
  placeWithin,
  placeWords,
  type ProposedAction,
  proposedWords,
} from '../../src/suspects/index.ts'
import { eastAndWest, rail } from './small-board.ts'

const card = (core: boolean) =>
  eastAndWest({ core, rails: [rail('VMEM', ['U2', 'U3'], ['S1'], [{ name: 'VMEM west', feeds: ['U3'] }])] })

describe('a point on the board lies', () => {
  // north is up: y grows towards it; eight ways of 45° each, so that 22.5° parts two
  test.each([
    [{ x: 50, y: 50 }, 'under U1'],
    [{ x: 90, y: 50 }, 'under U2'],
    [{ x: 75, y: 50 }, 'east of U1'],
    [{ x: 75, y: 75 }, 'north-east of U1'],
    [{ x: 50, y: 75 }, 'north of U1'],
    [{ x: 25, y: 75 }, 'north-west of U1'],
    [{ x: 25, y: 50 }, 'west of U1'],
    [{ x: 25, y: 25 }, 'south-west of U1'],
    [{ x: 50, y: 25 }, 'south of U1'],
    [{ x: 75, y: 25 }, 'south-east of U1'],
    // atan(10/25) = 21.8°, atan(11/25) = 23.7°
    [{ x: 75, y: 60 }, 'east of U1'],
    [{ x: 75, y: 61 }, 'north-east of U1'],
  ])('at %o: %s', (at, words) => {
    expect(placeWords(card(true), at, 'top')).toBe(words)
  })
  test('seen from below, under nothing that stands on top', () => {
    expect(placeWords(card(true), { x: 90, y: 50 }, 'bottom')).toBe('east of U1, bottom side')
  })
  test('without a core by the nearest package', () => {
    expect(placeWords(card(false), { x: 80, y: 50 }, 'top')).toBe('west of U2')
    expect(placeWords(card(false), { x: 20, y: 50 }, 'top')).toBe('east of U3')
    // its body reaches to 16 mm, the other's to 84: 50.5 is nearer to the other by half a millimetre on each side
    expect(placeWords(card(false), { x: 50.5, y: 50 }, 'bottom')).toBe('west of U2, bottom side')
    expect(placeWords({ ...card(false), memories: [] }, { x: 50, y: 50 }, 'top')).toBe('on the board')
    expect(placeWords({ ...card(false), memories: [] }, { x: 50, y: 50 }, 'bottom')).toBe('on the board, bottom side')
  })
  // the middle is a quarter of half its width: 2.5 mm about (50, 50)
  test.each([
    [{ x: 52.4, y: 50 }, 'the middle of U1'],
    [{ x: 52.6, y: 50 }, 'the east of U1'],
    [{ x: 50, y: 41 }, 'the south of U1'],
  ])('within the core at %o: %s', (at, words) => {
    const { core } = card(true)
    if (core === undefined) throw new Error('a core')
    expect(placeWithin(core, at)).toBe(words)
  })
})

describe('a place by its name', () => {
  test.each([
    'rail VMEM',
    'branch VMEM west of rail VMEM',
    'the track of U15.A0',
    'channel 3 in U1',
    'the controller of channel 3 in U1',
    'the controllers of channels 3 and 4 in U1',
    'the north-east edge of U1',
    'the west side of U1',
    'the middle of U1',
    'the south of U1',
    'U14 as refitted',
    'U13/A0',
  ])('%s is said in English as it is named', (at) => {
    expect(placeSaid(at)).toBe(at)
  })
})

describe('a cause as a noun', () => {
  test.each<[CauseKind, string, string]>([
    ['die', 'U13', 'the die of U13'],
    ['joints', 'U13/A0', 'joints under U13/A0'],
    ['command-joints', 'U13/CA', 'command joints U13/CA'],
    ['corridor', 'U13.A0', 'the tracks of U13.A0'],
    ['rail', 'rail VMEM', 'rail VMEM'],
    ['rail-branch', 'branch VMEM west of rail VMEM', 'branch VMEM west of rail VMEM'],
    ['power-stage', 'S1', 'power stage S1'],
    ['core', 'U1', 'the core U1'],
    ['core-patch', 'the north of U1', 'joints under the north of U1'],
    ['spill', 'north of U1', 'the reported spill (north of U1)'],
    ['unreported-spill', 'north of U1', 'an unreported spill (north of U1)'],
    ['slip', 'north of U1', 'the slip north of U1'],
  ])('%s at %s: %s', (kind, at, noun) => {
    expect(causeNoun({ kind, at, refs: [at] })).toBe(noun)
  })
  test('a side or a controller of the core is named by what it is', () => {
    const side: CauseAt = { kind: 'core', at: 'the west side of U1', refs: ['U1'] }
    expect(causeNoun(side)).toBe('the west side of U1')
  })
})

describe('a step at the bench', () => {
  test.each<[ProposedAction, readonly string[], string]>([
    ['check', ['rail VMEM', 'U13'], 'Check rail VMEM and U13 first'],
    ['find-short', ['rail VMEM', 'rail VPP'], 'Find what shorts rail VMEM and rail VPP, and take it off'],
    ['take-up', [], 'Take up all metal that can be seen, by hand'],
    ['wash', [], 'Wash the card and dry it'],
    ['lift', ['U1', 'U2'], 'Lift U1 and U2'],
    ['reball', ['U1', 'U2'], 'Clean, reball and refit U1 and U2'],
    ['replace', ['U1'], 'Fit a new U1'],
    ['replace', ['U1', 'U2'], 'Fit new parts for U1 and U2'],
    [
      'repair-around',
      ['branch VMEM west of rail VMEM'],
      'Find the fault on branch VMEM west of rail VMEM and repair it',
    ],
    ['repair-around', ['near rail VMEM'], 'Find the fault on what the slip near rail VMEM hit and repair it'],
    ['run-again', [], 'Run the memory test again'],
    ['hand-back', [], 'Hand it back'],
    ['return', [], 'Send it back unrepaired'],
  ])('%s %j: %s', (action, refs, words) => {
    expect(proposedWords({ action, refs })).toBe(words)
  })
})
