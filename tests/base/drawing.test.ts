/** What drawings are made of: hatch, dots, spans, free places for labels, rasters, round lengths; worked by hand. */
import { describe, expect, test } from 'vitest'
import {
  type Box,
  boxOf,
  cellAt,
  cellCentre,
  cellCount,
  dotsIn,
  gridOver,
  hatchSegments,
  loopOnBoard,
  lookAhead,
  merged,
  overlap,
  placeLabels,
  placesAround,
  roundDown125,
  seededRandom,
  segmentsTouch,
  spansAt,
} from '../../src/base/index.ts'

const square = [
  { x: 0, y: 0 },
  { x: 10, y: 0 },
  { x: 10, y: 10 },
  { x: 0, y: 10 },
]
/** With a notch from above, 4 wide and 6 deep. */
const notched = [
  { x: 0, y: 0 },
  { x: 12, y: 0 },
  { x: 12, y: 10 },
  { x: 8, y: 10 },
  { x: 8, y: 4 },
  { x: 4, y: 4 },
  { x: 4, y: 10 },
  { x: 0, y: 10 },
]
const lengthOf = (segments: readonly number[]): number => {
  let sum = 0
  for (let i = 0; i < segments.length; i += 4)
    sum += Math.hypot((segments[i + 2] ?? 0) - (segments[i] ?? 0), (segments[i + 3] ?? 0) - (segments[i + 1] ?? 0))
  return sum
}

describe('hatch', () => {
  test('level lines every 4 from 3 on run through a square of 10 twice', () => {
    // x·sin 0 − y·cos 0 = −y = 4k + 1: y = 3 and 7 within 0 to 10
    const lines = hatchSegments(square, 4, 0, 1)
    expect(lengthOf(lines)).toBeCloseTo(20, 9)
    const ys = lines.filter((_, i) => i % 2 === 1).map((y) => Math.round(y * 1e6) / 1e6)
    expect(ys.toSorted((m, n) => m - n)).toEqual([3, 3, 7, 7])
  })
  test('upright lines stand where they shall', () => {
    const xs = hatchSegments(square, 4, 90, 1).filter((_, i) => i % 2 === 0)
    expect(xs.map((x) => Math.round(x * 1e6) / 1e6)).toEqual([1, 1, 5, 5, 9, 9])
  })
  test('wherever the square lies: from y −20 to −10, at −13 and −17', () => {
    const below = square.map(({ x, y }) => ({ x, y: y - 20 }))
    expect(lengthOf(hatchSegments(below, 4, 0, 1))).toBeCloseTo(20, 9)
  })
  test('at 45° the diagonal of a square is √200 long', () => {
    expect(lengthOf(hatchSegments(square, 100, 45))).toBeCloseTo(Math.sqrt(200), 6)
  })
  test('leaves a notch open', () => {
    expect(lengthOf(hatchSegments(notched, 100, 0, 7 - 100))).toBeCloseTo(0, 9)
    expect(lengthOf(hatchSegments(notched, 100, 0, -7))).toBeCloseTo(8, 9)
    expect(lengthOf(hatchSegments(notched, 100, 0, -2))).toBeCloseTo(12, 9)
  })
  test('of no spacing or no area is none', () => {
    expect(hatchSegments(square, 0, 0)).toEqual([])
    expect(hatchSegments(square, -1, 0)).toEqual([])
    expect(hatchSegments(square.slice(0, 2), 1, 0)).toEqual([])
  })
})

test('dots of one lattice: every 5, rows in between, 2 · 3 in a square of 10', () => {
  expect(dotsIn(square, 5).toSorted((a, b) => a.y - b.y || a.x - b.x)).toEqual(
    [2.5, 7.5].flatMap((y) => [0, 5, 10].map((x) => ({ x, y }))),
  )
})

test('a level line runs outside of a hole', () => {
  const hole = [
    { x: 4, y: 4 },
    { x: 6, y: 4 },
    { x: 6, y: 6 },
    { x: 4, y: 6 },
  ]
  expect(spansAt([square, hole], 5)).toEqual([
    [0, 4],
    [6, 10],
  ])
  expect(spansAt([square, hole], 2)).toEqual([[0, 10]])
  expect(spansAt([square], 11)).toEqual([])
})

