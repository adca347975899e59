/** Where a camera stood and how its lens bends, against cameras set up here: a pinhole is a few lines of arithmetic. */
import { fc, test } from '@fast-check/vitest'
import { describe, expect } from 'vitest'
import { distance, homographyFrom, type Point } from '../../src/base/index.ts'
import { type BoardView, cameraOf, onBoardAt, seatedAt, seenAt, topSeenAt } from '../../src/trace/index.ts'

/** A picture of 1600 × 1200 pixels: half its diagonal is 1000. */
const CENTRE = { x: 800, y: 600 }
const RADIUS_PX = 1000

interface Pinhole {
  readonly over: Point
  readonly heightMm: number
  /** How far its axis is from straight down, and which way the picture’s right points on the board. */
  readonly tipDeg: number
  readonly turnDeg: number
  /** In half diagonals. */
  readonly focal: number
}

/** Where a pinhole sees a place of the board: along the axis once as far is once as large. */
function projected({ over, heightMm, tipDeg, turnDeg, focal }: Pinhole, { x, y }: Point): Point {
  const [tip, turn] = [(tipDeg * Math.PI) / 180, (turnDeg * Math.PI) / 180]
  const right = [Math.cos(turn), Math.sin(turn), 0] as const
  const ahead = [-Math.sin(turn) * Math.sin(tip), Math.cos(turn) * Math.sin(tip), -Math.cos(tip)] as const
  const down = [
    ahead[1] * right[2] - ahead[2] * right[1],
    ahead[2] * right[0] - ahead[0] * right[2],
    ahead[0] * right[1] - ahead[1] * right[0],
  ] as const
  const to = [x - over.x, y - over.y, -heightMm] as const
  const along = (axis: readonly [number, number, number]) => axis[0] * to[0] + axis[1] * to[1] + axis[2] * to[2]
  const scale = (focal * RADIUS_PX) / along(ahead)
  return { x: CENTRE.x + along(right) * scale, y: CENTRE.y + along(down) * scale }
}

function viewOf(camera: Pinhole, k1 = 0, k2 = 0): BoardView {
  const corners = [
    { x: 0, y: 0 },
    { x: 200, y: 0 },
    { x: 200, y: 100 },
    { x: 0, y: 100 },
  ]
  const made = homographyFrom(
    corners.map((from) => ({ from, to: projected(camera, from) })),
    'turned over',
  )
  if (!made.ok) throw new Error(JSON.stringify(made.faults))
  return { homography: made.value, lens: { centre: CENTRE, radiusPx: RADIUS_PX, k1, k2 } }
}

const onTheBoard = fc.record({
  x: fc.double({ min: 0, max: 200, noNaN: true }),
  y: fc.double({ min: 0, max: 100, noNaN: true }),
})

const tipped: Pinhole = { over: { x: 90, y: -40 }, heightMm: 260, tipDeg: 18, turnDeg: 12, focal: 1.2 }

describe('the camera’s place', () => {
  test.each([
    { ...tipped },
    { ...tipped, focal: 0.9, turnDeg: -70 },
    { ...tipped, focal: 2.1, tipDeg: 25, over: { x: 20, y: -60 } },
    { ...tipped, tipDeg: -15, turnDeg: 160, heightMm: 410 },
  ])('is told by a tipped view: %o', (camera) => {
    const found = cameraOf(viewOf(camera))
    expect(distance(found.over, camera.over)).toBeLessThan(1e-3)
    expect(found.heightMm).toBeCloseTo(camera.heightMm, 3)
  })

  test('a view from straight above does not tell how far it was: that of a usual telephone is taken', () => {
    const above = { ...tipped, over: { x: 100, y: 50 }, tipDeg: 0 }
    expect(cameraOf(viewOf(above)).heightMm).toBeCloseTo(260, 6)
    expect(distance(cameraOf(viewOf(above)).over, { x: 100, y: 50 })).toBeLessThan(1e-6)
    // a lens twice as long shows the board as large from twice as far: taken for the usual one, from half of it
    expect(cameraOf(viewOf({ ...above, focal: 2.4, heightMm: 520 })).heightMm).toBeCloseTo(260, 6)
    // tipped by four degrees, 0.07, still less than a tenth
    expect(cameraOf(viewOf({ ...above, tipDeg: 4, focal: 2.4 })).heightMm).toBeLessThan(140)
  })

  test.each([
    [0.5, 0.8],
    [4, 2.6],
  ])('a focal length of %d half diagonals, which no telephone has, is taken for %d', (focal, taken) => {
    const camera = { ...tipped, focal }
    const { heightMm } = cameraOf(viewOf(camera))
    const ratio = heightMm / camera.heightMm
    // seen as large through a lens so much shorter or longer, it was about so much nearer or further
    expect(ratio).toBeGreaterThan(Math.min(1, taken / focal) * 0.9)
    expect(ratio).toBeLessThan(Math.max(1, taken / focal) * 1.1)
    expect(Math.abs(Math.log(ratio))).toBeGreaterThan(0.2)
  })
})

describe('tops and feet', () => {
  // from 300 mm a top 30 mm above the board is seen by 300/270 as far out
  const camera = { over: { x: 100, y: 50 }, heightMm: 300 }

  test('a top is seen further out than it stands, and is put back', () => {
    expect(topSeenAt(camera, { x: 190, y: 23 }, 30)).toEqual({ x: 200, y: 20 })
    const foot = seatedAt(camera, { x: 200, y: 20 }, 30)
    expect(foot.x).toBeCloseTo(190, 12)
    expect(foot.y).toBeCloseTo(23, 12)
    expect(seatedAt(camera, camera.over, 30)).toEqual(camera.over)
    expect(topSeenAt(camera, { x: 7, y: 9 }, 0)).toEqual({ x: 7, y: 9 })
  })

  test('a part as high as the camera stands under it', () => {
    expect(seatedAt(camera, { x: 200, y: 20 }, 300)).toEqual(camera.over)
    expect(seatedAt(camera, { x: 200, y: 20 }, 400)).toEqual(camera.over)
  })
})

describe('the lens', () => {
  // straight from above: 4 px a mm, so 200 mm from the middle are 0.8 of the half diagonal
  const flat = { homography: [4, 0, 800, 0, -4, 600, 0, 0, 1] as const }
  const lens = { centre: CENTRE, radiusPx: RADIUS_PX }

  test('bends by Brown’s two terms', () => {
    const view: BoardView = { ...flat, lens: { ...lens, k1: -0.1, k2: 0.05 } }
    // 1 − 0.1·0.64 + 0.05·0.4096 = 0.95648
    expect(seenAt(view, { x: 200, y: 0 }).x).toBeCloseTo(800 + 800 * 0.95648, 9)
    expect(seenAt(view, { x: 0, y: 100 }).y).toBeCloseTo(600 - 400 * (1 - 0.1 * 0.16 + 0.05 * 0.0256), 9)
    expect(seenAt(view, { x: 0, y: 0 })).toEqual(CENTRE)
    expect(distance(onBoardAt(view, CENTRE), { x: 0, y: 0 })).toBe(0)
  })

  test.prop(
    [fc.double({ min: -0.2, max: 0.2, noNaN: true }), fc.double({ min: -0.05, max: 0.05, noNaN: true }), onTheBoard],
    { seed: 8, numRuns: 200 },
  )('what is seen comes back to where it is', (k1, k2, at) => {
    const view: BoardView = { ...viewOf(tipped), lens: { ...lens, k1, k2 } }
    expect(distance(onBoardAt(view, seenAt(view, at)), at)).toBeLessThan(1e-6)
  })
})
