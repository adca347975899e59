/** How the card hung: which way is down, which side faced down, and how much clings below it. */
import { describe, expect, test } from 'vitest'
import {
  behaviourOf,
  createReachEngine,
  hangsDown,
  largestHangingDrop,
  loadOf,
  type Mounting,
  mountedAs,
  hungOf,
  mountingSchema,
  spillMarkSchema,
} from '../../src/spill/index.ts'
import { partWithRegion, spillAt, spillBoard, substanceOf, unwrap } from '../support/board-fixture.ts'

const water = substanceOf('water')

describe('a mounting', () => {
  test.each(mountingSchema.options)('"%s" is found again in the fields that it gives a mark', (mounting) => {
    expect(hungOf(mountedAs(mounting))).toBe(mounting)
  })

  test('says which edge of the sheet was down, and nothing of an edge where the card was level', () => {
    const down: Record<Mounting, number | undefined> = {
      flat: undefined,
      hanging: undefined,
      upright: 270,
      'slot-up': 90,
      'bracket-down': 180,
      'bracket-up': 0,
    }
    for (const mounting of mountingSchema.options) expect(mountedAs(mounting).downDeg).toBe(down[mounting])
    expect(hungOf({ downDeg: -90 })).toBe('upright')
    expect(hungOf({ downDeg: 225 })).toBe('at an angle')
  })

  test('of a mark of an earlier version, that says nothing, is not said, and counted as lying below the spill', () => {
    const old = spillMarkSchema.parse({
      kind: 'spill',
      id: 's',
      side: 'bottom',
      at: { x: 1, y: 1 },
      sdMm: 1,
      substance: 'water',
      amount: { volumeMl: 1 },
    })
    expect(hungOf(old)).toBe('not said')
    expect(hangsDown(old, 'top')).toBe(false)
  })

  test('turns the core side or the other one down', () => {
    expect(hangsDown({ side: 'top', ...mountedAs('hanging') }, 'top')).toBe(true)
    expect(hangsDown({ side: 'bottom', ...mountedAs('hanging') }, 'top')).toBe(false)
    expect(hangsDown({ side: 'top', ...mountedAs('flat') }, 'top')).toBe(false)
    expect(hangsDown({ side: 'bottom', ...mountedAs('flat') }, 'top')).toBe(true)
    expect(hangsDown({ side: 'top', ...mountedAs('upright') }, 'top')).toBe(false)
  })
})

describe('the largest drop below a ceiling', () => {
  test('comes near 18.97 capillary lengths cubed as the liquid wets the ceiling fully (from memory)', () => {
    expect(largestHangingDrop(5)).toBeGreaterThan(0.93 * 18.97)
    expect(largestHangingDrop(5)).toBeLessThan(18.97)
  })

  test('is the smaller the worse the liquid wets, for less of its rim holds it', () => {
    const volumes = [10, 30, 50, 70, 90, 120].map(largestHangingDrop)
    expect(volumes).toEqual(volumes.toSorted((a, b) => b - a))
  })

  test('weighs less than surface tension can hold along its rim and more than half of that: Tate’s law as a bound', () => {
    // Tate 1864: weight at most 2π·R·γ for a vertical pull; at a hemisphere’s angle, R is below one capillary length.
    const volume = largestHangingDrop(90)
    expect(volume).toBeLessThan(2 * Math.PI)
    expect(volume).toBeGreaterThan(Math.PI)
  })
})

describe('the reach of a leak of 2 ml', () => {
  const model = spillBoard(100, 70, [partWithRegion('U1', 30, 35)])
  const engine = createReachEngine(model)
  const areaOf = (mounting: Mounting): number => {
    const mark = spillAt(70, 35, { sdMm: 0, amount: { volumeMl: 2 }, ...mountedAs(mounting) })
    return unwrap(engine.reach(mark, [], water)).areaMm2
  }

  test('is less below the board than on it, for what does not cling drips off; on edge it runs down', () => {
    expect(areaOf('hanging')).toBeLessThan(areaOf('flat') / 2)
    const notes = unwrap(
      engine.reach(spillAt(70, 35, { sdMm: 0, amount: { volumeMl: 2 }, lay: 'core-down' }), [], water),
    ).notes.join(' ')
    expect(notes).toMatch(/faced down: at most 0\.\d+ ml clings/)
  })
})

describe('liquid on a side that faced down', () => {
  test('clings as one drop at most; a little clings whole', () => {
    const hanging = unwrap(behaviourOf(water, true))
    const lying = unwrap(behaviourOf(water))
    const clings = hanging.clingsMm3 ?? 0
    expect(clings).toBeGreaterThan(50)
    expect(clings).toBeLessThan(400)
    expect(unwrap(loadOf({ volumeMl: 2 }, water, hanging)).volumeMm3).toBe(clings)
    expect(unwrap(loadOf({ volumeMl: 2 }, water, lying)).volumeMm3).toBe(2000)
    expect(unwrap(loadOf({ volumeMl: 0.01 }, water, hanging))).toEqual(unwrap(loadOf({ volumeMl: 0.01 }, water, lying)))
  })

  test('that is held, like liquid metal or a crust, stays whichever way it faced', () => {
    for (const id of ['gallium-indium', 'flux-dried'])
      expect(unwrap(behaviourOf(substanceOf(id), true))).toEqual(unwrap(behaviourOf(substanceOf(id))))
  })
})