describe('labels', () => {
  const bounds: Box = { minX: 0, minY: 0, maxX: 100, maxY: 100 }
  const request = (id: string, candidates: { x: number; y: number }[], required = false) => ({
    id,
    width: 10,
    height: 10,
    candidates,
    required,
  })
  const at = (x: number, y: number): Box => ({ minX: x, minY: y, maxX: x + 10, maxY: y + 10 })

  test('go to the first free place', () => {
    const places = placeLabels(
      [
        request('a', [
          { x: 0, y: 0 },
          { x: 50, y: 50 },
        ]),
      ],
      [at(3, 3)],
      bounds,
    )
    expect(places.get('a')).toEqual({ x: 50, y: 50 })
    expect(
      placeLabels(
        [
          request('a', [
            { x: 0, y: 0 },
            { x: 50, y: 50 },
          ]),
        ],
        [],
        bounds,
      ).get('a'),
    ).toEqual({ x: 0, y: 0 })
  })
  test('do not lie on each other, and stay inside', () => {
    const same = [
      { x: 0, y: 0 },
      { x: 20, y: 0 },
    ]
    const places = placeLabels([request('a', same), request('b', same), request('c', same)], [], bounds)
    expect([places.get('a'), places.get('b'), places.has('c')]).toEqual([same[0], same[1], false])
    expect(
      placeLabels(
        [
          request('a', [
            { x: 95, y: 0 },
            { x: 60, y: 0 },
          ]),
        ],
        [],
        bounds,
      ).get('a'),
    ).toEqual({ x: 60, y: 0 })
  })
  // 6 of 100 covered is borne, and 1 for each place that there is to choose from
  test('are left out where more than a sixteenth of them would be covered, unless they must stand', () => {
    const covering = (mm: number): Box => ({ minX: 0, minY: 0, maxX: mm, maxY: 10 })
    const only = [{ x: 0, y: 0 }]
    const stands = (mm: number, required = false) =>
      placeLabels([request('a', only, required)], [covering(mm)], bounds).has('a')
    expect([stands(0.69), stands(0.71), stands(5, true)]).toEqual([true, false, true])
    expect(placeLabels([request('a', [], true)], [], bounds).size).toBe(0)
  })
  test('overlap is the area that two boxes share, none where they touch', () => {
    expect(overlap(at(0, 0), at(7, 4))).toBe(18)
    expect(overlap(at(0, 0), at(10, 0))).toBe(0)
    expect(overlap(at(0, 0), at(0, 10))).toBe(0)
    expect(overlap(at(0, 0), at(30, 30))).toBe(0)
  })
  test('around a box there are eight places with a gap, none of them over it', () => {
    const box = { minX: 10, minY: 20, maxX: 30, maxY: 40 }
    const places = placesAround(box, 8, 4, 2)
    expect(places).toEqual([
      { x: 32, y: 28 },
      { x: 32, y: 16 },
      { x: 16, y: 14 },
      { x: 0, y: 28 },
      { x: 0, y: 16 },
      { x: 16, y: 42 },
      { x: 32, y: 40 },
      { x: 0, y: 40 },
    ])
  })
})

describe('a raster', () => {
  const grid = gridOver({ minX: 0, minY: 0, maxX: 10, maxY: 5 }, 2, 1)
  test('covers its box and the margin', () => {
    expect(grid).toEqual({ originXMm: -1, originYMm: -1, cellMm: 2, columns: 6, rows: 4 })
    expect(cellCount(grid)).toBe(24)
    expect(gridOver({ minX: 0, minY: 0, maxX: 0.3, maxY: 0.3 }, 0.1)).toMatchObject({ columns: 3, rows: 3 })
    expect(gridOver({ minX: 1, minY: 1, maxX: 1, maxY: 1 }, 1)).toMatchObject({ columns: 1, rows: 1 })
  })
  test.each([
    [{ x: -1, y: -1 }, 0],
    [{ x: 0.99, y: 0.99 }, 0],
    [{ x: 1, y: -1 }, 1],
    [{ x: -1, y: 1 }, 6],
    [{ x: 10.9, y: 6.9 }, 23],
    [{ x: -1.01, y: 0 }, -1],
    [{ x: 0, y: -1.01 }, -1],
    [{ x: 11, y: 0 }, -1],
    [{ x: 0, y: 7 }, -1],
  ])('%j lies in cell %i', (point, cell) => {
    expect(cellAt(grid, point)).toBe(cell)
  })
  test('has its cells’ middles half a cell in', () => {
    expect([cellCentre(grid, 0), cellCentre(grid, 7)]).toEqual([
      { x: 0, y: 0 },
      { x: 2, y: 2 },
    ])
  })
  test('a loop counted in cells becomes one on the board, its last point once', () => {
    expect([
      ...loopOnBoard(
        [
          [0, 0],
          [1, 0],
          [1, 2],
          [0, 0],
        ],
        grid,
      ),
    ]).toEqual([-1, -1, 1, -1, 1, 3])
    expect(loopOnBoard([], grid)).toHaveLength(0)
  })
})

