/** The engine: probabilities obey their laws, agree with plain sampling and with a direct march, and bad input is refused. */
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sayFault, seededRandom } from '../../src/base/index.ts'
import {
  createReachEngine,
  type ReachEngine,
  type ReachResult,
  ringLevels,
  type SpillHypotheses,
  type SpillMark,
} from '../../src/spill/index.ts'
import {
  areaAt,
  damAlong,
  faultsIn,
  partWithRegion,
  spillAt,
  spillBoard,
  substanceOf,
  unwrap,
} from '../support/board-fixture.ts'

const water = substanceOf('water')
const alloy = substanceOf('gallium-indium')
const crust = substanceOf('flux-dried')

const model = spillBoard(100, 70, [
  partWithRegion('U1', 30, 35),
  partWithRegion('U2', 55, 35, { rotationDeg: 90 }),
  partWithRegion('U3', 80, 35, { bonding: 'underfill' }),
  partWithRegion('U4', 55, 55, { side: 'bottom' }),
  {
    ref: 'C1',
    kind: 'capacitor',
    side: 'top',
    at: { x: 42, y: 44 },
    body: { widthMm: 1, lengthMm: 0.5, heightMm: 0.5 },
  },
])
const engine = createReachEngine(model)

const chanceOf = (result: ReachResult, ref: string): number =>
  result.parts.find((part) => part.ref === ref)?.probability ?? 0
const reachOf = (mark: SpillMark, on: ReachEngine = engine): ReachResult => unwrap(on.reach(mark, [], water))

const x = fc.double({ min: 2, max: 98, noNaN: true })
const y = fc.double({ min: 2, max: 68, noNaN: true })
const volumeMl = fc.double({ min: 0.02, max: 4, noNaN: true })

describe('a probability', () => {
  test('lies between 0 and 1, for every part, region and corridor', () => {
    fc.assert(
      fc.property(x, y, volumeMl, fc.double({ min: 0, max: 8, noNaN: true }), (px, py, ml, sdMm) => {
        const result = reachOf(spillAt(px, py, { sdMm, amount: { volumeMl: ml } }))
        for (const { probability } of [...result.parts, ...result.regions, ...result.corridors]) {
          expect(probability).toBeGreaterThanOrEqual(0)
          expect(probability).toBeLessThanOrEqual(1)
        }
        expect(result.unplacedMl).toBe(0)
      }),
      { numRuns: 15 },
    )
  })

  test('never falls when there is more of the substance, and neither does the radius', () => {
    fc.assert(
      fc.property(x, y, volumeMl, fc.double({ min: 1, max: 3, noNaN: true }), (px, py, ml, more) => {
        const less = reachOf(spillAt(px, py, { amount: { volumeMl: ml } }))
        const greater = reachOf(spillAt(px, py, { amount: { volumeMl: ml * more } }))
        expect(greater.radiusMm).toBeGreaterThanOrEqual(less.radiusMm - 1e-9)
        for (const ref of ['U1', 'U2', 'C1']) {
          expect(chanceOf(greater, ref)).toBeGreaterThanOrEqual(chanceOf(less, ref) - 1e-9)
        }
      }),
      { numRuns: 15 },
    )
  })

  test('never rises behind a dam that stands across the way', () => {
    fc.assert(
      fc.property(fc.double({ min: 34, max: 41, noNaN: true }), volumeMl, (px, ml) => {
        const mark = spillAt(px, 35, { sdMm: 2, amount: { volumeMl: ml } })
        const open = unwrap(engine.reach(mark, [], water))
        const dammed = unwrap(engine.reach(mark, [damAlong([49, 15], [49, 55])], water))
        expect(chanceOf(dammed, 'U2')).toBeLessThanOrEqual(chanceOf(open, 'U2') + 1e-9)
      }),
      { numRuns: 10 },
    )
  })

  test('is nothing behind a closed dam, in an underfilled part and on the side that is left out', () => {
    const ring = damAlong([45, 20], [65, 20], [65, 50], [45, 50], [45, 20])
    const dammed = unwrap(engine.reach(spillAt(30, 35, { amount: { volumeMl: 8 } }), [ring], water))
    // Its gap is shut with a chance of 15 %, an assumption of the room.
    expect(chanceOf(dammed, 'U1')).toBeGreaterThan(0.8)
    expect(chanceOf(dammed, 'U2')).toBe(0)
    expect(chanceOf(reachOf(spillAt(80, 35, { amount: { volumeMl: 4 } })), 'U3')).toBe(0)
    expect(chanceOf(reachOf(spillAt(55, 55, { amount: { volumeMl: 4 } })), 'U4')).toBe(0)
  })

  test('agrees with plain sampling on open ground, where a disc of radius √(V/(π·h)) is all there is', () => {
    const open = spillBoard(160, 160, [
      {
        ref: 'C9',
        kind: 'capacitor',
        side: 'top',
        at: { x: 92.5, y: 80.5 },
        body: { widthMm: 0.2, lengthMm: 0.2, heightMm: 0.5 },
        standoffMm: 0,
      },
    ])
    const mark = spillAt(80, 80, { sdMm: 4, amount: { smearCm2: 4 }, amountSdLog: 0.4 })
    const quadrature = chanceOf(reachOf(mark, createReachEngine(open)), 'C9')
    const random = seededRandom(5)
    const samples = 20_000
    let hits = 0
    for (let i = 0; i < samples; i++) {
      const dx = 4 * random.normal() - 12.5
      const dy = 4 * random.normal() - 0.5
      const areaMm2 = 400 * Math.exp(0.4 * random.normal())
      if (dx * dx + dy * dy <= areaMm2 / Math.PI) hits++
    }
    expect(Math.abs(quadrature - hits / samples)).toBeLessThan(0.03)
  })
})

