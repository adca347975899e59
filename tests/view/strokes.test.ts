/** Painted strokes: thinned without leaving their line, made into marks that a case takes, and edged where they are. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, distanceToSegment, type Point } from '../../src/base/index.ts'
import { distanceToArea, markSchema } from '../../src/spill/index.ts'
import { outlinesOf } from '../../src/case/index.ts'
import { movedMark } from '../../src/view/sheet/pure/handles.ts'
import { pickMark } from '../../src/view/sheet/pure/pick.ts'
import { areaOfDraft, longerStroke, shapeOfDraft, thinned } from '../../src/view/sheet/pure/stroke.ts'

const point = fc.record({
  x: fc.double({ min: 0, max: 60, noNaN: true }),
  y: fc.double({ min: 0, max: 60, noNaN: true }),
})
const path = fc.array(point, { minLength: 2, maxLength: 60 })
const toPath = (line: readonly Point[], at: Point): number =>
  Math.min(...line.slice(1).map((b, i) => distanceToSegment(at, line[i] ?? b, b)))

describe('thinning', () => {
  it('keeps the ends, and every point within the tolerance of what is left', () => {
    fc.assert(
      fc.property(path, fc.double({ min: 0.01, max: 8, noNaN: true }), (line, toleranceMm) => {
        const left = thinned(line, toleranceMm)
        expect([left[0], left.at(-1)]).toEqual([line[0], line.at(-1)])
        for (const at of line) expect(toPath(left, at)).toBeLessThanOrEqual(toleranceMm + 1e-9)
      }),
      { seed: 30 },
    )
  })

  it('leaves two points of a straight line, and all corners of a zigzag', () => {
    const straight = Array.from({ length: 50 }, (_, i) => ({ x: i, y: 2 * i }))
    expect(thinned(straight, 0.01)).toHaveLength(2)
    const zigzag = Array.from({ length: 9 }, (_, i) => ({ x: i * 4, y: (i % 2) * 4 }))
    expect(thinned(zigzag, 1)).toEqual(zigzag)
  })
})

describe('a stroke becomes', () => {
  const draft = { kind: 'film' as const, side: 'top' as const, at: { x: 5, y: 5 }, radiusMm: 2 }
  const markOf = (shape: ReturnType<typeof areaOfDraft>) =>
    markSchema.parse({ kind: 'film', id: 'drawn', side: 'top', ...shape })

  it('a mark that a case takes, whatever the hand did', () => {
    fc.assert(
      fc.property(path, fc.constantFrom('brush' as const, 'lasso' as const), (points, manner) => {
        expect(() => markOf(areaOfDraft({ ...draft, stroke: { manner, points } }))).not.toThrow()
      }),
      { seed: 31 },
    )
  })

  it('a circle where the hand only pressed', () => {
    for (const manner of ['brush', 'lasso'] as const) {
      expect(areaOfDraft({ ...draft, stroke: { manner, points: [draft.at] } })).toEqual({ at: draft.at, radiusMm: 2 })
    }
  })

  it('at most 2000 points, however long the hand scribbled', () => {
    const scribble = Array.from({ length: 9000 }, (_, i) => ({ x: (i % 90) * (1 + (i % 2)), y: (i * 37) % 50 }))
    const { path: kept } = areaOfDraft({ ...draft, stroke: { manner: 'brush', points: scribble } })
    expect(kept?.length).toBeLessThanOrEqual(2000)
  })

  it('no longer for a hand that trembles in place', () => {
    const stroke = { manner: 'brush' as const, points: [{ x: 0, y: 0 }] }
    expect(longerStroke(stroke, { x: 0.01, y: 0 }, 0.1)).toBe(stroke)
    expect(longerStroke(stroke, { x: 0.2, y: 0 }, 0.1).points).toHaveLength(2)
  })

  it('picked anywhere on it, and moved whole', () => {
    const points = [draft.at, { x: 25, y: 5 }, { x: 25, y: 20 }]
    const mark = markOf(areaOfDraft({ ...draft, stroke: { manner: 'brush', points } }))
    expect(pickMark([mark], { side: 'top', at: { x: 25, y: 15 }, toleranceMm: 0.5 })).toBe(mark)
    expect(pickMark([mark], { side: 'top', at: { x: 15, y: 15 }, toleranceMm: 0.5 })).toBeUndefined()
    const moved = movedMark(mark, { x: 5, y: 15 })
    expect(pickMark([moved], { side: 'top', at: { x: 25, y: 25 }, toleranceMm: 0.5 })).toBe(moved)
    expect(pickMark([moved], { side: 'top', at: { x: 15, y: 5 }, toleranceMm: 0.5 })).toBeUndefined()
  })

  it('drawn with an edge that lies where the brush ends', () => {
    const points = [draft.at, { x: 25, y: 5 }, { x: 25, y: 20 }]
    const mark = {
      kind: 'film' as const,
      id: 'a',
      side: 'top' as const,
      ...shapeOfDraft({ ...draft, stroke: { manner: 'brush', points } }),
    }
    const outlines = outlinesOf(mark)
    expect(outlines).toHaveLength(1)
    for (const at of outlines.flat()) expect(Math.abs(distanceToArea(mark, at))).toBeLessThan(0.12)
    const length = (outlines[0] ?? []).reduce((sum, at, i, all) => sum + distance(at, all[i - 1] ?? at), 0)
    expect(length).toBeGreaterThan(70)
  })
})
