import { expect, test } from 'vitest'
import { distance, homographyFrom, applied, inverted, type Point } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import { onBoardAt, seatedAt, seenAt, viewFromDistance, viewFromRectangle } from '../../src/trace/index.ts'
import { boardCorners } from '../support/board-photo.ts'
import { shippedBoard } from '../support/read-board.ts'
import { straightened, type StraightPhoto } from '../support/straight-photo.ts'

// Tuned on photos of seeds 10 to 70; these seeds were not looked at while tuning.
const bowline = shippedBoard('bowline-8')
const hitch = shippedBoard('hitch-12')

function placesOver({ box }: BoardModel): Point[] {
  const places: Point[] = []
  for (let x = box.minX + 6; x < box.maxX; x += 23)
    for (let y = box.minY + 14; y < box.maxY; y += 19) places.push({ x, y })
  return places
}

const worstMiss = (model: BoardModel, { photo, view, inView }: StraightPhoto): number =>
  Math.max(...placesOver(model).map((at) => distance(onBoardAt(view, photo.seen(at)), inView(at))))

test.each([
  ['green', bowline, { seed: 901, k1: -0.06 }],
  ['black', hitch, { seed: 902, k1: 0.03 }],
] as const)('corners clicked by hand on a %s board give every place of it within 0.15 mm', (mask, model, wish) => {
  const straight = straightened(model, { ...wish, mask, widthPx: 1500, heightPx: 750 })
  expect(worstMiss(model, straight)).toBeLessThan(0.15)
  expect(straight.rectified.missMm).toBeLessThan(0.1)
  // without the edges: the plain homography of the same corners, as a reference
  const corners = boardCorners(model)
  const plain = homographyFrom(
    corners.map((corner) => ({ from: straight.inView(corner), to: straight.photo.seen(corner) })),
    'turned over',
  )
  if (!plain.ok) throw new Error('no homography')
  const missed = placesOver(model).map((at) =>
    distance(applied(inverted(plain.value), straight.photo.seen(at)), straight.inView(at)),
  )
  expect(Math.max(...missed)).toBeGreaterThan(0.5)
  // the tops of packages lean outwards, and come back to where they stand
  const leans = model.memories.map(({ placement, heightMm }) => {
    const top = onBoardAt(straight.view, straight.photo.seen(placement.at, heightMm))
    return {
      leaning: distance(top, straight.inView(placement.at)),
      seated: distance(seatedAt(straight.camera, top, heightMm), straight.inView(placement.at)),
    }
  })
  expect(Math.max(...leans.map(({ leaning }) => leaning))).toBeGreaterThan(0.2)
  expect(Math.max(...leans.map(({ seated }) => seated))).toBeLessThan(0.2)
})

const blank = { widthPx: 800, heightPx: 600, grey: new Uint8Array(480_000).fill(90) }

test('where no edge can be followed the corners alone make the view', () => {
  const corners = [
    { x: 700, y: 500 },
    { x: 100, y: 90 },
    { x: 120, y: 510 },
    { x: 690, y: 100 },
  ]
  const made = viewFromRectangle(blank, { corners, widthMm: 200, heightMm: 120, edges: 'board' })
  if (!made.ok) throw new Error('no view')
  expect(made.value.missMm).toBeUndefined()
  expect(seenAt(made.value.view, { x: 0, y: 120 }).x).toBeCloseTo(100, 6)
  expect(seenAt(made.value.view, { x: 200, y: 0 }).y).toBeCloseTo(500, 6)
})

test('two points of known distance give a scale, upright', () => {
  const made = viewFromDistance(blank, { from: { x: 100, y: 300 }, to: { x: 400, y: 300 }, distanceMm: 100 })
  if (!made.ok) throw new Error('no view')
  expect(onBoardAt(made.value.view, { x: 100, y: 300 })).toEqual({ x: 100 / 3, y: 100 })
})

test.each([
  [
    'three corners',
    {
      corners: [
        { x: 1, y: 1 },
        { x: 500, y: 1 },
        { x: 500, y: 400 },
      ],
      widthMm: 100,
      heightMm: 80,
    },
  ],
  [
    'corners in one place',
    { corners: Array.from({ length: 4 }, () => ({ x: 50, y: 50 })), widthMm: 100, heightMm: 80 },
  ],
  [
    'a width of nothing',
    {
      corners: [
        { x: 1, y: 1 },
        { x: 500, y: 1 },
        { x: 500, y: 400 },
        { x: 1, y: 400 },
      ],
      widthMm: 0,
      heightMm: 80,
    },
  ],
])('%s is refused with what was expected', (_, known) => {
  const made = viewFromRectangle(blank, { ...known, edges: 'board' })
  expect(made.ok).toBe(false)
  if (!made.ok) expect(made.faults[0]?.expected).toMatch(/four corners|mm/)
})

/** A bright board, or a package, of 200 × 100 mm on a dark bench, four pixels a mm, seen from straight above. */
function drawnSheet(scale: number, { left, upper }: { left: number; upper: number }) {
  const [widthPx, heightPx] = [Math.round(1000 * scale), Math.round(520 * scale)]
  const grey = new Uint8Array(widthPx * heightPx)
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      const inside = (at: number, from: number, to: number): number =>
        Math.max(0, Math.min(1, at - from)) * Math.max(0, Math.min(1, to - at))
      const share =
        inside(column + 1, left * scale, left * scale + 800 * scale + 1) *
        inside(row + 1, upper * scale, upper * scale + 400 * scale + 1)
      grey[row * widthPx + column] = Math.round(30 + 120 * share)
    }
  return { widthPx, heightPx, grey }
}

