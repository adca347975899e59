/** Rectifying: a picture sampled along a homography onto another raster. */
import type { Homography } from './homography.ts'

/** Rows of RGBA bytes, the topmost row first; pixel (column, row) covers [column, column + 1) × [row, row + 1). */
export interface Picture {
  readonly width: number
  readonly height: number
  readonly rgba: Uint8ClampedArray
}

/**
 * Fills `into` with `from` as it is seen through `toSource`, which takes a point of `into` to a point of `from`, both in
 * pixels with centres at halves. Bilinear between the four nearest centres, the edge pixels going on for half a pixel;
 * what lies outside of `from`, or behind its horizon (where the denominator is not above 0, as `homographyFrom` makes it
 * in the middle of the corners), becomes clear: all four bytes 0.
 */
export function resample(from: Picture, into: Picture, toSource: Homography): void {
  const [h0, h1, h2, h3, h4, h5, h6, h7, h8] = toSource
  const { width, height, rgba } = from
  const out = into.rgba
  const lastColumn = width - 1
  const lastRow = height - 1
  let at = 0
  for (let row = 0; row < into.height; row++) {
    const y = row + 0.5
    const rowU = h1 * y + h2
    const rowV = h4 * y + h5
    const rowW = h7 * y + h8
    for (let column = 0; column < into.width; column++, at += 4) {
      const x = column + 0.5
      const w = h6 * x + rowW
      const scale = 1 / w
      const u = (h0 * x + rowU) * scale - 0.5
      const v = (h3 * x + rowV) * scale - 0.5
      if (!(w > 0 && u >= -0.5 && v >= -0.5 && u <= width - 0.5 && v <= height - 0.5)) {
        out[at] = out[at + 1] = out[at + 2] = out[at + 3] = 0
        continue
      }
      const left = u < 0 ? 0 : u | 0
      const top = v < 0 ? 0 : v | 0
      const right = left < lastColumn ? 4 : 0
      const down = top < lastRow ? width * 4 : 0
      const fx = u < 0 ? 0 : u - left
      const fy = v < 0 ? 0 : v - top
      const a = (top * width + left) * 4
      const b = a + right
      const c = a + down
      const d = c + right
      const wd = fx * fy
      const wb = fx - wd
      const wc = fy - wd
      const wa = 1 - fx - wc
      out[at] = wa * (rgba[a] ?? 0) + wb * (rgba[b] ?? 0) + wc * (rgba[c] ?? 0) + wd * (rgba[d] ?? 0)
      out[at + 1] =
        wa * (rgba[a + 1] ?? 0) + wb * (rgba[b + 1] ?? 0) + wc * (rgba[c + 1] ?? 0) + wd * (rgba[d + 1] ?? 0)
      out[at + 2] =
        wa * (rgba[a + 2] ?? 0) + wb * (rgba[b + 2] ?? 0) + wc * (rgba[c + 2] ?? 0) + wd * (rgba[d + 2] ?? 0)
      out[at + 3] =
        wa * (rgba[a + 3] ?? 0) + wb * (rgba[b + 3] ?? 0) + wc * (rgba[c + 3] ?? 0) + wd * (rgba[d + 3] ?? 0)
    }
  }
}
