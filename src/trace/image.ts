/** Grey pictures as the tracing reads them: taken from a photo, sampled between pixels, made smaller, a gradient of them. */
import type { Picture, Point } from '../base/index.ts'

/** Rows of grey, 0 to 255, the topmost row first; pixel (column, row) covers [column, column + 1) × [row, row + 1). */
export interface GreyImage {
  readonly widthPx: number
  readonly heightPx: number
  readonly grey: Uint8Array | Uint8ClampedArray | Float32Array
}

/** A grey picture of the board seen straight from above; its left edge lies at `minXMm`, its upper edge at `maxYMm`. */
export interface BoardPlane extends GreyImage {
  readonly pxPerMm: number
  readonly minXMm: number
  readonly maxYMm: number
}

/** The same in colour: red, green and blue each as a plane, because a body and the mask about it may differ in one alone. */
export interface BoardRaster extends Omit<BoardPlane, 'grey'> {
  readonly planes: readonly GreyImage['grey'][]
}

type Frame = Pick<BoardPlane, 'pxPerMm' | 'minXMm' | 'maxYMm'>

/** One plane of a raster each. */
export const planesOf = ({ planes, ...frame }: BoardRaster): BoardPlane[] => planes.map((grey) => ({ ...frame, grey }))

/** Board mm, y up, to pixels of a raster, y down. */
export const toRaster = ({ pxPerMm, minXMm, maxYMm }: Frame, { x, y }: Point): Point => ({
  x: (x - minXMm) * pxPerMm,
  y: (maxYMm - y) * pxPerMm,
})

/** Pixels of a raster to board mm. */
export const fromRaster = ({ pxPerMm, minXMm, maxYMm }: Frame, { x, y }: Point): Point => ({
  x: minXMm + x / pxPerMm,
  y: maxYMm - y / pxPerMm,
})

/**
 * Grey of a picture by the weights of ITU-R BT.601 (0.299, 0.587, 0.114), rounded; what is clear (alpha 0) becomes 0.
 */
export function greyOf({ width, height, rgba }: Picture): GreyImage {
  const grey = new Uint8Array(width * height)
  for (let i = 0, at = 0; i < grey.length; i++, at += 4)
    grey[i] = (77 * (rgba[at] ?? 0) + 150 * (rgba[at + 1] ?? 0) + 29 * (rgba[at + 2] ?? 0) + 128) >> 8
  return { widthPx: width, heightPx: height, grey }
}

/** Red, green and blue of a picture, each by itself. */
export function coloursOf({ width, height, rgba }: Picture): Uint8Array[] {
  return [0, 1, 2].map((channel) => {
    const plane = new Uint8Array(width * height)
    for (let i = 0, at = channel; i < plane.length; i++, at += 4) plane[i] = rgba[at] ?? 0
    return plane
  })
}

/** Bilinear between the four nearest pixel centres, x and y in pixels; outside the edge pixels go on. */
export function greyAt({ widthPx, heightPx, grey }: GreyImage, x: number, y: number): number {
  const u = x < 0.5 ? 0 : x > widthPx - 0.5 ? widthPx - 1 : x - 0.5
  const v = y < 0.5 ? 0 : y > heightPx - 0.5 ? heightPx - 1 : y - 0.5
  const left = u | 0
  const top = v | 0
  const fx = u - left
  const fy = v - top
  const right = left + 1 < widthPx ? 1 : 0
  const down = top + 1 < heightPx ? widthPx : 0
  const at = top * widthPx + left
  const upper = (grey[at] ?? 0) * (1 - fx) + (grey[at + right] ?? 0) * fx
  const lower = (grey[at + down] ?? 0) * (1 - fx) + (grey[at + down + right] ?? 0) * fx
  return upper * (1 - fy) + lower * fy
}

/** Whether a point lies on the picture, at least `marginPx` from its edge. */
export const isInside = ({ widthPx, heightPx }: GreyImage, { x, y }: Point, marginPx = 0): boolean =>
  x >= marginPx && y >= marginPx && x <= widthPx - marginPx && y <= heightPx - marginPx

