/** Round lengths: the scale bar's and the grid's. */
import { roundDown125 } from '../../../base/index.ts'

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

/** Distances between grid lines in mm, fine and coarse: 5 and 10 at working zoom, 1 and 5 close up, 50 and 100 far out. */
export function gridSteps(scale: number): { readonly fineMm: number; readonly coarseMm: number } {
  if (scale >= 14) return { fineMm: 1, coarseMm: 5 }
  if (scale >= 2.4) return { fineMm: 5, coarseMm: 10 }
  if (scale >= 0.8) return { fineMm: 10, coarseMm: 50 }
  return { fineMm: 50, coarseMm: 100 }
}
