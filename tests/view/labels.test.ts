/** Labels, badges, loads and the overview: where things stand on the sheet. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import bowline from '../../boards/bowline-8.json'
import { overlap, placeLabels, placesAround } from '../../src/base/index.ts'
import { badgeArcs, badgePlaces, loadView } from '../../src/case/index.ts'
import type { Camera } from '../../src/view/sheet/pure/camera.ts'
import { dieOutline } from '../../src/view/sheet/pure/die.ts'
import { overviewPlace } from '../../src/view/sheet/pure/overview.ts'
import { padField } from '../../src/view/sheet/pure/padField.ts'
import { buildScene } from '../../src/view/sheet/pure/scene.ts'
import { boardFrom, tallyOf } from '../support/sheetExample.ts'

fc.configureGlobal({ seed: 20 })

const model = boardFrom(bowline)
const bounds = { minX: 0, minY: 0, maxX: 800, maxY: 600 }
const boxAt = (p: { x: number; y: number }, width: number, height: number) => ({
  minX: p.x,
  minY: p.y,
  maxX: p.x + width,
  maxY: p.y + height,
})

describe('labels', () => {
  it('never cover each other or an obstacle by more than a sliver, unless they are required', () => {
    const anchors = fc.array(
      fc.record({ x: fc.integer({ min: 40, max: 760 }), y: fc.integer({ min: 40, max: 560 }) }),
      {
        maxLength: 30,
      },
    )
    fc.assert(
      fc.property(anchors, (at) => {
        const obstacle = { minX: 300, minY: 200, maxX: 500, maxY: 400 }
        const requests = at.map((p, i) => ({
          id: String(i),
          width: 60,
          height: 16,
          required: false,
          candidates: placesAround({ minX: p.x - 5, minY: p.y - 5, maxX: p.x + 5, maxY: p.y + 5 }, 60, 16, 6),
        }))
        const placed = [...placeLabels(requests, [obstacle], bounds).values()].map((p) => boxAt(p, 60, 16))
        for (const [i, a] of placed.entries())
          for (const b of [obstacle, ...placed.slice(0, i)]) expect(overlap(a, b)).toBeLessThan(0.15 * 60 * 16)
      }),
    )
  })

  it('put a required label somewhere even when everything is covered, an optional one nowhere', () => {
    const everywhere = { minX: -1e4, minY: -1e4, maxX: 1e4, maxY: 1e4 }
    const request = { id: 'a', width: 50, height: 16, candidates: [{ x: 10, y: 10 }] }
    expect(placeLabels([{ ...request, required: true }], [everywhere], bounds).has('a')).toBe(true)
    expect(placeLabels([{ ...request, required: false }], [everywhere], bounds).has('a')).toBe(false)
  })

  it('take the first place when all are free', () => {
    const candidates = placesAround({ minX: 100, minY: 100, maxX: 120, maxY: 120 }, 40, 16, 4)
    const places = placeLabels([{ id: 'a', width: 40, height: 16, required: false, candidates }], [], bounds)
    expect(places.get('a')).toEqual(candidates[0])
  })
})

describe('lift order', () => {
  const boxes = [
    { minX: 500, minY: 200, maxX: 570, maxY: 260 },
    { minX: 400, minY: 40, maxX: 460, maxY: 110 },
    { minX: 250, minY: 160, maxX: 470, maxY: 380 },
  ]
  const core = { x: 360, y: 270 }

  it('stands on corners of the parts, outwards from the core, each badge clear of the others', () => {
    const places = badgePlaces(boxes, [], bounds, core)
    expect(places[0]).toEqual({ x: 570, y: 200 })
    expect(places[1]).toEqual({ x: 460, y: 40 })
    expect(places[2]?.x).toBe(250)
    for (const [i, a] of places.entries())
      for (const b of places.slice(0, i)) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(28)
  })

  it('is joined from each badge to the next, by lines that bulge away from the core', () => {
    const places = badgePlaces(boxes, [], bounds, core)
    const arcs = badgeArcs(places, core)
    expect(arcs.map((arc) => arc.from)).toEqual(places.slice(0, -1))
    expect(arcs.map((arc) => arc.to)).toEqual(places.slice(1))
    for (const { from, control, to } of arcs) {
      const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
      expect(Math.hypot(control.x - core.x, control.y - core.y)).toBeGreaterThan(
        Math.hypot(middle.x - core.x, middle.y - core.y),
      )
    }
  })

  it('is nothing for nothing', () => {
    expect(badgePlaces([], [], bounds, core)).toEqual([])
    expect(badgeArcs([], core)).toEqual([])
  })
})

describe('error load', () => {
  it('lies on both ends of every failing lane and nowhere else, the worst at one', () => {
    const load = loadView(model, [tallyOf(model, 'U13', { A0: 5000, A1: 10 }), tallyOf(model, 'U12', {})])
    expect([...load.failingLanes]).toEqual(['U13.A0', 'U13.A1'])
    expect([...load.failingParts]).toEqual(['U13'])
    const ends = ['U13.A0', 'U13.A1'].flatMap((id) => {
      const lane = model.laneById.get(id)
      return [lane?.memoryRegion, lane?.coreRegion]
    })
    expect(new Set(load.regions.keys())).toEqual(new Set(ends))
    expect(Math.max(...load.regions.values())).toBeCloseTo(1, 9)
    expect(Math.min(...load.regions.values())).toBeGreaterThan(0)
  })

  it('shows a lane that fails without a count', () => {
    const tally = tallyOf(model, 'U14', { B0: 0 })
    expect(loadView(model, [tally]).regions.size).toBeGreaterThan(0)
  })
})

describe('pads', () => {
  it('come back from the index exactly as a plain search finds them', () => {
    const pads = model.memories.flatMap((part) => part.pads)
    const field = padField(pads)
    expect(field.count).toBe(pads.length)
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 250 }), fc.integer({ min: 0, max: 100 }), (x, y) => {
        const box = { minX: x, minY: y, maxX: x + 20, maxY: y + 15 }
        const found = Array.from(field.within(box)).toSorted((a, b) => a - b)
        const plain = pads.flatMap((pad, i) => {
          const reachX = (pad.rotationDeg % 180 === 0 || pad.round ? pad.widthMm : pad.lengthMm) / 2
          const reachY = (pad.rotationDeg % 180 === 0 || pad.round ? pad.lengthMm : pad.widthMm) / 2
          const inside =
            pad.at.x + reachX >= box.minX &&
            pad.at.x - reachX <= box.maxX &&
            pad.at.y + reachY >= box.minY &&
            pad.at.y - reachY <= box.maxY
          return inside ? [i] : []
        })
        expect(found).toEqual(plain)
      }),
    )
  })

  it('may be none at all', () => {
    expect(padField([]).within(bounds)).toHaveLength(0)
  })
})

describe('die and overview', () => {
  it('draws the die in the middle of the core, clear of its lanes’ regions', () => {
    const { core } = model
    if (core === undefined) throw new Error('no core')
    const die = dieOutline(core, buildScene(model).regionsByPart.get(core.ref) ?? [])
    expect(die).toHaveLength(4)
    const middle = die?.reduce((sum, p) => ({ x: sum.x + p.x / 4, y: sum.y + p.y / 4 }), { x: 0, y: 0 })
    expect(middle?.x).toBeCloseTo(core.placement.at.x, 6)
    expect(middle?.y).toBeCloseTo(core.placement.at.y, 6)
  })

  it('draws none where regions cover the middle', () => {
    const { core } = model
    const region = model.regions.find((one) => one.part === core?.ref)
    if (core === undefined || region === undefined) throw new Error('no core')
    expect(dieOutline(core, [{ ...region, role: 'lane', polygon: core.outline }])).toBeUndefined()
  })

  it('shows the whole board in the corner only while it is not in view anyway', () => {
    const camera: Camera = { centre: { x: 133, y: 55 }, scale: 3, side: 'top', width: 900, height: 600 }
    expect(overviewPlace(camera, model.box)).toBeUndefined()
    const near = overviewPlace({ ...camera, scale: 8 }, model.box)
    expect(near).toBeDefined()
    expect((near?.left ?? 0) + (near?.width ?? 0)).toBeLessThan(900)
    expect(overviewPlace({ ...camera, scale: 8, width: 300 }, model.box)).toBeUndefined()
  })
})
