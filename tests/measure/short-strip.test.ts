/** The search for a short on a strip one cell wide, held to sums that are written out plainly. */
import { describe, expect, test } from 'vitest'
import { chiSquareTail } from '../../src/measure/index.ts'
import { answered, CELLS, centre, drop, LOOSER, plainly, SD, SQUARE, stripReadings } from './strip.ts'

describe.each([
  ['known by its weight, within a factor e^0.25', 0.25, {}],
  ['measured, within a factor e^0.05', 0.05, { sheetMilliohm: SQUARE }],
] as const)('with copper %s', (_, sdLog, more) => {
  const answer = answered(stripReadings, more)
  const places = plainly(stripReadings, sdLog)
  const chance = (k: number): number => places[k]?.probability ?? 0
  const likeliest = places.map((__, k) => k).toSorted((a, b) => chance(b) - chance(a))
  const [best = 0] = likeliest

  test('each place has the chance that plain sums give it', () => {
    for (const k of places.keys()) expect(answer.density[k]).toBeCloseTo(chance(k), 3)
    expect(answer.verdict).toBe('place')
    expect(answer.best).toEqual(centre(best))
  })

  test('mean, spread, circle and area are those of these chances', () => {
    const mean = places.reduce((sum, { probability }, k) => sum + probability * (k + 0.5), 0)
    const variance = places.reduce((sum, { probability }, k) => sum + probability * (k + 0.5 - mean) ** 2, 0)
    expect(answer.mean.x).toBeCloseTo(mean, 2)
    expect(answer.mean.y).toBeCloseTo(0.5, 9)
    // a place somewhere in its cell of 1 mm adds 1/12 along and 1/12 across
    expect(answer.sdMm).toBeCloseTo(Math.sqrt(variance + 1 / 6), 2)
    const holding = (order: readonly number[]): number[] => {
      let held = 0
      return order.filter((k) => {
        const isShort = held < 0.9
        held += chance(k)
        return isShort
      })
    }
    const area = holding(likeliest)
    expect(answer.area90Mm2).toBe(area.length)
    expect(answer.level90).toBeCloseTo(chance(area.at(-1) ?? 0), 3)
    const nearest = places.map((__, k) => k).toSorted((a, b) => Math.abs(a - best) - Math.abs(b - best))
    const circle = holding(nearest)
    expect(answer.radius90Mm).toBe(Math.abs((circle.at(-1) ?? 0) - best) + 0.5)
  })

  test('the fit is the least square of all places and scales, with three of the readings spent', () => {
    const least = places.toSorted((a, b) => a.square - b.square)[0]
    if (least === undefined || answer.fit === undefined) throw new Error('no fit')
    expect(answer.fit.chiSquare).toBeCloseTo(least.square, 2)
    expect(answer.fit.freedom).toBe(2)
    expect(answer.fit.tail).toBeCloseTo(chiSquareTail(least.square, 2), 3)
    expect(answer.scale).toBeCloseTo(Math.exp(least.u), 2)
    const at = places.indexOf(least)
    for (const [i, [p, y]] of stripReadings.entries()) {
      const expected = least.offset + Math.exp(least.u) * drop(p, at)
      const sd = Math.sqrt(SD ** 2 + (Math.abs(p - at) <= 1 ? LOOSER : 0))
      expect(answer.readings[i]?.expectedMillivolt).toBeCloseTo(expected, 1)
      expect(answer.readings[i]?.deviation).toBeCloseTo((y - expected) / sd, 1)
    }
  })

  test('a part has the mean chance of the cells under it and within a millimetre', () => {
    const near = (k: number): number[] => [k - 1, k, k + 1].filter((each) => each < CELLS)
    const mass = (k: number): number => near(k).reduce((sum, each) => sum + chance(each), 0)
    const mean = (k: number): number => mass(k) / near(k).length
    const sum = mean(5) + mean(12) + mean(19)
    const wanted = [
      ['C1', 5],
      ['C2', 12],
      ['C3', 19],
    ] as const
    for (const [ref, k] of wanted) {
      const share = mean(k) / sum
      const found = answer.parts.find((part) => part.ref === ref)
      if (share < 0.009) expect(found).toBeUndefined()
      else {
        expect(found?.share).toBeCloseTo(share, 2)
        expect(found?.mass).toBeCloseTo(mass(k), 2)
      }
    }
    expect(answer.parts.map(({ ref }) => ref)[0]).toBe('C2')
  })
})

test('before any reading every place is as likely, and nothing is fitted', () => {
  const answer = answered([])
  expect(answer.verdict).toBe('too-few')
  for (const p of answer.density) expect(p).toBeCloseTo(1 / CELLS, 6)
  expect(answer.mean.x).toBeCloseTo(CELLS / 2, 9)
  // the variance of a whole strip of 20 mm is 20² / 12, and 1/12 across it
  expect(answer.sdMm).toBeCloseTo(Math.sqrt(400 / 12 + 1 / 12), 6)
  expect([answer.scale, answer.fit, answer.area90Mm2]).toEqual([1, undefined, 18])
  expect([...answer.copper]).toEqual(Array(CELLS).fill(1))
})

test('three readings fit any place, so that nothing is said of how well', () => {
  const three = answered(stripReadings.slice(0, 3))
  expect(three.fit).toBeUndefined()
  expect(answered(stripReadings.slice(0, 4)).fit?.freedom).toBe(1)
})
