/** What edits of lanes, regions and rails do to a small board, and what they refuse. */
import { describe, expect, test } from 'vitest'

import { sayFault } from '../../src/base/index.ts'
import { applyEdit, type BoardDescription, type BoardEdit, boardSchema, loadBoard } from '../../src/board/index.ts'
import { lineVerdicts } from '../../src/measure/index.ts'
import { measured } from '../measure/measured.ts'
import { faultsIn, unwrap } from '../support/board-fixture.ts'
import { smallBoard } from '../support/small-board.ts'

const small = boardSchema.parse(smallBoard())
const after = (edit: BoardEdit, board: BoardDescription = small): BoardDescription => unwrap(applyEdit(board, edit))
const why = (edit: BoardEdit): string[] => faultsIn(applyEdit(small, edit)).map(sayFault)
const rail = (board: BoardDescription, name = 'VMEM') => board.rails.find((each) => each.name === name)
const sound = (board: BoardDescription) => unwrap(loadBoard(board))

describe('lanes', () => {
  test('two lanes of a channel swap their data bits', () => {
    const before = sound(small)
    const swapped = sound(after({ kind: 'swap-lanes', lanes: ['U2.A0', 'U2.A1'] }))
    expect(swapped.laneById.get('U2.A0')?.firstBit).toBe(before.laneById.get('U2.A1')?.firstBit)
    expect(swapped.laneById.get('U2.A1')?.firstBit).toBe(before.laneById.get('U2.A0')?.firstBit)
  })

  test('lanes of two channels and parts swap, and stay on their own part', () => {
    const swapped = sound(after({ kind: 'swap-lanes', lanes: ['U2.A0', 'U3.B1'] }))
    expect(swapped.laneById.get('U2.A0')).toMatchObject({ channel: 'CH3', part: 'U2' })
    expect(swapped.laneById.get('U3.B1')).toMatchObject({ channel: 'CH0', part: 'U3' })
  })

  test('two lanes swap their regions, and twice is not at all', () => {
    const edit: BoardEdit = { kind: 'swap-regions', lanes: ['U2.A0', 'U2.B0'] }
    const swapped = after(edit)
    expect(sound(swapped).laneById.get('U2.A0')?.memoryRegion).toBe('U2/B0')
    expect(sound(swapped).laneById.get('U2.B0')?.memoryRegion).toBe('U2/A0')
    expect(after(edit, swapped)).toEqual(small)
    expect(why({ kind: 'swap-regions', lanes: ['U2.A0', 'U3.A0'] })[0]).toMatch(/two lanes of one part/)
    expect(why({ kind: 'swap-lanes', lanes: ['U2.A0', 'U2.Z9'] })[0]).toMatch(/no lane of that id/)
  })

  test('a region is cut into two whose areas make the old one, each with the lane that it is given', () => {
    const shared = after({ kind: 'swap-regions', lanes: ['U2.A0', 'U2.A1'] })
    const whole = sound(shared).regionById.get('U2/A0')?.areaMm2 ?? 0
    const split = sound(
      after(
        {
          kind: 'split-region',
          ref: 'U2',
          region: 'A0',
          along: 'x',
          share: 0.25,
          newName: 'A0 right',
          lanes: ['U2.A1'],
        },
        shared,
      ),
    )
    const pieces = ['U2/A0', 'U2/A0 right'].map((id) => split.regionById.get(id))
    expect((pieces[0]?.areaMm2 ?? 0) / whole).toBeCloseTo(0.25, 4)
    expect((pieces[1]?.areaMm2 ?? 0) / whole).toBeCloseTo(0.75, 4)
    expect(pieces[1]?.lanes).toEqual(['U2.A1'])
  })

  test('a derived region of the core can be cut too; an unknown one, and a lane of another, are refused', () => {
    const split = after({
      kind: 'split-region',
      ref: 'U1',
      region: 'U2.A0',
      along: 'y',
      share: 0.5,
      newName: 'rest',
      lanes: [],
    })
    expect(sound(split).regionById.get('U1/U2.A0')?.from).toBe('drawn')
    const edit: Extract<BoardEdit, { kind: 'split-region' }> = {
      kind: 'split-region',
      ref: 'U2',
      region: 'A0',
      along: 'x',
      share: 0.5,
      newName: 'X',
      lanes: [],
    }
    expect(why({ ...edit, region: 'Q7' })[0]).toMatch(/no region of that name/)
    expect(why({ ...edit, newName: 'B0' })[0]).toMatch(/a name that is free/)
    expect(why({ ...edit, lanes: ['U2.B0'] })[0]).toMatch(/does not end in U2\/A0/)
  })
})

