/** Area marks as evidence: circles, brush strokes and lassos say where something was got to, by any place in their shape. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { distance, type Point } from '../../src/base/index.ts'
import {
  type AreaMark,
  areaMovedTo,
  boxOfArea,
  createReachEngine,
  distanceToArea,
  mannerOf,
  nearestOfArea,
  sizeOfArea,
  type SpillMark,
} from '../../src/spill/index.ts'
import { areaAt, damAlong, partWithRegion, spillAt, spillBoard, substanceOf, unwrap } from '../support/board-fixture.ts'

const water = substanceOf('water')
const model = spillBoard(100, 70, [
  partWithRegion('U1', 30, 35),
  partWithRegion('U2', 60, 35, { bonding: 'underfill' }),
])
const CELL_MM = 1
const engine = createReachEngine(model, { cellMm: CELL_MM })

const circle = (x: number, y: number, radiusMm: number): AreaMark => ({ ...areaAt(x, y, 'a'), radiusMm })
const lasso = (outline: readonly Point[]): AreaMark => ({
  ...areaAt(outline[0]?.x ?? 0, outline[0]?.y ?? 0, 'a'),
  outline: [...outline],
})
const brush = (path: readonly Point[], radiusMm: number): AreaMark => ({
  ...circle(path[0]?.x ?? 0, path[0]?.y ?? 0, radiusMm),
  path: [...path],
})
const roundLasso = (x: number, y: number, radiusMm: number, corners = 90): AreaMark =>
  lasso(
    Array.from({ length: corners }, (_, i) => {
      const turn = (2 * Math.PI * i) / corners
      return { x: x + radiusMm * Math.cos(turn), y: y + radiusMm * Math.sin(turn) }
    }),
  )

/** Probability that the spill got to each of the areas. */
function reached(spill: SpillMark, areas: readonly AreaMark[]): number[] {
  const { groups } = unwrap(engine.hypotheses(spill, [], water, areas))
  return areas.map((_, i) => groups.reduce((sum, group) => sum + (group.areas.includes(i) ? group.weight : 0), 0))
}

const x = fc.double({ min: 12, max: 88, noNaN: true })
const y = fc.double({ min: 12, max: 58, noNaN: true })
const radius = fc.double({ min: 1, max: 7, noNaN: true })
const volumeMl = fc.double({ min: 0.05, max: 1.5, noNaN: true })
const downDeg = fc.constantFrom(undefined, 270)
const spillOf = (px: number, py: number, ml: number, down: number | undefined): SpillMark =>
  spillAt(px, py, { sdMm: 6, amount: { volumeMl: ml }, ...(down === undefined ? {} : { downDeg: down }) })

describe('the same ground says the same, however it was painted', () => {
  test('a circle drawn as a lasso is that circle', () => {
    fc.assert(
      fc.property(x, y, radius, x, y, volumeMl, downDeg, (px, py, r, sx, sy, ml, down) => {
        const [as, lassoed] = reached(spillOf(sx, sy, ml, down), [circle(px, py, r), roundLasso(px, py, r)])
        expect(Math.abs((as ?? 0) - (lassoed ?? 0))).toBeLessThan(0.02)
      }),
      { seed: 11, numRuns: 20 },
    )
  })

  test('a stroke that hardly moves is the circle of its brush', () => {
    fc.assert(
      fc.property(x, y, radius, x, y, volumeMl, (px, py, r, sx, sy, ml) => {
        const dab = brush(
          [
            { x: px, y: py },
            { x: px + 0.02, y: py },
          ],
          r,
        )
        const [as, dabbed] = reached(spillOf(sx, sy, ml, undefined), [circle(px, py, r), dab])
        expect(Math.abs((as ?? 0) - (dabbed ?? 0))).toBeLessThan(0.02)
      }),
      { seed: 12, numRuns: 20 },
    )
  })

  test('on open ground it is got to where the effort to its edge is within the radius', () => {
    const open = spillBoard(100, 70)
    const bare = createReachEngine(open, { cellMm: 0.5 })
    const stroke = brush(
      [
        { x: 30, y: 40 },
        { x: 60, y: 40 },
        { x: 60, y: 55 },
      ],
      2,
    )
    const sure = (at: Point): SpillMark => spillAt(at.x, at.y, { sdMm: 0, amount: { smearCm2: 3 }, amountSdLog: 0 })
    const { radiusMm } = unwrap(bare.reach(sure({ x: 50, y: 20 }), [], water))
    for (const at of [
      { x: 45, y: 38 - radiusMm + 0.7 },
      { x: 62 + radiusMm - 0.7, y: 50 },
      { x: 45, y: 40 },
    ]) {
      expect(distanceToArea(stroke, at)).toBeLessThan(radiusMm)
      const { groups } = unwrap(bare.hypotheses(sure(at), [], water, [stroke]))
      expect(groups.map(({ areas }) => [...areas])).toEqual([[0]])
    }
    for (const at of [
      { x: 45, y: 38 - radiusMm - 0.7 },
      { x: 62 + radiusMm + 0.7, y: 50 },
    ]) {
      const { groups } = unwrap(bare.hypotheses(sure(at), [], water, [stroke]))
      expect(groups.map(({ areas }) => [...areas])).toEqual([[]])
    }
  })
})

