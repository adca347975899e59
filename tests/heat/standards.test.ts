/** Every cell of the tables of J-STD-020 and J-STD-033 as printed; cells known from memory alone are marked so. */
import { describe, expect, test } from 'vitest'
import {
  bakeHours,
  classTemperatureC,
  floorLifeAtDays,
  floorLifeDays,
  type MoistureLevel,
  NO_BAKE_BODY_C,
  profileLimits,
} from '../../src/heat/index.ts'

describe('class temperature (IPC/JEDEC J-STD-020, classification temperatures, in a reprint)', () => {
  const volumes = [200, 350, 1000, 2000, 2001, 5000]
  test.each([
    [1.5, [260, 260, 260, 260, 260, 260]],
    [1.6, [260, 250, 250, 250, 245, 245]],
    [2.4, [260, 250, 250, 250, 245, 245]],
    // At exactly 2.5 mm older text has the thicker row, newer the thinner: the lower is given.
    [2.5, [250, 245, 245, 245, 245, 245]],
    [2.6, [250, 245, 245, 245, 245, 245]],
  ])('lead-free, %d mm', (thicknessMm, expected) => {
    expect(volumes.map((volumeMm3) => classTemperatureC({ assembly: 'lead-free', thicknessMm, volumeMm3 }))).toEqual(
      expected,
    )
  })
  // Revision C prints 240/225 and 225/225 (read); D and later 235/220 and 220/220 (from memory). The lower is given.
  test.each([
    [2.4, [235, 220, 220, 220, 220, 220]],
    [2.5, [220, 220, 220, 220, 220, 220]],
    [3.0, [220, 220, 220, 220, 220, 220]],
  ])('tin-lead, %d mm', (thicknessMm, expected) => {
    expect(volumes.map((volumeMm3) => classTemperatureC({ assembly: 'tin-lead', thicknessMm, volumeMm3 }))).toEqual(
      expected,
    )
  })
  test.each([
    [12, 14, 1.1, 260],
    [35, 35, 3.0, 245],
    [40, 40, 2.2, 245],
  ])('a body of %d by %d by %d mm', (w, l, h, c) => {
    expect(classTemperatureC({ assembly: 'lead-free', thicknessMm: h, volumeMm3: w * l * h })).toBe(c)
  })
})

test('profile limits (IPC/JEDEC J-STD-020D and E, Table 5-2, in a reprint)', () => {
  const common = { rampUpCPerS: 3, rampDownCPerS: 6, aboveLiquidusS: { least: 60, most: 150 }, cycles: 3 }
  expect(profileLimits(false)).toEqual({
    ...common,
    soakC: { least: 150, most: 200 },
    soakS: { least: 60, most: 120 },
    liquidusC: 217,
    nearPeakS: 30,
    toPeakS: 480,
  })
  expect(profileLimits(true)).toEqual({
    ...common,
    soakC: { least: 100, most: 150 },
    soakS: { least: 60, most: 120 },
    liquidusC: 183,
    nearPeakS: 20,
    toPeakS: 360,
  })
})

