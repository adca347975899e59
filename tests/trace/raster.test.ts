/** Rasters of the board: places to pixels and back, at which scale, and what of the photo they show. */
import { describe, expect, test } from 'vitest'
import {
  asRaster,
  type BoardView,
  frameFor,
  frameSize,
  fromRaster,
  greyOf,
  straightenRows,
  toRaster,
} from '../../src/trace/index.ts'

const box = { minX: 10, maxX: 60, minY: 20, maxY: 40 }

/** A photo of so many pixels a mm, straight from above, the board’s (0, 0) at its pixel (0, 500). */
const viewAt = (pxPerMm: number): BoardView => ({
  homography: [pxPerMm, 0, 0, 0, -pxPerMm, 500, 0, 0, 1],
  lens: { centre: { x: 400, y: 250 }, radiusPx: 472, k1: 0, k2: 0 },
})

describe('frames', () => {
  test.each([
    ['the photo’s own', 7, 1e6, 7],
    ['no more than 12 px/mm', 30, 1e9, 12],
    // 50 × 20 mm in 16 000 pixels: √(16 000 / 1000)
    ['what fits into the pixels there are', 7, 16_000, 4],
    ['no less than 2 px/mm', 7, 100, 2],
    ['no less than 2 px/mm of a small photo', 0.5, 1e6, 2],
  ])('the scale is %s', (_, ownPxPerMm, mostPx, pxPerMm) => {
    expect(frameFor(viewAt(ownPxPerMm), box, mostPx)).toEqual({ box, pxPerMm })
  })

  test('a frame has whole pixels, one at least', () => {
    expect(frameSize({ box, pxPerMm: 4.02 })).toEqual({ width: 201, height: 80 })
    expect(frameSize({ box: { minX: 0, maxX: 0.01, minY: 0, maxY: 0.01 }, pxPerMm: 2 })).toEqual({
      width: 1,
      height: 1,
    })
  })
})

test('y runs up on the board and down in a raster', () => {
  const frame = { pxPerMm: 5, minXMm: 10, maxYMm: 40 }
  expect(toRaster(frame, { x: 12, y: 37 })).toEqual({ x: 10, y: 15 })
  expect(fromRaster(frame, { x: 10, y: 15 })).toEqual({ x: 12, y: 37 })
})

test('grey is weighed as ITU-R BT.601 has it, to one step of 255', () => {
  const colours = [
    [255, 0, 0],
    [0, 255, 0],
    [0, 0, 255],
    [255, 255, 255],
    [10, 200, 90],
  ] as const
  const rgba = Uint8ClampedArray.from(colours.flatMap((colour) => [...colour, 255]))
  const { widthPx, heightPx, grey } = greyOf({ width: 5, height: 1, rgba })
  expect([widthPx, heightPx]).toEqual([5, 1])
  for (const [i, [red, green, blue]] of colours.entries())
    expect(Math.abs((grey[i] ?? 0) - (0.299 * red + 0.587 * green + 0.114 * blue))).toBeLessThanOrEqual(1)
  expect(grey[3]).toBe(255)
})

describe('straightening', () => {
  /** 8 × 6 pixels whose red is 10 a column and whose green is 20 a row. */
  const photo = {
    width: 8,
    height: 6,
    rgba: Uint8ClampedArray.from({ length: 8 * 6 * 4 }, (_, i) => {
      const [pixel, channel] = [Math.floor(i / 4), i % 4]
      return [10 * (pixel % 8), 20 * Math.floor(pixel / 8), 7, 255][channel] ?? 0
    }),
  }
  /** One pixel a mm, the board’s upper left corner (0, 6) at pixel (0, 0). */
  const view: BoardView = {
    homography: [1, 0, 0, 0, -1, 6, 0, 0, 1],
    lens: { centre: { x: 4, y: 3 }, radiusPx: 5, k1: 0, k2: 0 },
  }
  const straight = (frame: { box: typeof box; pxPerMm: number }, rows?: { from: number; to: number }) => {
    const into = {
      ...frameSize(frame),
      rgba: new Uint8ClampedArray(frameSize(frame).width * frameSize(frame).height * 4),
    }
    straightenRows(photo, into, { view, frame }, rows ?? { from: 0, to: into.height })
    return {
      ...into,
      pixel: (column: number, row: number) =>
        Array.from(into.rgba.slice((row * into.width + column) * 4, (row * into.width + column) * 4 + 4)),
    }
  }

  test('at its own scale the photo comes out as it is, but for its last column and row, beyond which nothing is known', () => {
    const { pixel } = straight({ box: { minX: 0, maxX: 8, minY: 0, maxY: 6 }, pxPerMm: 1 })
    for (let column = 0; column < 7; column++)
      for (let row = 0; row < 5; row++) expect(pixel(column, row)).toEqual([10 * column, 20 * row, 7, 255])
  })

  test('between pixels it lies between their colours', () => {
    // at 2 px/mm the second pixel is seen at 0.75, a quarter of the way from the first pixel’s middle to the second’s
    const { pixel } = straight({ box: { minX: 1, maxX: 4, minY: 1, maxY: 4 }, pxPerMm: 2 })
    // column 1 at x = 1.75: from 10 to 20 by a quarter; row 1 at y = 3.25, 2.75 from above: from 40 to 60 by a quarter
    expect(pixel(1, 1).map((value, i) => Math.abs(value - ([12.5, 45, 7, 255][i] ?? 0)))).toEqual([0.5, 0, 0, 0])
    expect(pixel(3, 2).map((value, i) => Math.abs(value - ([22.5, 55, 7, 255][i] ?? 0)))).toEqual([0.5, 0, 0, 0])
  })

  test('what the photo does not show is clear', () => {
    const { pixel } = straight({ box: { minX: -2, maxX: 10, minY: -2, maxY: 8 }, pxPerMm: 1 })
    for (const [column, row] of [
      [0, 4],
      [11, 4],
      [5, 0],
      [5, 9],
    ] as const)
      expect(pixel(column, row)).toEqual([0, 0, 0, 0])
    expect(pixel(4, 4)).toEqual([20, 40, 7, 255])
  })

  test('only the rows that were asked for are filled', () => {
    const { pixel } = straight({ box: { minX: 0, maxX: 8, minY: 0, maxY: 6 }, pxPerMm: 1 }, { from: 2, to: 4 })
    expect([1, 2, 3, 4].map((row) => pixel(3, row)[3])).toEqual([0, 255, 255, 0])
    expect(pixel(3, 3)).toEqual([30, 60, 7, 255])
  })
})

test('a picture in a frame is a raster of three colours, with where on the board it lies', () => {
  const picture = { width: 2, height: 1, rgba: Uint8ClampedArray.of(1, 2, 3, 255, 4, 5, 6, 255) }
  expect(asRaster(picture, { box, pxPerMm: 3 })).toEqual({
    widthPx: 2,
    heightPx: 1,
    planes: [Uint8Array.of(1, 4), Uint8Array.of(2, 5), Uint8Array.of(3, 6)],
    pxPerMm: 3,
    minXMm: 10,
    maxYMm: 40,
  })
})
