/** A photo with what was clicked in it, and how much around that is shown when it is straight. */
import { type Box, distance, type Point } from '../../base/index.ts'
import type { TracePhoto } from '../../workers/contract.ts'

export interface Shown {
  readonly file: File
  readonly photo: TracePhoto
  /** Clicked so far, in pixels of the working size. */
  readonly points: readonly Point[]
}

export type KnownBy = 'board' | 'package' | 'holes' | 'distance'

export interface Sizes {
  readonly widthMm: number
  readonly heightMm: number
}

/** Where the board's edge is not known yet: the whole photo, by the scale of what was shown in it. */
export function boxAround({ photo, points }: Shown, known: Sizes, by: KnownBy): Box {
  const [a = { x: 0, y: 0 }, b = a] = points
  if (by === 'distance') {
    const mmPerPx = known.widthMm / Math.max(1, distance(a, b))
    return { minX: 0, minY: 0, maxX: photo.widthPx * mmPerPx, maxY: photo.heightPx * mmPerPx }
  }
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const mmX = known.widthMm / Math.max(1, right - left)
  const mmY = known.heightMm / Math.max(1, bottom - top)
  return {
    minX: -left * mmX,
    maxX: known.widthMm + (photo.widthPx - right) * mmX,
    minY: -(photo.heightPx - bottom) * mmY,
    maxY: known.heightMm + top * mmY,
  }
}