describe('bake before reflow (J-STD-033, user side)', () => {
  const day = 24
  type Row = readonly [number, MoistureLevel, readonly number[], 'read' | 'from memory']
  // Hours: 125 °C over by more / less than 72 h, 90 °C likewise, 40 °C likewise. "read": J-STD-033, bake tables of the user side, in a reprint.
  // 2a up to 1.4 mm: 5/3 h as read in revision A, 7/5 h from memory in revision D; the longer is given.
  const rows: readonly Row[] = [
    [1.4, '2', [5, 3, 17, 11, 8 * day, 5 * day], 'from memory'],
    [1.4, '2a', [7, 5, 23, 13, 9 * day, 7 * day], 'from memory'],
    [1.4, '3', [9, 7, 33, 23, 13 * day, 9 * day], 'read'],
    [1.4, '4', [11, 7, 37, 23, 15 * day, 9 * day], 'read'],
    [1.4, '5', [12, 7, 41, 24, 17 * day, 10 * day], 'read'],
    [1.4, '5a', [16, 10, 54, 24, 22 * day, 10 * day], 'read'],
    [2, '2', [18, 15, 63, 2 * day, 25 * day, 20 * day], 'from memory'],
    [2, '2a', [21, 16, 3 * day, 2 * day, 29 * day, 22 * day], 'read'],
    [2, '3', [27, 17, 4 * day, 2 * day, 37 * day, 23 * day], 'read'],
    [2, '4', [34, 20, 5 * day, 3 * day, 47 * day, 28 * day], 'read'],
    [2, '5', [40, 25, 6 * day, 4 * day, 57 * day, 35 * day], 'read'],
    [2, '5a', [48, 40, 8 * day, 6 * day, 79 * day, 56 * day], 'from memory'],
    [4.5, '2', [48, 48, 10 * day, 7 * day, 79 * day, 67 * day], 'from memory'],
    [4.5, '2a', [48, 48, 10 * day, 7 * day, 79 * day, 67 * day], 'from memory'],
    [4.5, '3', [48, 48, 10 * day, 8 * day, 79 * day, 67 * day], 'from memory'],
    [4.5, '4', [48, 48, 10 * day, 10 * day, 79 * day, 67 * day], 'from memory'],
    [4.5, '5', [48, 48, 10 * day, 10 * day, 79 * day, 67 * day], 'from memory'],
    [4.5, '5a', [48, 48, 10 * day, 10 * day, 79 * day, 67 * day], 'from memory'],
  ]
  test.each(rows)('up to %d mm, level %s', (thicknessMm, level, hours, mark) => {
    const found = ([125, 90, 40] as const).flatMap((ovenC) =>
      (['more-than-72h', 'up-to-72h'] as const).map((over) => bakeHours({ thicknessMm, level }, { ovenC, over })),
    )
    expect(found.map((bake) => bake?.hours)).toEqual(hours)
    expect(found.map((bake) => bake?.mark)).toEqual(found.map(() => mark))
  })
  test('a ball array over 17 mm takes 96 h at 125 °C (from memory)', () => {
    const body = { thicknessMm: 2.8, level: '4', largeArray: true } as const
    expect(bakeHours(body, { ovenC: 125, over: 'up-to-72h' })?.hours).toBe(96)
    expect(bakeHours(body, { ovenC: 90, over: 'up-to-72h' })?.hours).toBe(240)
    expect(bakeHours(body, { ovenC: 40, over: 'up-to-72h' })).toBeUndefined()
  })
  test('level 1 needs none, and a body thicker than the table gets no answer', () => {
    expect(bakeHours({ thicknessMm: 1, level: '1' }, { ovenC: 125, over: 'up-to-72h' })).toBeUndefined()
    expect(bakeHours({ thicknessMm: 4.6, level: '3' }, { ovenC: 125, over: 'up-to-72h' })).toBeUndefined()
  })
})

describe('floor life', () => {
  // IPC/JEDEC J-STD-033, floor life by level, in reprints; 6: from memory.
  test.each([
    ['1', Infinity],
    ['2', 365],
    ['2a', 28],
    ['3', 7],
    ['4', 3],
    ['5', 2],
    ['5a', 1],
    ['6', 0],
  ] as const)('level %s: %d days', (level, days) => {
    expect(floorLifeDays(level)).toBe(days)
  })
  const inf = Infinity
  // J-STD-033 derating at 30 °C, thick bodies and ball arrays, in a reprint.
  test.each([
    ['2a', [inf, inf, 124, 60, 41, 33, 28, 10, 7, 6]],
    ['3', [inf, inf, 10, 9, 8, 7, 7, 5, 4, 4]],
    ['4', [inf, 5, 4, 4, 4, 3, 3, 3, 2, 2]],
    ['5', [inf, 4, 3, 3, 2, 2, 2, 2, 1, 1]],
    ['5a', [inf, 2, 1, 1, 1, 1, 1, 1, 1, 1]],
  ] as const)('level %s by humidity', (level, days) => {
    expect([5, 10, 20, 30, 40, 50, 60, 70, 80, 90].map((rh) => floorLifeAtDays(level, rh))).toEqual(days)
    expect(floorLifeAtDays(level, 60)).toBe(floorLifeDays(level))
    expect(floorLifeAtDays(level, 61)).toBe(floorLifeAtDays(level, 70))
  })
})

test('removal without a board bake: no body over 200 °C (IPC/JEDEC J-STD-033, in a quotation)', () => {
  expect(NO_BAKE_BODY_C).toBe(200)
})