describe('hypotheses', () => {
  const areas = [areaAt(40, 35, 'a'), areaAt(90, 60, 'b')]
  const made = (mark: SpillMark): SpillHypotheses => unwrap(engine.hypotheses(mark, [], water, areas))

  test('have weights that sum to one, groups that sum their members, and no two groups alike', () => {
    fc.assert(
      fc.property(x, y, volumeMl, (px, py, ml) => {
        const { groups, members } = made(spillAt(px, py, { amount: { volumeMl: ml } }))
        const sums = new Float64Array(groups.length)
        for (const [i, group] of members.group.entries()) sums[group] = (sums[group] ?? 0) + (members.weight[i] ?? 0)
        expect(groups.reduce((sum, group) => sum + group.weight, 0)).toBeCloseTo(1, 9)
        for (const [i, group] of groups.entries()) expect(sums[i]).toBeCloseTo(group.weight, 5)
        const sets = groups.map(({ regions, corridors, areas: seen }) =>
          [regions, corridors, seen].map((set) => set.join()).join('|'),
        )
        expect(new Set(sets).size).toBe(sets.length)
      }),
      { numRuns: 12 },
    )
  })

  test('say of every region what the reach says', () => {
    const mark = spillAt(40, 36, { sdMm: 5, amount: { volumeMl: 1 } })
    const { groups } = made(mark)
    for (const [i, region] of reachOf(mark).regions.entries()) {
      const inGroups = groups.reduce((sum, group) => sum + (group.regions.includes(i) ? group.weight : 0), 0)
      expect(inGroups).toBeCloseTo(region.probability, 9)
    }
  })

  test('reach the area marks that are near, and not those that are far', () => {
    const { groups } = made(spillAt(40, 36, { sdMm: 2, amount: { volumeMl: 1 } }))
    const chance = (i: number): number => groups.reduce((sum, g) => sum + (g.areas.includes(i) ? g.weight : 0), 0)
    expect(chance(0)).toBeGreaterThan(0.9)
    expect(chance(1)).toBe(0)
  })

  test('of a place that is hardly known still lie close enough together to meet every part', () => {
    const { members } = made(spillAt(40, 36, { sdMm: 80, amountSdLog: 0 }))
    const sum = members.weight.reduce((total, weight) => total + weight, 0)
    expect(sum).toBeCloseTo(1, 4)
    expect(members.weight.length).toBeGreaterThan((100 * 70) / 8 ** 2 / 1.3)
  })

  test('of a spill that nobody reported cover the board and need no mark', () => {
    const { groups, members } = engine.unreportedHypotheses({ side: 'top', areas, dams: [] })
    expect(groups.reduce((sum, group) => sum + group.weight, 0)).toBeCloseTo(1, 9)
    expect(Math.min(...members.xMm)).toBeLessThan(5)
    expect(Math.max(...members.xMm)).toBeGreaterThan(95)
    expect(groups.some((group) => group.regions.length === 0)).toBe(true)
    expect(groups.some((group) => group.regions.length > 0)).toBe(true)
  })

  test('come out the same to the last bit on every run, prepared or not', () => {
    const mark = spillAt(40, 36, { sdMm: 5, amount: { volumeMl: 1 }, downDeg: 270 })
    const fresh = createReachEngine(model)
    unwrap(fresh.prepare(mark, [], water))
    const unprepared = createReachEngine(model)
    expect(unwrap(fresh.hypotheses(mark, [], water, areas))).toEqual(
      unwrap(unprepared.hypotheses(mark, [], water, areas)),
    )
    expect(unwrap(fresh.reach(mark, [], water))).toEqual(unwrap(unprepared.reach(mark, [], water)))
  })
})

