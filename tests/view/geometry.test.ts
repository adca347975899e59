/** Hatch, rings, scale bar, grid, wash: the drawing's plain geometry. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  gridOver,
  hatchSegments,
  polygonContains,
  rectangleAround,
  roundDown125,
  signedArea,
} from '../../src/base/index.ts'
import { hatchSpacingPx } from '../../src/case/index.ts'
import { ringLevels, ringsOf } from '../../src/spill/index.ts'
import { barPlace, gridSteps, scaleBar } from '../../src/view/sheet/pure/scaleBar.ts'
import { washPixels } from '../../src/view/sheet/pure/wash.ts'

fc.configureGlobal({ seed: 20 })

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

const regular = (corners: number, radius: number) =>
  Array.from({ length: corners }, (_, i) => ({
    x: radius * Math.cos((2 * Math.PI * i) / corners),
    y: radius * Math.sin((2 * Math.PI * i) / corners),
  }))

function lengthsOf(segments: readonly number[]): number[] {
  const lengths: number[] = []
  for (let i = 0; i < segments.length; i += 4) {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = segments.slice(i, i + 4)
    lengths.push(Math.hypot(x2 - x1, y2 - y1))
  }
  return lengths
}

describe('hatch', () => {
  it('covers a polygon evenly: the lines’ length times their distance is the area', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 9 }), number(20, 60), number(-180, 180), (corners, radius, angle) => {
        const polygon = regular(corners, radius)
        const spacing = radius / 40
        const covered = lengthsOf(hatchSegments(polygon, spacing, angle)).reduce((a, b) => a + b, 0) * spacing
        expect(covered / signedArea(polygon)).toBeCloseTo(1, 1)
      }),
    )
  })

  it('stays inside, also of a polygon with a notch', () => {
    const notched = [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 30, y: 30 },
      { x: 15, y: 8 },
      { x: 0, y: 30 },
    ]
    fc.assert(
      fc.property(number(-90, 90), number(0.7, 4), number(0, 1), (angle, spacing, share) => {
        const segments = hatchSegments(notched, spacing, angle)
        for (let i = 0; i < segments.length; i += 4) {
          const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = segments.slice(i, i + 4)
          const along = 0.01 + 0.98 * share
          if (Math.hypot(x2 - x1, y2 - y1) < 1e-3) continue
          expect(polygonContains(notched, { x: x1 + along * (x2 - x1), y: y1 + along * (y2 - y1) })).toBe(true)
        }
      }),
    )
  })

  it('draws nothing for a distance that is not positive', () => {
    for (const spacing of [0, -1, Number.NaN]) expect(hatchSegments(rectangleAround(4, 4), spacing, 45)).toEqual([])
  })

  it('is denser the heavier the load, and bounded at both ends', () => {
    fc.assert(
      fc.property(number(0, 1), number(0, 1), (a, b) => {
        expect(hatchSpacingPx(Math.min(a, b))).toBeGreaterThanOrEqual(hatchSpacingPx(Math.max(a, b)))
      }),
    )
    expect(hatchSpacingPx(-3)).toBe(hatchSpacingPx(0))
    expect(hatchSpacingPx(9)).toBe(hatchSpacingPx(1))
  })
})

describe('rings', () => {
  const grid = gridOver({ minX: 0, minY: 0, maxX: 60, maxY: 40 }, 1)
  const effortMm = Float32Array.from({ length: grid.columns * grid.rows }, (_, i) =>
    Math.hypot((i % grid.columns) + 0.5 - 30, Math.floor(i / grid.columns) + 0.5 - 20),
  )

  it('are circles around the point on a bare board, each at its own distance', () => {
    for (const ring of ringsOf({ side: 'top', grid, effortMm }, 8)) {
      expect(ring.loops).toHaveLength(1)
      const [loop = new Float32Array()] = ring.loops
      for (let i = 0; i < loop.length; i += 2) {
        const away = Math.hypot((loop[i] ?? 0) - 30, (loop[i + 1] ?? 0) - 20)
        expect(Math.abs(away - ring.effortMm)).toBeLessThan(0.2)
      }
    }
  })

  it('keep clear of what nothing reaches, and close at the edge of the raster', () => {
    const blocked = effortMm.map((effort, i) => (i % grid.columns >= 34 ? Infinity : effort))
    const rings = ringsOf({ side: 'top', grid, effortMm: blocked }, 12)
    expect(rings.length).toBeGreaterThan(1)
    for (const ring of rings)
      for (const loop of ring.loops) {
        for (let i = 0; i < loop.length; i += 2) expect(loop[i]).toBeLessThanOrEqual(35)
        expect(loop.every(Number.isFinite)).toBe(true)
      }
  })

  it('are none where nothing is reached or the radius says nothing', () => {
    const nowhere = effortMm.map(() => Infinity)
    expect(ringsOf({ side: 'top', grid, effortMm: nowhere }, 8)).toEqual([])
    for (const radius of [0, -2, Number.NaN, Infinity])
      expect(ringsOf({ side: 'top', grid, effortMm }, radius)).toEqual([])
  })

  it('have exactly one solid one, at the radius, and round ones that do not crowd it', () => {
    fc.assert(
      fc.property(number(0.05, 400), (radius) => {
        const levels = ringLevels(radius)
        expect(levels.filter((level) => level.solid).map((level) => level.effortMm)).toEqual([radius])
        expect(levels.length).toBeGreaterThan(1)
        for (const level of levels.filter((one) => !one.solid))
          expect(Math.abs(level.effortMm - radius)).toBeGreaterThanOrEqual(0.18 * radius - 1e-9)
      }),
    )
  })
})

describe('scale bar and grid', () => {
  it('has a round length that fits, and no rounder one between it and the room', () => {
    fc.assert(
      fc.property(number(0.4, 240), number(40, 200), (scale, room) => {
        const bar = scaleBar(scale, room)
        expect(bar.lengthPx).toBeLessThanOrEqual(room * (1 + 1e-6))
        expect(bar.lengthPx).toBeGreaterThan(room / 2.5 - 1e-6)
        expect(['1', '2', '5']).toContain(bar.lengthMm.toExponential()[0])
      }),
    )
  })

  it('says micrometres below a millimetre', () => {
    expect(scaleBar(200, 130).label).toBe('500 µm')
    expect(scaleBar(6, 130).label).toBe('20 mm')
  })

  const usual = { minX: 9, maxX: 159, minY: 80, maxY: 106, endX: 791 }
  const box = (minX: number, maxX: number, minY = 85) => ({ minX, maxX, minY, maxY: minY + 14 })

  it('stands at the left, and further right where it would cover a name', () => {
    expect(barPlace(usual, []).minX).toBe(9)
    expect(barPlace(usual, [box(40, 70, 20), box(300, 340)]).minX).toBe(9)
    expect(barPlace(usual, [box(40, 70), box(100, 210)]).minX).toBe(210)
    expect(barPlace(usual, [box(40, 70), box(100, 210), box(300, 340)]).minX).toBe(340)
  })

  it('covers as few as it can where names stand everywhere', () => {
    const crowd = Array.from({ length: 20 }, (_, i) => box(40 * i, 40 * i + 30))
    const { minX, maxX } = barPlace(usual, crowd)
    expect([minX >= 9, maxX <= 791]).toEqual([true, true])
    // 150 pixels over names of 30 that begin every 40: behind a gap of 10 come (150 − 10) / 40, rounded up
    expect(crowd.filter((each) => each.minX < maxX && each.maxX > minX)).toHaveLength(4)
  })

  it('steps down at the round numbers themselves', () => {
    expect([1, 2, 5, 10, 0.5, 4.999].map(roundDown125)).toEqual([1, 2, 5, 10, 0.5, 2])
    expect(roundDown125(0)).toBe(0)
  })

  it('never draws grid lines nearer than eight pixels', () => {
    fc.assert(
      fc.property(number(0.8, 240), (scale) => {
        expect(gridSteps(scale).fineMm * scale).toBeGreaterThanOrEqual(8 - 1e-9)
      }),
    )
  })

  it('is a 5 and 10 mm grid at working zoom', () => {
    expect(gridSteps(6)).toEqual({ fineMm: 5, coarseMm: 10 })
  })
})

describe('wash', () => {
  it('is strongest at the peak, nothing where there is nothing, its first row on top', () => {
    const pixels = washPixels(Float32Array.of(0, 1, 0.25, 0), 2, 2, '#0072b2', 1)
    const alphas = [3, 7, 11, 15].map((i) => pixels[i])
    expect(alphas).toEqual([Math.round(255 * 0.5), 0, 0, 255])
    expect(Array.from(pixels.subarray(12, 15))).toEqual([0x00, 0x72, 0xb2])
  })

  it('is empty for a field without mass', () => {
    expect(washPixels(new Float32Array(4), 2, 2, '#0072b2').every((value) => value === 0)).toBe(true)
  })
})
