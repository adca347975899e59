/** Laws of editing a board, on any edits of a shipped board and a small one: geometry and rules, no figures of ours. */
import { fc, test as property } from '@fast-check/vitest'
import { describe, expect, test } from 'vitest'
import splice from '../../boards/splice-6.json'
import {
  alignments,
  applyEdit,
  beginSession,
  type BoardDescription,
  type BoardEdit,
  boardSchema,
  createSnapper,
  editSession,
  loadBoard,
  partBox,
  redoSession,
  undoSession,
} from '../../src/board/index.ts'
import { faultsIn, unwrap } from '../support/board-fixture.ts'
import { smallBoard } from '../support/small-board.ts'

const SEED = { seed: 20261127, numRuns: 60 }
const small = boardSchema.parse(smallBoard())
const shipped = boardSchema.parse(splice)
const refs = shipped.parts.map(({ ref }) => ref)
const lanes = shipped.memory.channels.flatMap((channel) => channel.lanes.map((lane) => `${channel.part}.${lane.name}`))
const rails = shipped.rails.map(({ name }) => name)

const mm = fc.integer({ min: -40_000, max: 40_000 }).map((um) => um / 1000)
const byMm = fc.record({ x: mm, y: mm })
const one = fc.constantFrom(...refs)
const some = fc.uniqueArray(one, { minLength: 1, maxLength: 9 })
const several = fc.uniqueArray(one, { minLength: 3, maxLength: 9 })
const rail = fc.constantFrom(...rails)
const pair = fc
  .uniqueArray(fc.constantFrom(...lanes), { minLength: 2, maxLength: 2 })
  .map(([a = '', b = '']): [string, string] => [a, b])

/** Any edit, some of which a board refuses. */
const anyEdit: fc.Arbitrary<BoardEdit> = fc.oneof(
  fc.record({ kind: fc.constant('move'), refs: some, byMm }),
  fc.record({ kind: fc.constant('place'), ref: one, at: byMm }),
  fc.record({
    kind: fc.constant('rotate'),
    refs: some,
    byDeg: fc.constantFrom(90, -90, 180, 12.5),
    about: fc.constantFrom('each', 'middle'),
  }),
  fc.record({ kind: fc.constant('align'), refs: some, to: fc.constantFrom(...alignments) }),
  fc.record({ kind: fc.constant('distribute'), refs: some, along: fc.constantFrom('x', 'y') }),
  fc.record({ kind: fc.constant('change-side'), refs: some, to: fc.constantFrom('top', 'bottom') }),
  fc.record({
    kind: fc.constant('array'),
    refs: some,
    columns: fc.integer({ min: 1, max: 4 }),
    rows: fc.integer({ min: 1, max: 3 }),
    pitchMm: byMm,
  }),
  fc.record({ kind: fc.constant('remove'), refs: some }),
  fc.record({ kind: fc.constant('rename'), ref: one, to: fc.constantFrom('NEW1', 'a/b', ...refs.slice(0, 3)) }),
  fc.record({ kind: fc.constant('swap-lanes'), lanes: pair }),
  fc.record({ kind: fc.constant('swap-regions'), lanes: pair }),
  fc.record({ kind: fc.constant('feed'), rail, refs: some, fed: fc.boolean() }),
  fc.record({ kind: fc.constant('make'), rail, refs: some, makes: fc.boolean() }),
  fc.record({ kind: fc.constant('branch'), rail, name: fc.constant('west'), refs: some }),
  fc.record({ kind: fc.constant('rename-rail'), rail, to: fc.constantFrom('VNEW', ...rails) }),
  fc.record({ kind: fc.constant('remove-rail'), rail }),
  fc.record({ kind: fc.constant('move-point'), rail, index: fc.integer({ min: 0, max: 4 }), at: byMm }),
  fc.record({ kind: fc.constant('remove-point'), rail, index: fc.integer({ min: 0, max: 4 }) }),
)