describe('ways of moving', () => {
  test('an alloy stays beside a body until it is pushed, then goes under it', () => {
    const mark = spillAt(24, 35, {
      substance: alloy.id,
      sdMm: 0,
      amount: { smearCm2: 0.6 },
      amountSdLog: 0,
      pressed: 'no',
    })
    expect(chanceOf(unwrap(engine.reach(mark, [], alloy)), 'U1')).toBe(0)
    const pushed = unwrap(engine.reach({ ...mark, pressed: 'yes', pushMm: 4 }, [], alloy))
    expect(chanceOf(pushed, 'U1')).toBe(1)
    // The rim of U1's body is at x = 26, its region starts at 28.5: 2.5 mm under the body.
    expect(chanceOf(unwrap(engine.reach({ ...mark, pressed: 'yes', pushMm: 2 }, [], alloy)), 'U1')).toBe(0)
  })

  test('a crust covers its area and no more, wherever the card hung', () => {
    const mark = spillAt(60, 60, { substance: crust.id, sdMm: 0, amount: { smearCm2: 2 }, downDeg: 270 })
    const result = unwrap(engine.reach(mark, [], crust))
    expect(Math.abs(result.areaMm2 - 200)).toBeLessThan(6)
  })

  test('water on a mounted card runs down: parts below are likelier, parts above no likelier', () => {
    const flat = reachOf(spillAt(30, 60, { sdMm: 1, amount: { volumeMl: 1.2 } }))
    const hung = reachOf(spillAt(30, 60, { sdMm: 1, amount: { volumeMl: 1.2 }, downDeg: 270 }))
    expect(chanceOf(hung, 'U1')).toBeGreaterThan(chanceOf(flat, 'U1') + 0.2)
    expect(hung.radiusMm).toBeLessThan(flat.radiusMm)
  })

  test('water gets to the other side over the edge when the mark says so', () => {
    const near = spillBoard(60, 40, [partWithRegion('U4', 30, 5, { side: 'bottom' })])
    const on = createReachEngine(near)
    const mark = spillAt(30, 3, { sdMm: 1, amount: { volumeMl: 2 } })
    expect(chanceOf(reachOf(mark, on), 'U4')).toBe(0)
    const over = reachOf({ ...mark, reachesOtherSide: true }, on)
    expect(chanceOf(over, 'U4')).toBeGreaterThan(0.8)
    expect(over.fields.map((field) => field.side)).toEqual(['top', 'bottom'])
  })
})

describe('what the sheet draws', () => {
  test('are rings that hold the radius and go somewhat beyond it', () => {
    const result = reachOf(spillAt(55, 60, { amount: { volumeMl: 0.5 } }))
    const rings = ringLevels(result.radiusMm).map(({ effortMm }) => effortMm)
    expect(rings).toContain(result.radiusMm)
    expect(rings).toEqual(rings.toSorted((a, b) => a - b))
    expect(rings.at(-1)).toBeGreaterThanOrEqual(result.radiusMm)
    const farthest = Math.max(...[...(result.fields[0]?.effortMm ?? [])].filter((effort) => effort < Infinity))
    expect(farthest).toBeGreaterThan(result.radiusMm * 1.3)
    expect(farthest).toBeLessThan(result.radiusMm * 1.7 + 4)
  })
})

describe('bad input', () => {
  test.each([
    ['off the board', spillAt(150, 20), water, /board/],
    ['of another substance', spillAt(20, 20), alloy, /substance/],
    ['with no number for a place', { ...spillAt(20, 20), at: { x: Number.NaN, y: 20 } }, water, /number/],
    ['with an endless amount', { ...spillAt(20, 20), amount: { volumeMl: Infinity } }, water, /number/],
  ])('a spill %s is refused in words', (_what, mark, substance, words) => {
    for (const answer of [engine.reach(mark, [], substance), engine.hypotheses(mark, [], substance, [])]) {
      expect(faultsIn(answer).map(sayFault).join()).toMatch(words)
    }
  })

  test('a substance without the figures that its moving needs is refused by the name of the figure', () => {
    const { densityKgM3: _, ...thin } = water
    expect(faultsIn(engine.reach(spillAt(20, 20), [], thin))[0]?.path).toBe('substance water.densityKgM3')
  })
})