/**
 * The same board at another scale, each new pixel the mean of the old ones that it covers. Only ever smaller: a scale above
 * the raster's own gives the raster itself.
 */
export function atScale(raster: BoardPlane, pxPerMm: number): BoardPlane {
  const factor = raster.pxPerMm / pxPerMm
  if (factor <= 1.0001) return raster
  const widthPx = Math.max(1, Math.floor(raster.widthPx / factor))
  const heightPx = Math.max(1, Math.floor(raster.heightPx / factor))
  const columns = shrunkRows(raster, widthPx, factor)
  const grey = new Float32Array(widthPx * heightPx)
  for (let row = 0; row < heightPx; row++)
    addShares(row * factor, (row + 1) * factor, raster.heightPx, (from, share) => {
      const weight = share / factor
      for (let column = 0, to = row * widthPx, at = from * widthPx; column < widthPx; column++, to++, at++)
        grey[to] = (grey[to] ?? 0) + weight * (columns[at] ?? 0)
    })
  return { ...raster, widthPx, heightPx, grey, pxPerMm }
}

/** All colours of a board at that scale, or at their own where that is smaller. */
export function atMost(raster: BoardRaster, pxPerMm: number): BoardRaster {
  const scaled = planesOf(raster).map((plane) => atScale(plane, pxPerMm))
  const [first] = scaled
  if (first === undefined) return raster
  const { grey: _, ...frame } = first
  return { ...frame, planes: scaled.map(({ grey }) => grey) }
}

/** Each row made shorter; the rows stay as many as they were. */
function shrunkRows({ widthPx: oldWidth, heightPx, grey }: GreyImage, widthPx: number, factor: number): Float32Array {
  const starts = new Int32Array(widthPx + 1)
  const weights: number[] = []
  for (let column = 0; column < widthPx; column++) {
    addShares(column * factor, (column + 1) * factor, oldWidth, (_, share) => weights.push(share / factor))
    starts[column + 1] = weights.length
  }
  const shares = Float32Array.from(weights)
  const out = new Float32Array(widthPx * heightPx)
  for (let row = 0, to = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++, to++) {
      const start = starts[column] ?? 0
      const end = starts[column + 1] ?? 0
      let at = row * oldWidth + Math.floor(column * factor)
      let sum = 0
      for (let k = start; k < end; k++, at++) sum += (shares[k] ?? 0) * (grey[at] ?? 0)
      out[to] = sum
    }
  }
  return out
}

/** Calls with each old pixel of a stretch and how much of it lies in there. */
function addShares(from: number, to: number, count: number, add: (at: number, share: number) => void): void {
  for (let at = Math.floor(from); at < to && at < count; at++) {
    const share = Math.min(to, at + 1) - Math.max(from, at)
    if (share > 0) add(at, share)
  }
}

/** Slope of the grey per pixel along x (to the right) and y (down). */
export interface Gradient {
  readonly widthPx: number
  readonly heightPx: number
  readonly x: Float32Array
  readonly y: Float32Array
}

/** Sobel’s differences, scaled to grey per pixel (Sobel and Feldman, 1968; from memory); 0 on the outermost pixels. */
export function gradientOf({ widthPx, heightPx, grey }: GreyImage): Gradient {
  const x = new Float32Array(widthPx * heightPx)
  const y = new Float32Array(widthPx * heightPx)
  for (let row = 1; row < heightPx - 1; row++) {
    for (let column = 1, at = row * widthPx + 1; column < widthPx - 1; column++, at++) {
      const nw = grey[at - widthPx - 1] ?? 0
      const n = grey[at - widthPx] ?? 0
      const ne = grey[at - widthPx + 1] ?? 0
      const w = grey[at - 1] ?? 0
      const e = grey[at + 1] ?? 0
      const sw = grey[at + widthPx - 1] ?? 0
      const s = grey[at + widthPx] ?? 0
      const se = grey[at + widthPx + 1] ?? 0
      x[at] = (ne + 2 * e + se - nw - 2 * w - sw) / 8
      y[at] = (sw + 2 * s + se - nw - 2 * n - ne) / 8
    }
  }
  return { widthPx, heightPx, x, y }
}
