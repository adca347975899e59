/** Puddles, drops and gaps against handbook liquids and published exercises. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  capillaryLengthMm,
  capRadiusMm,
  entryPressurePa,
  meanDropHeightMm,
  puddleHeightMm,
  washburnTimeS,
} from '../../src/spill/index.ts'

describe('a free puddle', () => {
  // Formula: de Gennes, Brochard-Wyart, Quéré 2003 (e = 2·κ⁻¹·sin(θ/2)). Liquids' figures: handbooks, from memory but for
  // the gallium alloys (encyclopedia articles). Heights worked out apart from this program with g = 9.80665.
  test.each([
    ['water', 0.0728, 998, 2.727, 60, 2.727],
    ['water', 0.0728, 998, 2.727, 90, 3.857],
    ['water', 0.0728, 998, 2.727, 180, 5.455],
    ['mercury', 0.4865, 13534, 1.915, 140, 3.598],
    ['mercury', 0.4865, 13534, 1.915, 180, 3.829],
    ['gallium', 0.708, 6095, 3.442, 180, 6.883],
    ['gallium-indium', 0.624, 6250, 3.191, 150, 6.164],
    ['gallium-indium-tin', 0.535, 6440, 2.911, 150, 5.623],
    ['propylene glycol 30 %', 0.06, 1025, 2.443, 60, 2.443],
  ])('of %s stands as high as the handbook figures say', (_name, tension, density, length, angle, height) => {
    expect(capillaryLengthMm(tension, density)).toBeCloseTo(length, 2)
    expect(puddleHeightMm(tension, density, angle)).toBeCloseTo(height, 2)
  })

  test('of mercury on glass is about 3.6 mm high, the textbook value', () => {
    // Textbook value 3.6 mm: from memory.
    expect(Math.abs(puddleHeightMm(0.4865, 13534, 140) - 3.6)).toBeLessThan(0.05)
  })
})

describe('a small drop', () => {
  test('of 90 degrees is half a ball', () => {
    // Geometry: V = 2/3·π·a³.
    expect(capRadiusMm((2 / 3) * Math.PI * 8, 90)).toBeCloseTo(2, 9)
  })

  test('has the volume of its cap, V = π·h·(3a²+h²)/6 with θ = 2·atan(h/a)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        fc.double({ min: 5, max: 175, noNaN: true }),
        (a, deg) => {
          const h = a * Math.tan((deg * Math.PI) / 360)
          expect(capRadiusMm((Math.PI * h * (3 * a * a + h * h)) / 6, deg)).toBeCloseTo(a, 6)
        },
      ),
    )
  })

  test('stands no higher than the puddle, and higher the more there is', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5000, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (v, more) => {
          const height = meanDropHeightMm(v, 2.4, 50)
          expect(height).toBeLessThanOrEqual(2.4)
          expect(meanDropHeightMm(v * more, 2.4, 50)).toBeGreaterThanOrEqual(height - 1e-9)
        },
      ),
    )
  })
})

describe('a gap', () => {
  // Figures of two textbook exercises on underfill, from memory; times worked out by hand from
  // t = 3·μ·L²/(γ·g·cosθ) (Washburn, The dynamics of capillary flow, Physical Review 17, 1921, between plates).
  test.each([
    [11.3, 0.05, 0.0426, 0.023, 15, 14.69],
    [5, 0.25, 1.5, 0.02, 30, 25.98],
  ])(
    'draws an underfill in over %f mm within the exercise’s time',
    (length, gap, viscosityPaS, tension, angle, seconds) => {
      const liquid = { viscosityPaS, surfaceTensionNM: tension, contactAngleDeg: angle }
      expect(washburnTimeS(liquid, length, gap)).toBeCloseTo(seconds, 2)
    },
  )

  test('under a memory fills with coolant within a twentieth of a second', () => {
    // 0.0449 s worked out apart from this program for L 7 mm, g 0.25 mm, μ 2.1 mPa·s, γ 55 mN/m, θ 60°.
    const coolant = { viscosityPaS: 0.0021, surfaceTensionNM: 0.055, contactAngleDeg: 60 }
    expect(washburnTimeS(coolant, 7, 0.25)).toBeCloseTo(0.0449, 4)
  })

  test.each([
    [0.2, 5404],
    [0.25, 4323],
    [0.35, 3088],
  ])('of %f mm keeps a gallium alloy at 150 degrees out until it is pressed', (gap, pressurePa) => {
    // Laplace pressure −2·γ·cosθ/g with γ 0.624 N/m (from memory), worked out apart from this program.
    expect(entryPressurePa(0.624, 150, gap)).toBeCloseTo(pressurePa, -1)
    expect(washburnTimeS({ viscosityPaS: 0.002, surfaceTensionNM: 0.624, contactAngleDeg: 150 }, 5, gap)).toBe(Infinity)
  })

  test('that a liquid wets needs no pressure', () => {
    expect(entryPressurePa(0.0728, 60, 0.3)).toBe(0)
  })
})
