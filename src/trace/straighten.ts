/** A photo as the board is seen straight from above: sampled through homography and lens onto a raster of the board. */
import type { Box, Picture } from '../base/index.ts'
import { type BoardRaster, coloursOf } from './image.ts'
import { type BoardView, seenAt } from './view.ts'

export interface RasterFrame {
  /** What of the board is shown, in mm. */
  readonly box: Box
  readonly pxPerMm: number
}

const MOST_PX_PER_MM = 12
const LEAST_PX_PER_MM = 2

/**
 * The box at the photo’s own resolution, but at most 12 px/mm and `mostPx` pixels in all, at least 2 px/mm.
 * @param box in board mm
 */
export function frameFor(view: BoardView, box: Box, mostPx: number): RasterFrame {
  const widthMm = box.maxX - box.minX
  const heightMm = box.maxY - box.minY
  const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 }
  const seen = seenAt(view, middle)
  const right = seenAt(view, { x: middle.x + 1, y: middle.y })
  const own = Math.hypot(right.x - seen.x, right.y - seen.y)
  const fits = Math.sqrt(mostPx / (widthMm * heightMm))
  return { box, pxPerMm: Math.max(LEAST_PX_PER_MM, Math.min(MOST_PX_PER_MM, own, fits)) }
}

export const frameSize = ({ box, pxPerMm }: RasterFrame): { readonly width: number; readonly height: number } => ({
  width: Math.max(1, Math.round((box.maxX - box.minX) * pxPerMm)),
  height: Math.max(1, Math.round((box.maxY - box.minY) * pxPerMm)),
})

/** The colours of a picture that fills a frame, with where on the board they lie. */
export const asRaster = (picture: Picture, { box, pxPerMm }: RasterFrame): BoardRaster => ({
  widthPx: picture.width,
  heightPx: picture.height,
  planes: coloursOf(picture),
  pxPerMm,
  minXMm: box.minX,
  maxYMm: box.maxY,
})

interface Rows {
  readonly from: number
  readonly to: number
}

/**
 * Fills rows of `into`, which has the frame’s size, with the photo as `view` sees it; bilinear. What the photo does not show
 * becomes clear, all four bytes 0.
 */
export function straightenRows(
  photo: Picture,
  into: Picture,
  { view, frame }: { view: BoardView; frame: RasterFrame },
  rows: Rows,
): void {
  const [h0, h1, h2, h3, h4, h5, h6, h7, h8] = view.homography
  const { centre, radiusPx, k1, k2 } = view.lens
  const perSquare = 1 / (radiusPx * radiusPx)
  const { width, height, rgba } = photo
  const out = into.rgba
  const mmPerPx = 1 / frame.pxPerMm
  let at = rows.from * into.width * 4
  for (let row = rows.from; row < rows.to; row++) {
    const y = frame.box.maxY - (row + 0.5) * mmPerPx
    for (let column = 0; column < into.width; column++, at += 4) {
      const x = frame.box.minX + (column + 0.5) * mmPerPx
      const w = 1 / (h6 * x + h7 * y + h8)
      const dx = (h0 * x + h1 * y + h2) * w - centre.x
      const dy = (h3 * x + h4 * y + h5) * w - centre.y
      const square = (dx * dx + dy * dy) * perSquare
      const bend = 1 + square * (k1 + square * k2)
      const u = centre.x + dx * bend - 0.5
      const v = centre.y + dy * bend - 0.5
      if (!(w > 0 && u >= 0 && v >= 0 && u < width - 1 && v < height - 1)) {
        out[at] = out[at + 1] = out[at + 2] = out[at + 3] = 0
        continue
      }
      const left = u | 0
      const top = v | 0
      const a = (top * width + left) * 4
      const c = a + width * 4
      const wd = (u - left) * (v - top)
      const wb = u - left - wd
      const wc = v - top - wd
      const wa = 1 - wb - wc - wd
      out[at] = wa * (rgba[a] ?? 0) + wb * (rgba[a + 4] ?? 0) + wc * (rgba[c] ?? 0) + wd * (rgba[c + 4] ?? 0)
      out[at + 1] =
        wa * (rgba[a + 1] ?? 0) + wb * (rgba[a + 5] ?? 0) + wc * (rgba[c + 1] ?? 0) + wd * (rgba[c + 5] ?? 0)
      out[at + 2] =
        wa * (rgba[a + 2] ?? 0) + wb * (rgba[a + 6] ?? 0) + wc * (rgba[c + 2] ?? 0) + wd * (rgba[c + 6] ?? 0)
      out[at + 3] = 255
    }
  }
}