const partOf = (board: BoardDescription, ref: string) => {
  const found = board.parts.find((part) => part.ref === ref)
  if (found === undefined) throw new Error(`no part ${ref}`)
  return found
}
const middleX = (board: BoardDescription, ref: string): number => {
  const { minX, maxX } = partBox(partOf(board, ref))
  return (minX + maxX) / 2
}

describe('any edits', () => {
  property.prop([fc.array(anyEdit, { minLength: 1, maxLength: 6 })], SEED)(
    'are undone to the very board that was there, and done again to the one that was made',
    (edits) => {
      let session = beginSession(shipped)
      const seen = [shipped]
      for (const edit of edits) {
        const next = editSession(session, edit)
        if (!next.ok) continue
        if (next.value !== session) seen.push(next.value.board)
        session = next.value
      }
      const last = session.board
      for (const board of seen.slice(0, -1).toReversed()) {
        session = undoSession(session)
        expect(session.board).toBe(board)
      }
      expect(undoSession(session)).toBe(session)
      for (let i = 1; i < seen.length; i++) session = redoSession(session)
      expect(session.board).toBe(last)
    },
  )

  property.prop([anyEdit], SEED)(
    'give what a board file can say, or a sentence; the board before is not touched',
    (edit) => {
      const before = structuredClone(shipped)
      const edited = applyEdit(shipped, edit)
      expect(shipped).toEqual(before)
      if (edited.ok) expect(boardSchema.parse(edited.value)).toEqual(edited.value)
      else for (const fault of edited.faults) expect(fault.found.length * fault.expected.length).toBeGreaterThan(0)
    },
  )
})

describe('parts that are moved', () => {
  property.prop([some, byMm], SEED)('there and back are where they were, with the whole board', (moved, by) => {
    const there = unwrap(applyEdit(shipped, { kind: 'move', refs: moved, byMm: by }))
    const back = unwrap(applyEdit(there, { kind: 'move', refs: moved, byMm: { x: -by.x, y: -by.y } }))
    expect(back).toEqual(shipped)
  })

  property.prop([some, fc.constantFrom('each', 'middle')], SEED)('four quarter turns bring back', (turned, about) => {
    let board = shipped
    for (let i = 0; i < 4; i++) board = unwrap(applyEdit(board, { kind: 'rotate', refs: turned, byDeg: 90, about }))
    for (const ref of turned) {
      const [was, is] = [partOf(shipped, ref), partOf(board, ref)]
      expect(is.at.x).toBeCloseTo(was.at.x, 4)
      expect(is.at.y).toBeCloseTo(was.at.y, 4)
      expect((is.rotationDeg - was.rotationDeg) % 360).toBeCloseTo(0, 9)
    }
  })

  property.prop([some], SEED)('to the other side and back are as they were', (turned) => {
    const sideOf = new Map(turned.map((ref) => [ref, partOf(shipped, ref).side]))
    let board = shipped
    for (const ref of turned) {
      const side = sideOf.get(ref) ?? 'top'
      const other = side === 'top' ? 'bottom' : 'top'
      board = unwrap(applyEdit(board, { kind: 'change-side', refs: [ref], to: other }))
      expect(partOf(board, ref).side).toBe(other)
      board = unwrap(applyEdit(board, { kind: 'change-side', refs: [ref], to: side }))
    }
    expect(board).toEqual(shipped)
  })
})