test.each([
  ['board', 1],
  ['package', 1],
  // 3300 pixels wide: made smaller by two to follow its edges
  ['board', 3.3],
] as const)(
  'the edges of a drawn %s, at %d times the size, mend corners that were clicked more than a millimetre off',
  (edges, scale) => {
    const image = drawnSheet(scale, { left: 90, upper: 60 })
    const off = [
      [3, -4],
      [-5, 3],
      [4, 4],
      [-2, -5],
    ] as const
    const corners = [
      { x: 90, y: 60 },
      { x: 890, y: 60 },
      { x: 890, y: 460 },
      { x: 90, y: 460 },
    ].map(({ x, y }, i) => ({ x: (x + (off[i]?.[0] ?? 0)) * scale, y: (y + (off[i]?.[1] ?? 0)) * scale }))
    const made = viewFromRectangle(image, { corners, widthMm: 200, heightMm: 100, edges })
    if (!made.ok) throw new Error('no view')
    expect(made.value.missMm).toBeLessThan(0.1)
    for (const { x, y } of [
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 100, y: 50 },
      { x: 30, y: 90 },
      { x: 200, y: 100 },
    ])
      expect(
        distance(onBoardAt(made.value.view, { x: (90 + 4 * x) * scale, y: (460 - 4 * y) * scale }), { x, y }),
      ).toBeLessThan(0.1)
    // holes have no edges: corners are taken as they were clicked, the first of them a millimetre off
    const holes = viewFromRectangle(image, { corners, widthMm: 200, heightMm: 100, edges: 'holes' })
    if (!holes.ok) throw new Error('no view')
    expect(holes.value.missMm).toBeUndefined()
    expect(distance(onBoardAt(holes.value.view, corners[0] ?? { x: 0, y: 0 }), { x: 0, y: 100 })).toBeLessThan(1e-6)
  },
)

test('corners may be clicked in any order: they are taken clockwise from the upper left', () => {
  const corners = [
    { x: 690, y: 100 },
    { x: 120, y: 510 },
    { x: 100, y: 90 },
    { x: 700, y: 500 },
  ]
  const orders = [
    [0, 1, 2, 3],
    [3, 2, 1, 0],
    [2, 0, 3, 1],
    [1, 3, 0, 2],
  ]
  const views = orders.map((order) => {
    const made = viewFromRectangle(blank, {
      corners: order.map((i) => corners[i] ?? { x: 0, y: 0 }),
      widthMm: 200,
      heightMm: 120,
      edges: 'holes',
    })
    return made.ok ? made.value.view : undefined
  })
  for (const view of views) {
    expect(view && distance(onBoardAt(view, { x: 690, y: 100 }), { x: 200, y: 120 })).toBeLessThan(1e-6)
    expect(view && distance(onBoardAt(view, { x: 120, y: 510 }), { x: 0, y: 0 })).toBeLessThan(1e-6)
  }
})

const square = [
  { x: 10, y: 10 },
  { x: 400, y: 10 },
  { x: 400, y: 300 },
  { x: 10, y: 300 },
]

test.each([
  ['2.9 mm', { widthMm: 2.9, heightMm: 80 }, 'widthMm'],
  ['1001 mm', { widthMm: 100, heightMm: 1001 }, 'heightMm'],
])('a side of %s is refused, and sides of 3 and 1000 mm are not', (said, size, path) => {
  const refused = viewFromRectangle(blank, { corners: square, ...size, edges: 'holes' })
  expect(refused).toMatchObject({ ok: false, faults: [{ path, found: said, expected: '3 to 1000 mm' }] })
  expect(viewFromRectangle(blank, { corners: square, widthMm: 3, heightMm: 1000, edges: 'holes' }).ok).toBe(true)
})

test('corners on one line, or within 24 pixels, lie too near each other', () => {
  const refusedBy = (corners: Point[]) => {
    const made = viewFromRectangle(blank, { corners, widthMm: 100, heightMm: 80, edges: 'holes' })
    return made.ok ? [] : made.faults.map(({ found }) => found)
  }
  const near = ['corners that lie too near each other']
  expect(refusedBy(square.map(({ x, y }) => ({ x, y: 100 + (y - 10) / 13 })))).toEqual(near)
  expect(refusedBy([0, 100, 200, 300].map((at) => ({ x: at, y: at })))).toEqual(near)
  expect(refusedBy(square.map(({ x, y }) => ({ x, y: 100 + (y - 10) / 11 })))).toEqual([])
  expect(refusedBy(square.slice(1))).toEqual(['3 corners'])
})

test.each([
  [{ to: { x: 123, y: 300 }, distanceMm: 100 }, 'points', '23 pixels apart', 'at least 24 pixels'],
  [{ to: { x: 400, y: 300 }, distanceMm: 2 }, 'distanceMm', '2 mm', '3 to 1000 mm'],
])('two points that tell no scale are refused: %o', (wish, path, said, expected) => {
  expect(viewFromDistance(blank, { from: { x: 100, y: 300 }, ...wish })).toMatchObject({
    ok: false,
    faults: [{ path, found: said, expected }],
  })
  expect(viewFromDistance(blank, { from: { x: 100, y: 300 }, to: { x: 124, y: 300 }, distanceMm: 3 }).ok).toBe(true)
})