// A smear of 3 cm² on open ground is a circle of r = √(300 mm² / π) = 9.77 mm about wherever it landed.
test('of a spread each way keeps which areas it got to, and ways that got to the same are told as one', () => {
  const radiusMm = Math.sqrt(300 / Math.PI)
  const dots = [circle(36, 35, 2), circle(60, 41, 2), circle(50, 22, 2), circle(92, 10, 2)]
  const open = createReachEngine(spillBoard(100, 70), { cellMm: 0.5 })
  const spill = spillAt(50, 35, { sdMm: 7, amount: { smearCm2: 3 }, amountSdLog: 0 })
  const { groups, members } = unwrap(open.hypotheses(spill, [], water, dots))
  const sets = groups.map(({ areas }) => [...areas].join(' '))
  expect(new Set(sets).size).toBe(sets.length)
  const seen = new Set<string>()
  for (const [i, group] of members.group.entries()) {
    const place = { x: members.xMm[i] ?? 0, y: members.yMm[i] ?? 0 }
    const beyond = dots.map(({ at, radiusMm: dotMm }) => distance(place, at) - dotMm - radiusMm)
    // a cell and a half on either side of the rim is left to the raster
    if (beyond.some((mm) => Math.abs(mm) < 0.75)) continue
    const due = beyond.flatMap((mm, area) => (mm < 0 ? [area] : [])).join(' ')
    expect([place, sets[group]]).toEqual([place, due])
    seen.add(due)
  }
  expect([...seen].toSorted()).toEqual(expect.arrayContaining(['', '0', '1', '2']))
})

/**
 * 3 cm² of water on a board that stood on its edge. Half of what there is runs down, in a rivulet two capillary lengths wide and
 * as high as the rest (the model's stated assumption), so the film's height drops out: L = ½ · 300 mm² / (2 · lc). All of
 * it together is a stadium of that length: 2 · r · L + π · r² = 300 mm². lc = √(γ / (ρ · g)), water at 20 °C: 0.0728 N/m and
 * 998 kg/m³ (CRC Handbook of Chemistry and Physics; values from memory).
 */
describe('a streak that runs down', () => {
  const capillaryMm = 1000 * Math.sqrt(0.0728 / (998 * 9.81))
  const lengthMm = (0.5 * 300) / (2 * capillaryMm)
  const radiusMm = (Math.sqrt(lengthMm ** 2 + Math.PI * 300) - lengthMm) / Math.PI
  const open = createReachEngine(spillBoard(100, 70), { cellMm: 0.5 })
  const dotMm = 1.5

  test.each([
    [270, { x: 50, y: 52 }],
    [180, { x: 75, y: 30 }],
    [40, { x: 30, y: 25 }],
  ])(
    'towards %d° gets to each dot within r of its line, above, beside and below, and to no other',
    (towardsDeg, from) => {
      const down = { x: Math.cos((towardsDeg * Math.PI) / 180), y: Math.sin((towardsDeg * Math.PI) / 180) }
      const fromLine = (at: Point): number => {
        const along = (at.x - from.x) * down.x + (at.y - from.y) * down.y
        const gone = Math.min(Math.max(along, 0), lengthMm)
        return distance(at, { x: from.x + gone * down.x, y: from.y + gone * down.y })
      }
      const places = Array.from({ length: 16 * 11 }, (_, i) => ({ x: 5 + 6 * (i % 16), y: 5 + 6 * Math.floor(i / 16) }))
      // a cell and a half on either side of the rim is left to the raster
      const clear = places.filter((at) => Math.abs(fromLine(at) - dotMm - radiusMm) > 0.75)
      const near = clear.filter((at) => fromLine(at) - dotMm < radiusMm)
      expect(near.length).toBeGreaterThan(8)
      expect(clear.length - near.length).toBeGreaterThan(100)
      const spill = spillAt(from.x, from.y, { sdMm: 0, amount: { smearCm2: 3 }, amountSdLog: 0, downDeg: towardsDeg })
      const dots = clear.map(({ x: atX, y: atY }) => circle(atX, atY, dotMm))
      const { groups } = unwrap(open.hypotheses(spill, [], water, dots))
      const gotTo = groups.map(({ areas }) => [...areas].map((i) => clear[i]))
      expect(gotTo).toEqual([near])
    },
  )
})

