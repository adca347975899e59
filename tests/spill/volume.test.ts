/** Volume closure: the wetted set holds what was spilled, and circles, corners and streaks are as wide as geometry says. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  behaviourOf,
  closeVolume,
  createMarcher,
  type Load,
  loadOf,
  marchVolume,
  pointSeeds,
  streakEnd,
  streakLengthMm,
  streakSeeds,
  buildTerrain,
  type Terrain,
} from '../../src/spill/index.ts'
import { faultsIn, partWithRegion, spillBoard, substanceOf, unwrap } from '../support/board-fixture.ts'

const everything = { limitMm: Infinity, beyond: 1 }

function bare(widthMm: number, heightMm: number): Terrain {
  const ground = { sides: ['top' as const], bodies: 'wicked' as const, dams: [], cellMm: 1, maskFilmMm: 2 }
  return buildTerrain(spillBoard(widthMm, heightMm), ground)
}

function radiusOf(terrain: Terrain, x: number, y: number, load: Load): number {
  const curve = marchVolume(terrain, createMarcher(terrain), pointSeeds(terrain, 0, { x, y }), load, everything)
  return closeVolume(curve, load)?.radiusMm ?? Infinity
}

describe('a volume', () => {
  test.each([100, 500, 2000, 5000])('of %i mm³ at 2 mm height makes a disc of its area', (volumeMm3) => {
    // Geometry: r = √(V/(π·h)).
    const radiusMm = radiusOf(bare(120, 120), 60.3, 59.6, { volumeMm3, maskFilmMm: 2 })
    expect(radiusMm / Math.sqrt(volumeMm3 / (Math.PI * 2))).toBeCloseTo(1, 1)
    expect(Math.abs(radiusMm / Math.sqrt(volumeMm3 / (Math.PI * 2)) - 1)).toBeLessThan(0.05)
  })

  test('in a corner makes a quarter disc of twice the radius', () => {
    const load = { volumeMm3: 1000, maskFilmMm: 2 }
    const ratio = radiusOf(bare(120, 120), 119.5, 119.5, load) / Math.sqrt((4 * 1000) / (Math.PI * 2))
    expect(Math.abs(ratio - 1)).toBeLessThan(0.06)
  })

  test('that the board cannot hold fills it, and the rest is told', () => {
    const terrain = bare(20, 10)
    const load = { volumeMm3: 1000, maskFilmMm: 2 }
    const seeds = pointSeeds(terrain, 0, { x: 8, y: 5 })
    const closed = closeVolume(marchVolume(terrain, createMarcher(terrain), seeds, load, everything), load)
    expect(closed?.unplacedMm3).toBeCloseTo(1000 - 20 * 10 * 2, 0)
  })

  test('is what the film over the wetted set adds up to, to within the front’s own cells', () => {
    const model = spillBoard(60, 50, [partWithRegion('U1', 30, 25), partWithRegion('U2', 20, 38, { rotationDeg: 30 })])
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 57, noNaN: true }),
        fc.double({ min: 3, max: 47, noNaN: true }),
        fc.double({ min: 30, max: 3000, noNaN: true }),
        (x, y, volumeMm3) => {
          const ground = { sides: ['top' as const], bodies: 'wicked' as const, dams: [], cellMm: 1, maskFilmMm: 2 }
          const terrain = buildTerrain(model, ground)
          const marcher = createMarcher(terrain)
          const load = { volumeMm3, maskFilmMm: 2 }
          const curve = marchVolume(terrain, marcher, pointSeeds(terrain, 0, { x, y }), load, {
            limitMm: Infinity,
            beyond: 1.5,
          })
          const radiusMm = closeVolume(curve, load)?.radiusMm ?? 0
          let held = 0
          let front = 0
          for (const [cell, effort] of marcher.effortMm.entries()) {
            const film = terrain.filmMm[cell] ?? 0
            if (effort <= radiusMm) held += film
            if (Math.abs(effort - radiusMm) < 0.5) front += film / 2
          }
          expect(Math.abs(held - volumeMm3)).toBeLessThanOrEqual(front + 2)
        },
      ),
      { numRuns: 40 },
    )
  })

  test('that is larger never has the smaller radius', () => {
    const terrain = bare(60, 50)
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 2000, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (v, more) => {
          const less = radiusOf(terrain, 20, 20, { volumeMm3: v, maskFilmMm: 2 })
          expect(radiusOf(terrain, 20, 20, { volumeMm3: v * more, maskFilmMm: 2 })).toBeGreaterThanOrEqual(less - 1e-9)
        },
      ),
      { numRuns: 30 },
    )
  })
})

describe('a streak', () => {
  test('of length L makes a stadium: π·r² + 2·r·L = V/h', () => {
    const terrain = bare(120, 80)
    const load = { volumeMm3: 1200, maskFilmMm: 2 }
    const seeds = streakSeeds(terrain, 0, { x: 30, y: 40 }, { x: 70, y: 40 })
    const radiusMm =
      closeVolume(marchVolume(terrain, createMarcher(terrain), seeds, load, everything), load)?.radiusMm ?? 0
    const lengthMm = 40
    const trueMm = (-2 * lengthMm + Math.sqrt(4 * lengthMm ** 2 + 4 * Math.PI * 600)) / (2 * Math.PI)
    expect(Math.abs(radiusMm - trueMm)).toBeLessThan(0.5)
  })

  test('is as long as half its volume fills a rivulet two capillary lengths wide', () => {
    const water = substanceOf('water')
    const behaviour = unwrap(behaviourOf(water))
    const load = unwrap(loadOf({ volumeMl: 2 }, water, behaviour))
    // Water: lc = 2.727 mm (handbook figures, g = 9.80665); the share of one half is the stated assumption.
    expect(streakLengthMm(load, behaviour)).toBeCloseTo(1000 / (2 * 2.727 * load.maskFilmMm), 1)
  })

  test('runs downhill and stops at a dam', () => {
    const ground = { sides: ['top' as const], bodies: 'wicked' as const, cellMm: 1, maskFilmMm: 2 }
    const dams = [
      {
        side: 'top' as const,
        path: [
          { x: 10, y: 20 },
          { x: 50, y: 20 },
        ],
      },
    ]
    const terrain = buildTerrain(spillBoard(60, 50), { ...ground, dams })
    const stopped = streakEnd(terrain, 0, { x: 30, y: 35 }, 270, 40)
    expect(stopped.x).toBeCloseTo(30, 9)
    expect(stopped.y).toBeGreaterThan(20)
    expect(stopped.y).toBeLessThan(22)
    expect(streakEnd(terrain, 0, { x: 30, y: 35 }, 0, 10).x).toBeCloseTo(40, 9)
  })

  test('is none for what does not flow', () => {
    const paste = substanceOf('cooling-compound')
    const behaviour = unwrap(behaviourOf(paste))
    expect(streakLengthMm(unwrap(loadOf({ smearCm2: 2 }, paste, behaviour)), behaviour)).toBe(0)
  })
})

describe('an amount', () => {
  test('given as a smear covers its area, of whatever it is', () => {
    for (const id of ['water', 'gallium-indium', 'flux-dried']) {
      const substance = substanceOf(id)
      const load = unwrap(loadOf({ smearCm2: 3 }, substance, unwrap(behaviourOf(substance))))
      expect(load.volumeMm3 / load.maskFilmMm).toBeCloseTo(300, 6)
    }
  })

  test('of a crust given as a volume needs the crust’s thickness', () => {
    const { filmThicknessMm: _, ...crust } = substanceOf('flux-dried')
    const faults = faultsIn(loadOf({ volumeMl: 1 }, crust, unwrap(behaviourOf(crust))))
    expect(faults[0]?.path).toContain('filmThicknessMm')
  })
})