describe('rails', () => {
  test('what makes a rail, what it feeds, and its branches', () => {
    const fed = after({ kind: 'feed', rail: 'VMEM', refs: ['U1'], fed: true })
    expect(rail(fed)?.feeds).toEqual(['U2', 'U3', 'U1'])
    const less = after({ kind: 'feed', rail: 'VMEM', refs: ['U2'], fed: false }, fed)
    expect(rail(less)).toMatchObject({ feeds: ['U3', 'U1'], branches: [], stages: ['S1'] })
    expect(rail(after({ kind: 'make', rail: 'VMEM', refs: ['S1'], makes: false }))?.stages).toEqual([])
    expect(rail(after({ kind: 'branch', rail: 'VMEM', name: 'core', refs: ['U1'] }))).toMatchObject({
      feeds: ['U2', 'U3', 'U1'],
      branches: [{ name: 'east' }, { name: 'core', feeds: ['U1'] }],
    })
    expect(why({ kind: 'feed', rail: 'VMEM', refs: ['U8'], fed: true })).toEqual([
      'U8: found no part of that ref, expected a part of the board.',
    ])
  })

  test('a rail is added, renamed, given its figures and taken away', () => {
    const added = after({
      kind: 'add-rail',
      rail: { name: 'VPP', feeds: ['U2'], stages: [], branches: [], points: [] },
    })
    expect(sound(added).rails.map(({ name }) => name)).toEqual(['VMEM', 'VPP'])
    const renamed = after({ kind: 'rename-rail', rail: 'VPP', to: 'V18' }, added)
    const diode = { lowV: 0.3, highV: 0.5, from: 'a good card' }
    const told = after(
      { kind: 'change-rail', rail: 'V18', change: { nominalV: 1.8, tolerancePct: 5, diodeToGround: diode } },
      renamed,
    )
    expect(rail(told, 'V18')).toMatchObject({ nominalV: 1.8, tolerancePct: 5, diodeToGround: diode })
    expect(rail(after({ kind: 'change-rail', rail: 'VMEM', change: { ohmsToGround: null } }))).not.toHaveProperty(
      'ohmsToGround',
    )
    expect(after({ kind: 'remove-rail', rail: 'V18' }, told)).toEqual(small)
    expect(why({ kind: 'rename-rail', rail: 'VMEM', to: 'VMEM' })).toEqual([])
    expect(faultsIn(applyEdit(added, { kind: 'rename-rail', rail: 'VPP', to: 'VMEM' }))[0]?.expected).toMatch(
      /no rail has/,
    )
    const upsideDown = { lowOhm: 9, highOhm: 3, from: 'a slip' }
    expect(why({ kind: 'change-rail', rail: 'VMEM', change: { ohmsToGround: upsideDown } })[0]).toMatch(
      /lower figure first/,
    )
  })

  test('probe points are added, moved and taken away', () => {
    const added = after({ kind: 'add-point', rail: 'VMEM', point: { side: 'top', at: { x: 50, y: 60 } } })
    const moved = after({ kind: 'move-point', rail: 'VMEM', index: 1, at: { x: 51, y: 60 } }, added)
    expect(rail(moved)?.points[1]).toEqual({ side: 'top', at: { x: 51, y: 60 } })
    expect(after({ kind: 'remove-point', rail: 'VMEM', index: 1 }, moved)).toEqual(small)
    expect(why({ kind: 'remove-point', rail: 'VMEM', index: 3 })[0]).toMatch(/no probe point 4/)
  })
})

describe('a range in diode mode that the board tells', () => {
  // Which side of a range a value lies on is arithmetic; that a good card gives such a range: common practice, no source
  const told = after({
    kind: 'change-rail',
    rail: 'VMEM',
    change: { diodeToGround: { lowV: 0.3, highV: 0.5, from: 'a good card' } },
  })
  test.each([
    ['250', 'below'],
    ['400', 'in-range'],
    ['620', 'above'],
  ])('holds a reading of %s mV: %s', (typed, kind) => {
    const measurements = measured({ VMEM: typed }, 'diode')
    const verdicts = lineVerdicts(sound(told), { measurements, goodReadings: [] }, 'diode', 'before')
    expect(verdicts.find(({ measurement }) => measurement !== undefined)?.verdict.kind).toBe(kind)
  })

  test('upside down is a fault that is named', () => {
    const wrong = {
      ...told,
      rails: told.rails.map((each) => ({ ...each, diodeToGround: { lowV: 0.5, highV: 0.3, from: 'a slip' } })),
    }
    expect(faultsIn(loadBoard(wrong)).map(({ path }) => path)).toEqual(['$.rails[0].diodeToGround'])
  })
})
