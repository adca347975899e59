/** Places, turns and likes on boards drawn by hand, where every place is known to a hundredth of a millimetre. */
import { describe, expect, test } from 'vitest'
import { distance, type Point, seededRandom } from '../../src/base/index.ts'
import { findLikes, snap, type Snapped, type SnapWish } from '../../src/trace/index.ts'
import { drawnRaster, type DrawnBody } from '../support/drawn-raster.ts'

const GROUND = 70

/** On even ground a body is found to a fraction of a pixel, here of a sixth of a millimetre. */
const DRAWN_MM = 0.04

const board = (bodies: readonly DrawnBody[], ground: number | readonly [number, number, number] = GROUND) =>
  drawnRaster({
    widthMm: 40,
    heightMm: 30,
    pxPerMm: 6,
    ground,
    bodies,
    noise: { random: seededRandom(5), grey: 1 },
  })

function found(raster: ReturnType<typeof board>, wish: SnapWish): Snapped {
  const answer = snap(raster, wish)
  if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
  return answer.value
}

describe('one body, clicked off its middle', () => {
  test.each([
    { named: 'darker', colour: 25 },
    { named: 'brighter', colour: 160 },
    { named: 'told by its blue alone', colour: [GROUND, GROUND, 150] },
    { named: 'told by its red alone', colour: [150, GROUND, GROUND] },
  ] as const)('$named than the board, it is found to a fraction of a pixel', ({ colour }) => {
    const at = { x: 17.35, y: 13.62 }
    const body = { widthMm: 9, lengthMm: 13, heightMm: 1 }
    const raster = board([{ at, ...body, colour }])
    for (const click of [
      { x: at.x + 3, y: at.y - 4 },
      { x: at.x - 3, y: at.y + 5 },
    ]) {
      const snapped = found(raster, { body, click })
      expect(distance(snapped.at, at)).toBeLessThan(DRAWN_MM)
      expect(snapped.topAt).toEqual(snapped.at)
      expect(Math.abs(snapped.rotationDeg)).toBeLessThan(0.3)
      expect(snapped.fit).toBeGreaterThan(0.9)
      expect(snapped.score).toBeGreaterThan(0.6)
    }
  })

  test.each([-60, -35, 20, 45, 75])('turned by %i degrees it is found so, without being told', (turned) => {
    const at = { x: 20.2, y: 15.4 }
    const body = { widthMm: 8, lengthMm: 12, heightMm: 1 }
    const snapped = found(board([{ at, ...body, rotationDeg: turned, colour: 20 }]), {
      body,
      click: { x: 21, y: 15 },
    })
    expect(distance(snapped.at, at)).toBeLessThan(DRAWN_MM)
    expect(((snapped.rotationDeg - turned + 270) % 180) - 90).toBeCloseTo(0, 0)
  })

  test('lying across, it is found lying across', () => {
    const at = { x: 20, y: 15 }
    const body = { widthMm: 6, lengthMm: 14, heightMm: 1 }
    const snapped = found(board([{ at, ...body, rotationDeg: 90, colour: 20 }]), { body, click: at })
    expect(distance(snapped.at, at)).toBeLessThan(DRAWN_MM)
    expect(snapped.rotationDeg).toBeCloseTo(90, 0)
    // told to stand upright, at most its two short sides have an edge in their place, and of these the best three count
    const upright = snap(board([{ at, ...body, rotationDeg: 90, colour: 20 }]), { body, click: at, anglesDeg: [0] })
    expect(upright.ok ? upright.value.fit : 0).toBeLessThan(0.75)
  })
})

test('a click beside a body, further than the reach that was given, is not taken for it', () => {
  const at = { x: 20, y: 15 }
  const body = { widthMm: 8, lengthMm: 8, heightMm: 1 }
  const raster = board([{ at, ...body, colour: 20 }])
  const wish = { body, click: { x: 22.5, y: 15 } }
  expect(distance(found(raster, wish).at, at)).toBeLessThan(DRAWN_MM)
  const near = snap(raster, { ...wish, reachMm: 0.5 })
  expect(near.ok ? distance(near.value.at, at) : 9).toBeGreaterThan(0.3)
})

test('of two of one size that stand close the clicked one is meant', () => {
  const body = { widthMm: 5, lengthMm: 7, heightMm: 1 }
  const places = [
    { x: 16, y: 15 },
    { x: 22, y: 15 },
  ]
  const raster = board(places.map((at) => ({ at, ...body, colour: 20 })))
  for (const at of places)
    expect(distance(found(raster, { body, click: { x: at.x, y: at.y - 1 } }).at, at)).toBeLessThan(DRAWN_MM)
})