test.each([
  [0, 0],
  [-3, 0],
  [Infinity, 0],
  [1, 1],
  [1.99, 1],
  [2, 2],
  [4.99, 2],
  [5, 5],
  [9.99, 5],
  [10, 10],
  [0.3, 0.2],
  [1000, 1000],
  [0.05, 0.05],
])('%d is rounded down to %d', (value, round) => {
  expect(roundDown125(value)).toBe(round)
})

test.each([
  ['cross', [0, 0], [4, 4], [0, 4], [4, 0], true],
  ['meet at an end', [0, 0], [4, 0], [4, 0], [4, 4], true],
  ['end on the other', [0, 0], [4, 0], [2, 0], [2, 3], true],
  ['the other ends on it', [2, 0], [2, 3], [0, 0], [4, 0], true],
  ['lie on each other', [0, 0], [4, 0], [3, 0], [9, 0], true],
  ['lie behind each other', [0, 0], [4, 0], [5, 0], [9, 0], false],
  ['are parallel', [0, 0], [4, 0], [0, 1], [4, 1], false],
  ['would cross further on', [0, 0], [4, 0], [5, -1], [5, 1], false],
] as const)('two lines that %s', (_, [ax, ay], [bx, by], [cx, cy], [dx, dy], touch) => {
  const [a, b, c, d] = [
    { x: ax, y: ay },
    { x: bx, y: by },
    { x: cx, y: cy },
    { x: dx, y: dy },
  ]
  expect(segmentsTouch(a, b, c, d)).toBe(touch)
  expect(segmentsTouch(c, d, a, b)).toBe(touch)
})

test('no points have a box that holds nothing', () => {
  expect(boxOf([])).toEqual({ minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity })
  expect(
    boxOf([
      { x: 1, y: 2 },
      { x: -3, y: 5 },
    ]),
  ).toEqual({ minX: -3, minY: 2, maxX: 1, maxY: 5 })
})

test('shipped figures stand but for those that are given', () => {
  const shipped = { a: 1, b: 2 }
  expect(merged(shipped, { b: 5, a: undefined })).toEqual({ a: 1, b: 5 })
  expect(merged(shipped, undefined)).toEqual(shipped)
  expect(shipped).toEqual({ a: 1, b: 2 })
})

describe('the beginning of a stream', () => {
  async function* pieces(): AsyncIterable<Uint8Array> {
    for (const length of [3, 4, 5]) yield await Promise.resolve(new Uint8Array(length).fill(length))
  }
  const all = async (bytes: AsyncIterable<Uint8Array>): Promise<number[]> => {
    const lengths: number[] = []
    for await (const { length } of bytes) lengths.push(length)
    return lengths
  }
  test.each([
    [0, []],
    [3, [3]],
    [4, [3, 4]],
    [7, [3, 4]],
    [8, [3, 4, 5]],
    [99, [3, 4, 5]],
  ])('of %i bytes is read in whole pieces, and the stream stays whole', async (least, lengths) => {
    const { ahead, whole } = await lookAhead(pieces(), least)
    expect(ahead.map(({ length }) => length)).toEqual(lengths)
    expect(await all(whole)).toEqual([3, 4, 5])
  })
})

describe('seeded chance', () => {
  const draws = (seed: number, of: (random: ReturnType<typeof seededRandom>) => number): number[] => {
    const random = seededRandom(seed)
    return Array.from({ length: 20_000 }, () => of(random))
  }
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

  test('repeats with its seed and with no other', () => {
    const of = (seed: number) => draws(seed, (random) => random.next()).slice(0, 20)
    expect(of(7)).toEqual(of(7))
    expect(of(7)).not.toEqual(of(8))
  })
  // 20,000 draws: standard error 0.002 of an even share, 0.007 of a standard normal mean
  test('is even from 0 to 1, whole numbers are all met alike, normal ones have mean 0 and spread 1', () => {
    const even = draws(3, (random) => random.next())
    expect(Math.min(...even)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...even)).toBeLessThan(1)
    expect(mean(even)).toBeCloseTo(0.5, 1)
    expect(mean(even.map((value) => value * value))).toBeCloseTo(1 / 3, 1)
    const whole = draws(4, (random) => random.whole(5))
    for (const number of [0, 1, 2, 3, 4])
      expect(Math.abs(whole.filter((each) => each === number).length / 20_000 - 0.2)).toBeLessThan(0.012)
    const normal = draws(5, (random) => random.normal())
    expect(Math.abs(mean(normal))).toBeLessThan(0.03)
    expect(Math.abs(mean(normal.map((value) => value * value)) - 1)).toBeLessThan(0.05)
    // one in 22 beyond two spreads (tables of the normal distribution: 0.0455)
    expect(Math.abs(normal.filter((value) => Math.abs(value) > 2).length / 20_000 - 0.0455)).toBeLessThan(0.006)
  })
})
