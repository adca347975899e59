/** Likes on boards drawn by hand: turned, unevenly lit, fainter, smaller, and seen from aside. */
import { describe, expect, test } from 'vitest'
import { distance, type Point, seededRandom } from '../../src/base/index.ts'
import { findLikes, type Like, topSeenAt } from '../../src/trace/index.ts'
import { type DrawnBoard, type DrawnBody, drawnRaster } from '../support/drawn-raster.ts'

interface Chip {
  readonly at: Point
  readonly turnedDeg?: number
  /** Share of the first one’s contrast with the board. */
  readonly contrast?: number
  readonly size?: number
}

const GROUND = 90

/** A dark body with a bright bar at one end. */
function chip({ at, turnedDeg = 0, contrast = 1, size = 1 }: Chip): DrawnBody[] {
  const angle = (turnedDeg * Math.PI) / 180
  const away = 1.6 * size
  return [
    { at, widthMm: 3.2 * size, lengthMm: 5 * size, rotationDeg: turnedDeg, colour: GROUND - 60 * contrast },
    {
      at: { x: at.x - away * Math.sin(angle), y: at.y + away * Math.cos(angle) },
      widthMm: 2 * size,
      lengthMm: 0.9 * size,
      rotationDeg: turnedDeg,
      colour: GROUND + 90 * contrast,
    },
  ]
}

const body = { widthMm: 3.2, lengthMm: 5, heightMm: 1 }

const likesOn = (chips: readonly Chip[], more: Partial<DrawnBoard> = {}): Like[] => {
  const [first] = chips
  if (first === undefined) return []
  const raster = drawnRaster({
    widthMm: 42,
    heightMm: 26,
    pxPerMm: 5,
    ground: GROUND,
    bodies: chips.flatMap(chip),
    noise: { random: seededRandom(9), grey: 1.5 },
    ...more,
  })
  return findLikes(raster, { body, first: { at: first.at, rotationDeg: first.turnedDeg ?? 0 } })
}

const placesOf = (likes: readonly Like[]): string[] =>
  likes
    .map(({ at, rotationDeg }) => `${at.x.toFixed(0)} ${at.y.toFixed(0)} ${(Math.round(rotationDeg) + 360) % 360}`)
    .toSorted()

describe('likes', () => {
  test('of a part that is turned by 30° are turned by it and quarters', () => {
    const likes = likesOn([
      { at: { x: 7, y: 7 }, turnedDeg: 30 },
      { at: { x: 20, y: 7 }, turnedDeg: 30 },
      { at: { x: 33, y: 7 }, turnedDeg: 120 },
      { at: { x: 12, y: 19 }, turnedDeg: 210 },
      { at: { x: 28, y: 19 }, turnedDeg: 300 },
    ])
    expect(placesOf(likes)).toEqual(['12 19 210', '20 7 30', '28 19 300', '33 7 120'])
  })

  test('are found though the board is lit from one side and the first one lies in glare', () => {
    const chips = [
      { at: { x: 7, y: 7 } },
      { at: { x: 20, y: 7 } },
      { at: { x: 34, y: 8 }, turnedDeg: 180 },
      { at: { x: 12, y: 19 } },
    ]
    const light = ({ x, y }: Point): number => 1.2 * (42 - x) + 2.5 * Math.max(0, 14 - Math.hypot(x - 4, y - 4))
    expect(placesOf(likesOn(chips, { light }))).toEqual(['12 19 0', '20 7 0', '34 8 180'])
    // a spot of light that falls off by 10 grey a mm across the first one alone is taken off before it is looked for
    const spot = ({ x, y }: Point): number => 10 * Math.max(0, 12 - Math.hypot(x - 1, y - 7))
    expect(placesOf(likesOn(chips, { light: spot }))).toEqual(['12 19 0', '20 7 0', '34 8 180'])
  })

  test('may be half as clear, but no ghost of a part is one', () => {
    const chips = [
      { at: { x: 7, y: 7 } },
      { at: { x: 20, y: 7 }, contrast: 0.6 },
      { at: { x: 33, y: 7 }, contrast: 0.3 },
      { at: { x: 20, y: 19 }, contrast: 0.95 },
    ]
    expect(placesOf(likesOn(chips))).toEqual(['20 19 0', '20 7 0'])
  })

  test('are of its size: smaller and larger ones are other parts', () => {
    const chips = [
      { at: { x: 7, y: 7 } },
      { at: { x: 20, y: 7 }, size: 0.7 },
      { at: { x: 34, y: 8 }, size: 1.5 },
      { at: { x: 14, y: 19 } },
    ]
    expect(placesOf(likesOn(chips))).toEqual(['14 19 0'])
  })

  test('stand where their feet are, where the camera saw them from aside', () => {
    const camera = { over: { x: 80, y: 60 }, heightMm: 220 }
    const feet = [
      { x: 10, y: 8 },
      { x: 24, y: 8 },
      { x: 16, y: 19 },
    ]
    // 3 mm up is seen by 220/217 further from the point below the camera
    const raster = drawnRaster({
      widthMm: 42,
      heightMm: 26,
      pxPerMm: 5,
      ground: GROUND,
      bodies: feet.flatMap((at) => chip({ at: topSeenAt(camera, at, 3), size: 220 / 217 })),
      noise: { random: seededRandom(9), grey: 1.5 },
    })
    const [first = { x: 0, y: 0 }, ...others] = feet
    const likes = findLikes(raster, { body: { ...body, heightMm: 3 }, first: { at: first, rotationDeg: 0 }, camera })
    expect(likes).toHaveLength(2)
    for (const foot of others) expect(Math.min(...likes.map(({ at }) => distance(at, foot)))).toBeLessThan(0.12)
    expect(distance(topSeenAt(camera, feet[1] ?? first, 3), feet[1] ?? first)).toBeGreaterThan(0.8)
  })

  test('of a part that stands alone there are none', () => {
    expect(likesOn([{ at: { x: 20, y: 13 } }])).toEqual([])
  })
})