describe('a tall body seen from aside', () => {
  // over (60, 15) in 200 mm: the top of a part of 8 mm at x = 20 is seen (60 - 20)·8/192 = 1.667 mm further out, and
  // larger by 200/192
  const camera = { over: { x: 60, y: 15 }, heightMm: 200 }
  const at = { x: 20, y: 15 }
  const body = { widthMm: 9, lengthMm: 9, heightMm: 8 }
  const top = { x: 20 - (40 * 8) / 192, y: 15 }
  const share = 200 / 192

  test('is put where it stands, and its top where it is seen', () => {
    const wall = [0.25, 0.5, 0.75].map((up): DrawnBody => {
      const seen = 1 / (1 - (up * 8) / 200)
      return { at: { x: 60 + (at.x - 60) * seen, y: 15 }, widthMm: 9 * seen, lengthMm: 9 * seen, colour: 110 }
    })
    const raster = board([
      { at, widthMm: 9, lengthMm: 9, colour: 110 },
      ...wall,
      { at: top, widthMm: 9 * share, lengthMm: 9 * share, colour: 190 },
    ])
    const snapped = found(raster, { body, click: { x: top.x + 1, y: 15.5 }, camera })
    expect(distance(snapped.topAt, top)).toBeLessThan(0.08)
    expect(distance(snapped.at, at)).toBeLessThan(0.15)
  })

  test('with no camera told it stands where it is seen', () => {
    const raster = board([{ at: top, widthMm: 9, lengthMm: 9, colour: 190 }])
    expect(found(raster, { body, click: top }).at).toEqual(found(raster, { body, click: top }).topAt)
  })
})

test('a side that can’t be seen spoils nothing: dark board begins where the dark body ends', () => {
  const at = { x: 20, y: 15 }
  const body = { widthMm: 10, lengthMm: 10, heightMm: 1 }
  const raster = board([
    { at, ...body, colour: 25 },
    { at: { x: 31, y: 15 }, widthMm: 12, lengthMm: 30, colour: 25 },
  ])
  const snapped = found(raster, { body, click: { x: 19, y: 14 } })
  expect(distance(snapped.at, at)).toBeLessThan(0.15)
  // three sides have an edge in their place all along, and the one without is left out
  expect(snapped.fit).toBeGreaterThan(0.8)
  const corner = board([
    { at, ...body, colour: 25 },
    { at: { x: 31, y: 15 }, widthMm: 12, lengthMm: 30, colour: 25 },
    { at: { x: 20, y: 25 }, widthMm: 40, lengthMm: 10, colour: 25 },
  ])
  // of the three best of four sides two have one
  const seen = snap(corner, { body, click: { x: 20, y: 15 } })
  expect(seen.ok ? seen.value.fit : 0).toBeGreaterThan(0.6)
  expect(seen.ok ? seen.value.fit : 1).toBeLessThan(0.75)
})

describe('likes', () => {
  const body = { widthMm: 3, lengthMm: 5, heightMm: 1 }
  const first = { at: { x: 8, y: 8 }, rotationDeg: 0 }
  const marked = (at: Point, turns: number): DrawnBody[] => {
    const angle = (turns * Math.PI) / 2
    // a bright bar at one end, as a mark on a part has it
    const bar = { x: at.x - 1.7 * Math.sin(angle), y: at.y + 1.7 * Math.cos(angle) }
    return [
      { at, widthMm: 3, lengthMm: 5, rotationDeg: 90 * turns, colour: 25 },
      { at: bar, widthMm: 2, lengthMm: 0.8, rotationDeg: 90 * turns, colour: 200 },
    ]
  }
  const likes = [
    { at: { x: 18.3, y: 8.2 }, turns: 0 },
    { at: { x: 28, y: 8 }, turns: 1 },
    { at: { x: 8.5, y: 20 }, turns: 2 },
    { at: { x: 20, y: 20.4 }, turns: 3 },
  ]
  const others: DrawnBody[] = [
    { at: { x: 32, y: 20 }, widthMm: 6, lengthMm: 6, colour: 25 },
    { at: { x: 35, y: 8 }, widthMm: 1.5, lengthMm: 2, colour: 200 },
  ]
  const raster = board([...marked(first.at, 0), ...likes.flatMap(({ at, turns }) => marked(at, turns)), ...others])

  test('every one is found in its place, turned as it is, and nothing else is', () => {
    const proposed = findLikes(raster, { body, first })
    expect(proposed).toHaveLength(likes.length)
    for (const { at, turns } of likes) {
      const like = proposed.find((each) => distance(each.at, at) < 0.5)
      expect(distance(like?.at ?? { x: 99, y: 99 }, at)).toBeLessThan(0.08)
      expect((((((like?.rotationDeg ?? 45) - 90 * turns + 45) % 360) + 360) % 360) - 45).toBeCloseTo(0, 0)
      expect(like?.score).toBeGreaterThan(0.6)
      expect(like?.score).toBeLessThanOrEqual(1)
    }
    const scores = proposed.map(({ score }) => score)
    expect(scores).toEqual(scores.toSorted((a, b) => b - a))
  })

  test('the share done only rises, and ends with one', () => {
    const shares: number[] = []
    findLikes(raster, { body, first, onShare: (share) => shares.push(share) })
    expect(shares.length).toBeGreaterThan(6)
    expect(shares).toEqual(shares.toSorted((a, b) => a - b))
    expect(shares[0]).toBeGreaterThan(0)
    expect(shares.at(-1)).toBe(1)
    // four rotations make the first half
    expect(shares.slice(0, 4)).toEqual([0.125, 0.25, 0.375, 0.5])
  })

  test('ended at once it proposes nothing', () => {
    expect(findLikes(raster, { body, first, isCancelled: () => true })).toEqual([])
  })
})