describe('more area', () => {
  test('is got to no less: wider circles, longer strokes, larger lassos', () => {
    fc.assert(
      fc.property(x, y, radius, x, y, volumeMl, downDeg, (px, py, r, sx, sy, ml, down) => {
        const path = [
          { x: px, y: py },
          { x: px + 5, y: py + 3 },
        ]
        const [small = 0, wide = 0, long = 0, lassoed = 0] = reached(spillOf(sx, sy, ml, down), [
          circle(px, py, r),
          circle(px, py, r + 2),
          brush(path, r),
          roundLasso(px, py, r + 2),
        ])
        expect(wide).toBeGreaterThanOrEqual(small - 1e-6)
        expect(long).toBeGreaterThanOrEqual(small - 1e-6)
        expect(lassoed).toBeGreaterThanOrEqual(small - 0.02)
      }),
      { seed: 13, numRuns: 20 },
    )
  })
})

describe('where nothing gets', () => {
  test('what lies wholly on a sealed body is judged by the nearest ground, however large', () => {
    const spill = spillAt(60, 35, { sdMm: 1, amount: { volumeMl: 2 } })
    expect(reached(spill, [circle(60, 35, 1.5)])).toEqual(reached(spill, [circle(60, 35, 0.4)]))
  })

  test('a shape on one side of a dam is not got to from the other, and is where the dam is taken away', () => {
    const spill = spillAt(44, 15, { sdMm: 0.5, amount: { volumeMl: 2 } })
    const stroke = brush(
      [
        { x: 53, y: 12 },
        { x: 53, y: 20 },
      ],
      1.5,
    )
    const behind = unwrap(engine.hypotheses(spill, [damAlong([50, -1], [50, 71])], water, [stroke]))
    expect(behind.groups.every(({ areas }) => areas.length === 0)).toBe(true)
    expect(reached(spill, [stroke])[0]).toBeGreaterThan(0.9)
  })
})

describe('a shape', () => {
  const shapes = [
    circle(20, 20, 4),
    brush(
      [
        { x: 20, y: 20 },
        { x: 30, y: 24 },
      ],
      2,
    ),
    lasso([
      { x: 20, y: 20 },
      { x: 34, y: 22 },
      { x: 27, y: 33 },
    ]),
  ]

  test('moves whole: every place goes along, and it keeps its size', () => {
    for (const shape of shapes) {
      const moved = areaMovedTo(shape, { x: shape.at.x + 7, y: shape.at.y - 3 })
      expect(sizeOfArea(moved)).toBeCloseTo(sizeOfArea(shape), 9)
      for (const point of [
        { x: 21, y: 22 },
        { x: 28, y: 25 },
        { x: 5, y: 60 },
      ]) {
        expect(distanceToArea(moved, { x: point.x + 7, y: point.y - 3 })).toBeCloseTo(distanceToArea(shape, point), 9)
      }
    }
    expect(shapes.map(mannerOf)).toEqual(['circle', 'brush', 'lasso'])
  })

  test('lies within its box, and its edge distance changes no faster than the point moves', () => {
    fc.assert(
      fc.property(x, y, x, y, (ax, ay, bx, by) => {
        for (const shape of shapes) {
          const [a, b] = [
            { x: ax, y: ay },
            { x: bx, y: by },
          ]
          const box = boxOfArea(shape)
          const within = ax >= box.minX && ax <= box.maxX && ay >= box.minY && ay <= box.maxY
          if (distanceToArea(shape, a) <= 0) expect(within).toBe(true)
          expect(Math.abs(distanceToArea(shape, a) - distanceToArea(shape, b))).toBeLessThanOrEqual(
            distance(a, b) + 1e-9,
          )
        }
      }),
      { seed: 14 },
    )
  })

  test('is nearest to a point at one of its own points, as far away as its edge', () => {
    fc.assert(
      fc.property(x, y, (px, py) => {
        for (const shape of shapes) {
          const point = { x: px, y: py }
          const nearest = nearestOfArea(shape, point)
          expect(distanceToArea(shape, nearest)).toBeLessThanOrEqual(1e-6)
          expect(distance(nearest, point)).toBeCloseTo(Math.max(0, distanceToArea(shape, point)), 6)
        }
      }),
      { seed: 15 },
    )
  })
})
