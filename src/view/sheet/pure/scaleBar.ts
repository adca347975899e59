/** Round lengths: the scale bar's and the grid's. */
import { type Box, roundDown125 } from '../../../base/index.ts'

export interface ScaleBar {
  readonly lengthMm: number
  readonly lengthPx: number
  readonly label: string
}

/** @param scale pixels per mm; @param maxPx the bar is the longest round length that is not longer than this */
export function scaleBar(scale: number, maxPx: number): ScaleBar {
  const lengthMm = roundDown125(maxPx / scale)
  return {
    lengthMm,
    lengthPx: lengthMm * scale,
    label: lengthMm < 1 ? `${Math.round(lengthMm * 1000)} µm` : `${lengthMm} mm`,
  }
}

/**
 * Where along the lower edge a bar stands: the place furthest left at which it covers none of `taken`; where there is
 * none, the furthest left that covers the fewest.
 * @param room the box at its usual place, and how far to the right it may go
 */
export function barPlace(room: Box & { readonly endX: number }, taken: readonly Box[]): Box {
  const width = room.maxX - room.minX
  const beside = taken.filter(({ minY, maxY }) => minY < room.maxY && maxY > room.minY)
  const starts = [room.minX, ...beside.map(({ maxX }) => maxX)]
    .filter((minX) => minX >= room.minX && minX + width <= room.endX)
    .toSorted((a, b) => a - b)
  const covers = (minX: number): number => beside.filter((box) => box.minX < minX + width && box.maxX > minX).length
  const best = starts.reduce((found, minX) => (covers(minX) < covers(found) ? minX : found), room.minX)
  return { minX: best, maxX: best + width, minY: room.minY, maxY: room.maxY }
}

/** Distances between grid lines in mm, fine and coarse: 5 and 10 at working zoom, 1 and 5 close up, 50 and 100 far out. */
export function gridSteps(scale: number): { readonly fineMm: number; readonly coarseMm: number } {
  if (scale >= 14) return { fineMm: 1, coarseMm: 5 }
  if (scale >= 2.4) return { fineMm: 5, coarseMm: 10 }
  if (scale >= 0.8) return { fineMm: 10, coarseMm: 50 }
  return { fineMm: 50, coarseMm: 100 }
}
