/** Two versions of a board: what an edit did is what the comparison says, as refs and in words. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import {
  applyEdit,
  type BoardDescription,
  type BoardEdit,
  boardSchema,
  compareBoards,
  sayComparison,
} from '../../src/board/index.ts'
import { unwrap } from '../support/board-fixture.ts'
import { smallBoard } from '../support/small-board.ts'

const small = boardSchema.parse(smallBoard())
const after = (...edits: readonly BoardEdit[]): BoardDescription =>
  edits.reduce((board, edit) => unwrap(applyEdit(board, edit)), small)
const compared = (...edits: readonly BoardEdit[]) => compareBoards(small, after(...edits))
const said = (...edits: readonly BoardEdit[]): string[] => sayComparison(compared(...edits))
const nothing = ['Nothing changed.']

describe('a board and itself', () => {
  test('are the same, also with words of reports that were learnt meanwhile and fields in another order', () => {
    const words = [{ title: 'run', look: ['#'], names: { north: 'U2' } }]
    const otherOrder = {
      ...small,
      parts: small.parts.map(({ ref, ...part }) => ({ ...part, ref })),
      reportWords: words,
    }
    expect(sayComparison(compareBoards(small, otherOrder))).toEqual(nothing)
  })
})

describe('parts', () => {
  const coordinate = fc.integer({ min: -30_000, max: 30_000 }).map((um) => um / 1000)
  property.prop([fc.constantFrom('U2', 'U3', 'S1'), coordinate, coordinate], { seed: 7, numRuns: 50 })(
    'are moved by as much as the hand moved them, and back by the same',
    (ref, x, y) => {
      const far = Math.hypot(x, y)
      fc.pre(far > 0.01)
      const moved = after({ kind: 'move', refs: [ref], byMm: { x, y } })
      const [there] = compareBoards(small, moved).moved
      const [back] = compareBoards(moved, small).moved
      expect(there?.ref).toBe(ref)
      expect(there?.byMm).toBeCloseTo(far, 5)
      expect(back).toEqual({ ref, from: there?.to, to: there?.from, byMm: there?.byMm })
    },
  )

  test('are added and gone, turned, and on the other side', () => {
    const copy: BoardEdit = { kind: 'array', refs: ['S1'], columns: 2, rows: 1, pitchMm: { x: 8, y: 0 } }
    expect(compared(copy)).toMatchObject({ added: ['S2'], gone: [], moved: [] })
    expect(compareBoards(after(copy), small)).toMatchObject({ added: [], gone: ['S2'] })
    expect(compared({ kind: 'rotate', refs: ['U2'], byDeg: -90, about: 'each' }).turned).toEqual([
      { ref: 'U2', byDeg: -90 },
    ])
    expect(compared({ kind: 'rotate', refs: ['U2'], byDeg: 180, about: 'each' }).turned).toEqual([
      { ref: 'U2', byDeg: 180 },
    ])
    expect(compared({ kind: 'change-side', refs: ['U2'], to: 'bottom' }).sideChanged).toEqual([
      { ref: 'U2', to: 'bottom' },
    ])
  })

  test('that turn are said to turn left or right as seen from the top', () => {
    expect(said({ kind: 'rotate', refs: ['U2'], byDeg: -90, about: 'each' })).toEqual(['U2 turned right by 90°.'])
    expect(said({ kind: 'rotate', refs: ['U2'], byDeg: 12.5, about: 'each' })).toEqual(['U2 turned left by 12.5°.'])
  })

  test('that are renamed are one part, and neither lanes nor rails change by it', () => {
    const comparison = compared({ kind: 'rename', ref: 'U2', to: 'U9' }, { kind: 'rename', ref: 'S1', to: 'S7' })
    expect(comparison).toMatchObject({ added: [], gone: [], moved: [], lanes: [], rails: [] })
    expect(sayComparison(comparison)).toEqual(['U2 is called U9 now.', 'S1 is called S7 now.'])
  })

  test('told otherwise are named with what is told', () => {
    expect(said({ kind: 'change-part', ref: 'U2', change: { heatCount: 3, standoffMm: 0.25 } })).toEqual([
      'U2 is told otherwise: gap, heats so far.',
    ])
  })

  test('many that moved are counted after the farthest eight', () => {
    const copies: BoardEdit = { kind: 'array', refs: ['S1'], columns: 12, rows: 1, pitchMm: { x: 1, y: 0 } }
    const wide = after(copies)
    const refs = wide.parts.map(({ ref }) => ref).filter((ref) => ref.startsWith('S'))
    const moved = unwrap(applyEdit(wide, { kind: 'move', refs, byMm: { x: 0, y: 1 } }))
    const sentences = sayComparison(compareBoards(wide, moved))
    expect(sentences.filter((sentence) => sentence.endsWith(' moved by 1 mm.'))).toHaveLength(8)
    expect(sentences).toContain('4 more parts moved.')
  })
})

describe('lanes, rails and the address map', () => {
  test('lanes that swapped places carry other bits; lanes that swapped regions end elsewhere', () => {
    expect(said({ kind: 'swap-lanes', lanes: ['U2.A0', 'U2.A1'] })).toEqual([
      'U2.A1 and U2.A0 carry other data bits of their channel.',
    ])
    expect(said({ kind: 'swap-lanes', lanes: ['U2.A0', 'U2.B0'] })).toEqual([
      'U2.B0 and U2.A0 belong to other channels.',
    ])
    expect(said({ kind: 'swap-regions', lanes: ['U2.A0', 'U2.B0'] })).toEqual(['U2.A0 and U2.B0 end in other regions.'])
  })

  test('rails tell voltage, ranges, makers, feeds and probe points', () => {
    const sentences = said(
      {
        kind: 'change-rail',
        rail: 'VMEM',
        change: { nominalV: 1.5, diodeToGround: { lowV: 0.3, highV: 0.4, from: 'a card' } },
      },
      { kind: 'feed', rail: 'VMEM', refs: ['U3'], fed: false },
      { kind: 'feed', rail: 'VMEM', refs: ['U1'], fed: true },
      { kind: 'add-point', rail: 'VMEM', point: { side: 'top', at: { x: 50, y: 60 } } },
      { kind: 'add-rail', rail: { name: 'VPP', feeds: [], stages: [], branches: [], points: [] } },
    )
    expect(sentences).toEqual([
      'Rail VPP is new.',
      'Rail VMEM is at 1.5 V; it was at 1.35 V.',
      'Rail VMEM reads 0.3 to 0.4 V in diode mode; it read no known range.',
      'Rail VMEM feeds U1 too.',
      'Rail VMEM no longer feeds U3.',
      'Rail VMEM has 2 probe points; it had 1.',
    ])
  })

  test('an address map that is learnt, lost or lists channels otherwise', () => {
    const { addressMap, ...without } = small
    if (addressMap === undefined) throw new Error('the small board has a map')
    const order = addressMap.channel.order.toReversed()
    const other = { ...small, addressMap: { ...addressMap, channel: { ...addressMap.channel, order } } }
    expect(sayComparison(compareBoards(without, small))).toEqual(['An address map is known now.'])
    expect(sayComparison(compareBoards(small, without))).toEqual(['The address map is gone.'])
    expect(sayComparison(compareBoards(small, other))).toEqual(['The address map lists channels otherwise.'])
  })

  test('name and thickness of the board', () => {
    expect(sayComparison(compareBoards(small, { ...small, name: 'mine', thicknessMm: 1.2 }))).toEqual([
      'The board is called mine; it was small.',
      'The board is 1.2 mm thick; it was 1.6 mm.',
    ])
  })
})
