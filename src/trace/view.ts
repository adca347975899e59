/** How a camera sees the board: a homography for the plane, and how the lens bends what it sees. */
import { applied, type Homography, inverted, type Point } from '../base/index.ts'

/**
 * Radial distortion about the middle of the picture, two terms of Brown’s model: a point at the distance ρ from the centre,
 * in half diagonals, is seen at ρ · (1 + k1·ρ² + k2·ρ⁴) (D. C. Brown, “Close-range camera calibration”, 1971; from memory).
 */
export interface Lens {
  readonly centre: Point
  /** Half the picture’s diagonal, in pixels. */
  readonly radiusPx: number
  readonly k1: number
  readonly k2: number
}

export interface BoardView {
  /** Board mm, y up, to pixels of a picture from a lens that bends nothing. */
  readonly homography: Homography
  readonly lens: Lens
}

interface PictureSize {
  readonly widthPx: number
  readonly heightPx: number
}

/** A lens that bends nothing, for a picture of this size. */
export const straightLens = ({ widthPx, heightPx }: PictureSize): Lens => ({
  centre: { x: widthPx / 2, y: heightPx / 2 },
  radiusPx: Math.hypot(widthPx, heightPx) / 2,
  k1: 0,
  k2: 0,
})

/** From where a straight lens would show a point to where this one does, in pixels. */
export function bent({ centre, radiusPx, k1, k2 }: Lens, { x, y }: Point): Point {
  const dx = x - centre.x
  const dy = y - centre.y
  const square = (dx * dx + dy * dy) / (radiusPx * radiusPx)
  const factor = 1 + square * (k1 + square * k2)
  return { x: centre.x + dx * factor, y: centre.y + dy * factor }
}

const MOST_STEPS = 12
const NEAR_ENOUGH = 1e-10

/** The way back from `bent`, by Newton’s method on the distance from the centre. */
export function unbent({ centre, radiusPx, k1, k2 }: Lens, { x, y }: Point): Point {
  const dx = x - centre.x
  const dy = y - centre.y
  const seen = Math.hypot(dx, dy) / radiusPx
  if (seen < NEAR_ENOUGH) return { x, y }
  let rho = seen
  for (let step = 0; step < MOST_STEPS; step++) {
    const square = rho * rho
    const slope = 1 + square * (3 * k1 + 5 * k2 * square)
    const change = (rho * (1 + square * (k1 + square * k2)) - seen) / Math.max(0.2, slope)
    rho -= change
    if (Math.abs(change) < NEAR_ENOUGH) break
  }
  return { x: centre.x + (dx * rho) / seen, y: centre.y + (dy * rho) / seen }
}

/** Board mm to pixels of the photo. */
export const seenAt = ({ homography, lens }: BoardView, onBoard: Point): Point =>
  bent(lens, applied(homography, onBoard))

/** Pixels of the photo to board mm. */
export const onBoardAt = ({ homography, lens }: BoardView, seen: Point): Point =>
  applied(inverted(homography), unbent(lens, seen))
