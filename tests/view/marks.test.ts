/** Marks under the hand: handles, what they change, and the words beside them. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance } from '../../src/base/index.ts'
import { markSchema } from '../../src/spill/index.ts'
import { anchorOf, handledMark, handlesOf, movedMark, pickHandle } from '../../src/view/sheet/pure/handles.ts'
import { wheelMeaning } from '../../src/view/sheet/pure/wheel.ts'
import { wordsOfMark } from '../../src/case/index.ts'
import { exampleMarks, otherMarks } from '../support/sheetExample.ts'

fc.configureGlobal({ seed: 20 })

const marks = [...exampleMarks, ...otherMarks]
const named = (id: string) => {
  const mark = marks.find((one) => one.id === id)
  if (mark === undefined) throw new Error(id)
  return mark
}
const points = fc.record({
  x: fc.double({ min: -100, max: 300, noNaN: true }),
  y: fc.double({ min: -100, max: 300, noNaN: true }),
})

describe('handles', () => {
  it('leave every mark one that a case file takes, wherever they are dragged', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...marks),
        points,
        fc.double({ min: 0.5, max: 100, noNaN: true }),
        (mark, to, scale) => {
          for (const handle of handlesOf(mark, scale)) {
            expect(markSchema.safeParse(handledMark(mark, handle, to)).success).toBe(true)
          }
        },
      ),
    )
  })

  it('move a mark to where it is dropped, a dam with all its bends', () => {
    fc.assert(
      fc.property(fc.constantFrom(...marks), points, (mark, to) => {
        const moved = movedMark(mark, to)
        expect(distance(anchorOf(moved), to)).toBeLessThan(1e-9)
        if (mark.kind !== 'dam' || moved.kind !== 'dam') return
        const length = (path: readonly { x: number; y: number }[]) =>
          path.slice(1).reduce((sum, bend, i) => sum + distance(bend, path[i] ?? bend), 0)
        expect(length(moved.path)).toBeCloseTo(length(mark.path), 6)
      }),
    )
  })

  it('turn down towards the hand, in steps of five degrees', () => {
    const spill = named('spill-1')
    const down = handlesOf(spill, 6).find((handle) => handle.kind === 'down')
    if (down === undefined) throw new Error('no handle')
    const at = anchorOf(spill)
    expect(handledMark(spill, down, { x: at.x + 10, y: at.y })).toEqual({ ...spill, downDeg: 0 })
    expect(handledMark(spill, down, { x: at.x, y: at.y - 3 })).toEqual({ ...spill, downDeg: -90 })
    expect(handledMark(spill, down, { x: at.x - 7, y: at.y - 7.1 })).toEqual({ ...spill, downDeg: -135 })
  })

  it('do not jump when the ± ring is gripped while it is smaller than the dot', () => {
    const wide = named('spill-1')
    if (wide.kind !== 'spill') throw new Error('no spill')
    const spill = { ...wide, sdMm: 0.5 }
    const ring = handlesOf(spill, 4).find((handle) => handle.kind === 'sd')
    if (ring === undefined) throw new Error('no handle')
    expect(handledMark(spill, ring, ring.at)).toEqual(spill)
  })

  it('are taken the nearest first, and the rim before the middle where both are equally near', () => {
    const handles = handlesOf(named('clean-1'), 4)
    const rim = handles.find((handle) => handle.kind === 'radius')
    if (rim === undefined) throw new Error('no handle')
    expect(pickHandle(handles, rim.at, 4)?.kind).toBe('radius')
    const middle = anchorOf(named('clean-1'))
    const reach = distance(middle, rim.at)
    expect(pickHandle(handles, { x: middle.x + 0.3 * reach, y: middle.y }, 2 * reach)?.kind).toBe('move')
    expect(pickHandle(handles, { x: middle.x + 0.5 * reach, y: middle.y }, 2 * reach)?.kind).toBe('radius')
    expect(pickHandle(handles, { x: rim.at.x + 9, y: rim.at.y }, 4)).toBeUndefined()
  })
})

describe('words beside marks', () => {
  it('name the substance, how sure the place is, the amount and what was down', () => {
    expect(wordsOfMark(named('spill-1'), () => 'glycol coolant')).toEqual({
      title: 'glycol coolant',
      detail: '± 4 mm · 0.4 ml',
    })
  })

  it('shorten a long note to one line', () => {
    const note = {
      ...named('note-1'),
      kind: 'note' as const,
      at: { x: 0, y: 0 },
      text: `first\nsecond ${'x'.repeat(200)}`,
    }
    const { title } = wordsOfMark(note, (id) => id)
    expect(title.length).toBeLessThanOrEqual(42)
    expect(title).not.toContain('\n')
  })
})

describe('wheel', () => {
  const turn = { deltaX: 0, deltaY: 0, deltaMode: 0, ctrlKey: false, shiftKey: false }

  it('zooms in with a notch away from the hand and out towards it, by the same factor', () => {
    const into = wheelMeaning({ ...turn, deltaY: -120 }, false)
    const out = wheelMeaning({ ...turn, deltaY: 120 }, false)
    if (into.kind !== 'zoom' || out.kind !== 'zoom') throw new Error('no zoom')
    expect(into.factor).toBeGreaterThan(1)
    expect(into.factor * out.factor).toBeCloseTo(1, 9)
  })

  it('zooms with a pinch, pans with a stroke of two fingers, keeps on panning as the stroke speeds up', () => {
    expect(wheelMeaning({ ...turn, deltaY: 4, ctrlKey: true }, true).kind).toBe('zoom')
    expect(wheelMeaning({ ...turn, deltaX: 6, deltaY: 80 }, false)).toEqual({ kind: 'pan', dx: -6, dy: -80 })
    expect(wheelMeaning({ ...turn, deltaY: 90 }, true).kind).toBe('pan')
    expect(wheelMeaning({ ...turn, deltaY: 100, shiftKey: true }, false)).toEqual({ kind: 'pan', dx: -100, dy: 0 })
  })
})