describe('lining up', () => {
  property.prop([several, fc.constantFrom(...alignments)], SEED)('twice is lining up once', (chosen, to) => {
    const once = unwrap(applyEdit(shipped, { kind: 'align', refs: chosen, to }))
    expect(unwrap(applyEdit(once, { kind: 'align', refs: chosen, to }))).toBe(once)
  })

  property.prop([several], SEED)('at the left puts every body’s left edge where the leftmost was', (chosen) => {
    const lined = unwrap(applyEdit(shipped, { kind: 'align', refs: chosen, to: 'left' }))
    const least = Math.min(...chosen.map((ref) => partBox(partOf(shipped, ref)).minX))
    for (const ref of chosen) {
      expect(partBox(partOf(lined, ref)).minX).toBeCloseTo(least, 4)
      expect(partOf(lined, ref).at.y).toBe(partOf(shipped, ref).at.y)
    }
  })

  property.prop([several], SEED)('spacing evenly keeps both ends and gives equal steps', (chosen) => {
    const spaced = unwrap(applyEdit(shipped, { kind: 'distribute', refs: chosen, along: 'x' }))
    const before = chosen.map((ref) => middleX(shipped, ref)).toSorted((a, b) => a - b)
    const after = chosen.map((ref) => middleX(spaced, ref)).toSorted((a, b) => a - b)
    expect(after[0]).toBe(before[0])
    expect(after.at(-1)).toBe(before.at(-1))
    const step = ((before.at(-1) ?? 0) - (before[0] ?? 0)) / (chosen.length - 1)
    for (const [i, middle] of after.entries()) expect(middle).toBeCloseTo((before[0] ?? 0) + step * i, 4)
  })
})

describe('a part that is renamed', () => {
  property.prop([one], SEED)('leaves the check’s result as it was', (ref) => {
    const renamed = unwrap(applyEdit(shipped, { kind: 'rename', ref, to: 'NEW1' }))
    const [before, after] = [unwrap(loadBoard(shipped)), unwrap(loadBoard(renamed))]
    const names = (model: typeof before): string[] =>
      [...model.lanes, ...model.regions].map(({ id }) => id.replace(/^NEW1\b/, ref).replace('/NEW1.', `/${ref}.`))
    expect(names(after)).toEqual(names(before))
    expect(after.corridors.map(({ path }) => path)).toEqual(before.corridors.map(({ path }) => path))
  })

  test.each(small.parts.map(({ ref }) => ref))('%s of a board with faults leaves as many faults', (ref) => {
    const faulty = { ...small, rails: small.rails.map((each) => ({ ...each, feeds: [...each.feeds, 'U77'] })) }
    const renamed = unwrap(applyEdit(faulty, { kind: 'rename', ref, to: 'NEW1' }))
    expect(faultsIn(loadBoard(renamed)).map(({ path }) => path)).toEqual(
      faultsIn(loadBoard(faulty)).map(({ path }) => path),
    )
  })
})

describe('parts under the hand', () => {
  property.prop([some, byMm], SEED)(
    'come to rest in line with a part that the guide names, or on the grid',
    (held, by) => {
      const snap = createSnapper(shipped, held)
      const { byMm: to, guides } = snap({ byMm: by, gridMm: 0.5, withinMm: 0.4 })
      const [first = ''] = held.toSorted((a, b) => refs.indexOf(a) - refs.indexOf(b))
      for (const axis of ['x', 'y'] as const) {
        const guide = guides.find((each) => each.axis === axis)
        if (guide === undefined) {
          const place = (partOf(shipped, first).at[axis] + to[axis]) / 0.5
          expect(place).toBeCloseTo(Math.round(place), 4)
          continue
        }
        expect(held).not.toContain(guide.ref)
        expect(Math.abs(to[axis] - by[axis])).toBeLessThanOrEqual(0.4 + 1e-6)
        const box = partBox(partOf(shipped, guide.ref))
        const [low, high] = axis === 'x' ? [box.minX, box.maxX] : [box.minY, box.maxY]
        expect(Math.min(...[low, (low + high) / 2, high].map((line) => Math.abs(line - guide.atMm)))).toBeLessThan(1e-9)
      }
    },
  )

  property.prop([some, byMm], SEED)('go where the hand goes without grid and lines', (held, by) => {
    expect(createSnapper(shipped, held)({ byMm: by, gridMm: 0, withinMm: 0 })).toEqual({ byMm: by, guides: [] })
  })
})
