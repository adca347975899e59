/** Rectifying pictures: the kernel against a slow reference, and against a scene whose colours are a formula. */
import { describe, expect, test } from 'vitest'
import {
  applied,
  type Homography,
  homographyFrom,
  type Picture,
  type Point,
  resample,
  seededRandom,
} from '../../src/base/index.ts'

const picture = (width: number, height: number): Picture => ({
  width,
  height,
  rgba: new Uint8ClampedArray(width * height * 4),
})

function noise(width: number, height: number, seed: number): Picture {
  const made = picture(width, height)
  const random = seededRandom(seed)
  for (let i = 0; i < made.rgba.length; i++) made.rgba[i] = random.whole(256)
  return made
}

/** One pixel after the other, through `applied`, with the neighbours clamped to the picture. */
function slowly(from: Picture, width: number, height: number, h: Homography): Uint8ClampedArray {
  const out = new Uint8ClampedArray(width * height * 4)
  const clamp = (value: number, last: number): number => Math.min(last, Math.max(0, value))
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const { x, y } = applied(h, { x: column + 0.5, y: row + 0.5 })
      if (h[6] * (column + 0.5) + h[7] * (row + 0.5) + h[8] <= 0) continue
      if (!(x >= 0 && y >= 0 && x <= from.width && y <= from.height)) continue
      for (let k = 0; k < 4; k++) {
        let sum = 0
        for (const dx of [0, 1]) {
          for (const dy of [0, 1]) {
            const c = Math.floor(x - 0.5) + dx
            const r = Math.floor(y - 0.5) + dy
            const weight = (1 - Math.abs(x - 0.5 - c)) * (1 - Math.abs(y - 0.5 - r))
            const pixel = clamp(r, from.height - 1) * from.width + clamp(c, from.width - 1)
            sum += weight * (from.rgba[pixel * 4 + k] ?? 0)
          }
        }
        out[(row * width + column) * 4 + k] = sum
      }
    }
  }
  return out
}

const cornersOf = (width: number, height: number): Point[] => [
  { x: 0, y: 0 },
  { x: width, y: 0 },
  { x: width, y: height },
  { x: 0, y: height },
]

function mapOnto(width: number, height: number, quad: readonly Point[]): Homography {
  const pairs = cornersOf(width, height).map((from, i) => ({ from, to: quad[i] ?? from }))
  const made = homographyFrom(pairs, 'kept')
  if (!made.ok) throw new Error('not a quad')
  return made.value
}

describe('resampling', () => {
  test('is what the slow reference says, pixel by pixel, inside, at the edge and outside', () => {
    const from = noise(37, 29, 3)
    for (const quad of [
      cornersOf(37, 29),
      [
        { x: 4, y: 3 },
        { x: 30, y: 6 },
        { x: 35, y: 27 },
        { x: 1, y: 20 },
      ],
      [
        { x: -9, y: -3 },
        { x: 50, y: 2 },
        { x: 40, y: 40 },
        { x: 3, y: 25 },
      ],
    ]) {
      const into = picture(61, 43)
      const h = mapOnto(61, 43, quad)
      resample(from, into, h)
      const wanted = slowly(from, 61, 43, h)
      let worst = 0
      for (let i = 0; i < wanted.length; i++) worst = Math.max(worst, Math.abs((into.rgba[i] ?? 0) - (wanted[i] ?? 0)))
      expect(worst).toBeLessThanOrEqual(1)
    }
  })

  test('onto the same raster changes nothing', () => {
    const from = noise(23, 17, 5)
    const into = picture(23, 17)
    resample(from, into, [1, 0, 0, 0, 1, 0, 0, 0, 1])
    expect(into.rgba).toEqual(from.rgba)
  })

  test('straightens a scene seen askew: a colour that is linear on the board is linear again', () => {
    const quad = [
      { x: 30, y: 20 },
      { x: 270, y: 45 },
      { x: 250, y: 210 },
      { x: 55, y: 180 },
    ]
    const toPhoto = mapOnto(100, 80, quad)
    const toBoard = mapOntoBack(quad)
    const photo = picture(300, 240)
    for (let row = 0; row < 240; row++) {
      for (let column = 0; column < 300; column++) {
        const { x, y } = applied(toBoard, { x: column + 0.5, y: row + 0.5 })
        photo.rgba.set([20 + 2 * x, 20 + 2 * y, 90, 255], (row * 300 + column) * 4)
      }
    }
    const into = picture(100, 80)
    resample(photo, into, toPhoto)
    for (const [column, row] of [
      [10, 10],
      [50, 40],
      [90, 8],
      [12, 70],
      [88, 72],
    ] as const) {
      const i = (row * 100 + column) * 4
      expect(Math.abs((into.rgba[i] ?? 0) - (20 + 2 * (column + 0.5)))).toBeLessThanOrEqual(1.5)
      expect(Math.abs((into.rgba[i + 1] ?? 0) - (20 + 2 * (row + 0.5)))).toBeLessThanOrEqual(1.5)
    }
  })

  test('leaves clear what the picture does not show, and what lies behind its horizon', () => {
    const from = noise(20, 20, 9)
    from.rgba.fill(255)
    const into = noise(40, 10, 10)
    resample(from, into, [1, 0, 0, 0, 1, 0, -0.05, 0, 1])
    expect(into.rgba.slice((5 * 40 + 30) * 4, (5 * 40 + 30) * 4 + 4)).toEqual(new Uint8ClampedArray(4))
    expect(into.rgba[(5 * 40 + 2) * 4 + 3]).toBe(255)
  })
})

function mapOntoBack(quad: readonly Point[]): Homography {
  const made = homographyFrom(
    quad.map((from, i) => ({ from, to: cornersOf(100, 80)[i] ?? from })),
    'kept',
  )
  if (!made.ok) throw new Error('not a quad')
  return made.value
}
