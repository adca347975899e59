/** Picking and walking: what lies under the pointer, and where the keyboard goes next. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { polygonContains } from '../../src/base/index.ts'
import { nextPart, readingOrder } from '../../src/view/sheet/pure/nextPart.ts'
import { nextMark, pickMark, pickOnBoard, pickPart } from '../../src/view/sheet/pure/pick.ts'
import { buildScene } from '../../src/view/sheet/pure/scene.ts'
import { boardFrom, exampleMarks, otherMarks } from '../support/sheetExample.ts'

fc.configureGlobal({ seed: 20 })

const model = boardFrom(bowline)
const scene = buildScene(model)
const part = (ref: string) => {
  const found = model.partByRef.get(ref)
  if (found === undefined) throw new Error(ref)
  return found
}

describe('picking', () => {
  it('agrees with asking every part in turn', () => {
    const area = (ref: string) => part(ref).widthMm * part(ref).lengthMm
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 272, noNaN: true }),
        fc.double({ min: -5, max: 116, noNaN: true }),
        fc.constantFrom('top' as const, 'bottom' as const),
        (x, y, side) => {
          const holding = model.parts.filter((one) => one.side === side && polygonContains(one.outline, { x, y }))
          const picked = pickPart(scene, side, { x, y }, 0)
          const smallest = holding.length === 0 ? undefined : Math.min(...holding.map((one) => area(one.ref)))
          expect(picked === undefined ? undefined : area(picked.ref)).toBe(smallest)
        },
      ),
      { numRuns: 500 },
    )
  })

  it('finds every part at its own middle, unless a smaller one lies over it', () => {
    for (const one of model.parts) {
      const picked = pickPart(scene, one.side, one.placement.at, 0)
      expect(picked === undefined ? Infinity : picked.widthMm * picked.lengthMm).toBeLessThanOrEqual(
        one.widthMm * one.lengthMm,
      )
    }
  })

  it('never finds a part of the other side', () => {
    for (const one of model.memories) expect(pickPart(scene, 'bottom', one.placement.at, 0)?.ref).not.toBe(one.ref)
  })

  it('takes a small part that is missed by a hair, but not one farther off', () => {
    const small = scene.sides.top.parts.at(-1)
    if (small === undefined) throw new Error('no parts')
    const beside = { x: small.box.maxX + 0.2, y: (small.box.minY + small.box.maxY) / 2 }
    expect(pickPart(scene, 'top', beside, 0)?.ref).not.toBe(small.ref)
    expect(pickPart(scene, 'top', beside, 0.6)?.ref).toBe(small.ref)
  })

  it('goes from the part to its lane on the second press', () => {
    const region = model.regions.find((one) => one.part === 'U13' && one.role === 'lane')
    if (region === undefined) throw new Error('no region')
    const first = pickOnBoard(scene, 'top', region.centre, 0.1)
    expect(first).toEqual({ kind: 'part', id: 'U13' })
    expect(pickOnBoard(scene, 'top', region.centre, 0.1, first)).toEqual({ kind: 'lane', id: region.lanes[0] })
  })

  it('finds a lane by its corridor between the parts', () => {
    const corridor = model.corridorByLane.get('U13.A0')
    const [a, b] = [corridor?.path[0], corridor?.path.at(-1)]
    if (a === undefined || b === undefined) throw new Error('no corridor')
    const shares = [0.3, 0.4, 0.5, 0.6, 0.7].map((s) => ({ x: a.x + s * (b.x - a.x), y: a.y + s * (b.y - a.y) }))
    const free = shares.filter((at) => pickPart(scene, 'top', at, 0.05) === undefined)
    expect(free.length).toBeGreaterThan(0)
    for (const at of free) expect(pickOnBoard(scene, 'top', at, 0.05)).toEqual({ kind: 'lane', id: 'U13.A0' })
  })

  it('finds marks by their symbols, on their own side only', () => {
    const marks = [...exampleMarks, ...otherMarks]
    expect(pickMark(marks, { side: 'top', at: { x: 147.4, y: 85 }, toleranceMm: 1 })?.id).toBe('spill-1')
    expect(pickMark(marks, { side: 'bottom', at: { x: 147.4, y: 85 }, toleranceMm: 1 })).toBeUndefined()
    expect(pickMark(marks, { side: 'top', at: { x: 104.5, y: 75 }, toleranceMm: 0.1 })?.id).toBe('film-1')
    expect(pickMark(marks, { side: 'top', at: { x: 133, y: 84.3 }, toleranceMm: 0.5 })?.id).toBe('dam-1')
    expect(pickMark(marks, { side: 'top', at: { x: 20, y: 20 }, toleranceMm: 1 })).toBeUndefined()
  })
})

describe('marks that lie on each other', () => {
  const at = { x: 50, y: 40 }
  const spill = exampleMarks.find(({ kind }) => kind === 'spill')
  if (spill?.kind !== 'spill') throw new Error('no spill')
  const point = { ...spill, id: 'point', at }
  const residue = { kind: 'residue', id: 'residue', side: 'top', at, radiusMm: 8 } as const
  const film = { ...residue, kind: 'film', id: 'film', radiusMm: 12 } as const

  it('are taken as they are drawn, the topmost first, in whatever order they were made', () => {
    for (const marks of [
      [point, residue, film],
      [residue, film, point],
      [film, point, residue],
    ])
      expect(pickMark(marks, { side: 'top', at, toleranceMm: 1 })?.id).toBe('point')
    const beside = { x: 56, y: 40 }
    expect(pickMark([residue, film], { side: 'top', at: beside, toleranceMm: 1 })?.id).toBe('film')
    expect(pickMark([film, residue], { side: 'top', at: beside, toleranceMm: 1 })?.id).toBe('residue')
  })

  it('are taken by what is selected first, as long as the pointer is on it', () => {
    const marks = [point, residue, film]
    expect(pickMark(marks, { side: 'top', at, toleranceMm: 1, selectedId: 'residue' })?.id).toBe('residue')
    const outside = { x: 61, y: 40 }
    expect(pickMark(marks, { side: 'top', at: outside, toleranceMm: 1, selectedId: 'residue' })?.id).toBe('film')
    expect(pickMark(marks, { side: 'bottom', at, toleranceMm: 1, selectedId: 'residue' })).toBeUndefined()
  })

  it('are all reached by pressing again: what lies next below the selected one, and the topmost after the lowest', () => {
    const marks = [point, residue, film]
    const seen = ['point']
    for (let i = 0; i < 3; i++) {
      const under = { side: 'top', at, toleranceMm: 1, selectedId: seen.at(-1) } as const
      seen.push(nextMark(marks, under)?.id ?? '')
    }
    expect(seen).toEqual(['point', 'film', 'residue', 'point'])
  })
})

describe('walking by keyboard', () => {
  it('comes past every part of a side once, forwards and back', () => {
    for (const side of ['top', 'bottom'] as const) {
      const seen: string[] = []
      for (
        let at = nextPart(model, undefined, 'next', side);
        at !== undefined;
        at = nextPart(model, at, 'next', side)
      ) {
        seen.push(at)
        if (seen.length > model.parts.length) break
      }
      expect(seen.toSorted()).toEqual(
        model.parts
          .filter((one) => one.side === side)
          .map((one) => one.ref)
          .toSorted(),
      )
      const last = seen.at(-1)
      expect(nextPart(model, undefined, 'previous', side)).toBe(last)
      expect(nextPart(model, last, 'previous', side)).toBe(seen.at(-2))
    }
  })

  it('starts at the core, then memory in the order of its numbers', () => {
    const order = readingOrder(model, 'top').map((one) => one.ref)
    expect(order.slice(0, 5)).toEqual(['U1', 'U11', 'U12', 'U13', 'U14'])
  })

  it.each([
    ['top', 1],
    ['bottom', -1],
  ] as const)('goes where the arrow points, as the %s is seen', (side, sign) => {
    const steps = readingOrder(model, side).flatMap((one) => {
      const [right, up] = [nextPart(model, one.ref, 'right', side), nextPart(model, one.ref, 'up', side)]
      return [
        ...(right === undefined ? [] : [sign * (part(right).placement.at.x - one.placement.at.x)]),
        ...(up === undefined ? [] : [part(up).placement.at.y - one.placement.at.y]),
      ]
    })
    expect(steps.length).toBeGreaterThan(10)
    expect(Math.min(...steps)).toBeGreaterThan(0)
  })
})
