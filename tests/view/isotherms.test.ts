/** Isotherms: which temperatures are drawn, where their lines run, and what happens at the board's edge. */
import { fc, test } from '@fast-check/vitest'
import { expect } from 'vitest'
import { isothermLevels, isothermsOf, openLines, withoutGaps } from '../../src/view/sheet/pure/isotherms.ts'

const grid = { originXMm: 10, originYMm: 20, cellMm: 1, columns: 60, rows: 60 }

/** A cone: 300 °C at its tip in the middle, 10 °C less with each millimetre. */
const cone = Float32Array.from({ length: 3600 }, (_, i) => {
  const x = (i % 60) + 0.5 - 30
  const y = Math.floor(i / 60) + 0.5 - 30
  return 300 - 10 * Math.hypot(x, y)
})

test('on a cone each isotherm is a circle of the radius that the slope gives, in board millimetres', () => {
  const found = isothermsOf(grid, cone, [100, 150, 217], 217)
  expect(found.map(({ label }) => label)).toEqual(['100 °C', '150 °C', '217 °C molten'])
  for (const { levelC, loops } of found) {
    expect(loops).toHaveLength(1)
    const loop = loops[0] ?? new Float32Array()
    for (let i = 0; i < loop.length; i += 2) {
      const radiusMm = Math.hypot((loop[i] ?? 0) - 40, (loop[i + 1] ?? 0) - 50)
      expect(Math.abs(radiusMm - (300 - levelC) / 10)).toBeLessThan(0.15)
    }
  }
})

test('a level that the board does not reach has no line', () => {
  expect(isothermsOf(grid, cone, [400], 217)).toEqual([])
})

test('off the board the nearest cell of the row goes on, so that no line runs along the edge', () => {
  const small = { originXMm: 0, originYMm: 0, cellMm: 1, columns: 6, rows: 3 }
  const values = Float32Array.from([NaN, 1, NaN, NaN, 4, NaN, NaN, NaN, NaN, NaN, NaN, NaN, 7, NaN, NaN, NaN, NaN, 9])
  expect([...withoutGaps(small, values)]).toEqual([1, 1, 1, 4, 4, 4, 1, 1, 1, 4, 4, 4, 7, 7, 7, 9, 9, 9])
})

test.prop([fc.float({ min: 60, max: 450, noNaN: true }), fc.constantFrom(138, 183, 217, 221)])(
  'levels rise, lie under the highest temperature, hold the liquidus where it is passed, and are few enough to read',
  (highestC, liquidusC) => {
    const levels = isothermLevels(highestC, liquidusC)
    expect(levels).toEqual(levels.toSorted((a, b) => a - b))
    expect(new Set(levels).size).toBe(levels.length)
    for (const level of levels) expect(level).toBeLessThan(highestC)
    expect(levels.includes(liquidusC)).toBe(liquidusC < highestC)
    expect(levels.length).toBeLessThanOrEqual(13)
  },
)

test('a board that stays cool has no levels', () => {
  expect(isothermLevels(40, 217)).toEqual([])
  expect(isothermLevels(Number.NaN, 217)).toEqual([])
})

test('an isotherm that leaves the field is an open line: nothing is drawn along the edge', () => {
  const slope = Float32Array.from({ length: 3600 }, (_, i) => 100 + (i % 60))
  const [found] = isothermsOf(grid, slope, [130], 217)
  const lines = found === undefined ? [] : openLines(found)
  expect(lines).toHaveLength(1)
  for (const { x } of lines[0] ?? []) expect(Math.abs(x - 40.5)).toBeLessThan(0.01)
  const [everywhere] = isothermsOf(grid, slope, [50], 217)
  expect(everywhere === undefined ? [] : openLines(everywhere)).toEqual([])
})
