/** Where a core's label stands and its die is drawn: the middle of the body that no region takes. */
import { type Point, placePoint, unplacePoint } from '../../../base/index.ts'
import type { PlacedPart, Region } from '../../../board/index.ts'

const LARGEST_SHARE = 0.42
const SMALLEST_SHARE = 0.16

/**
 * The corners of the largest centred rectangle, similar to the body, that touches no lane's or command region; at most 0.42 of the body
 * (where a die usually ends; the board does not say how large it is). Undefined where regions cover the middle.
 */
export function dieOutline(part: PlacedPart, regions: readonly Region[]): Point[] | undefined {
  let share = LARGEST_SHARE
  for (const region of regions) {
    if (region.role === 'power') continue
    const corners = region.polygon.map((corner) => unplacePoint(corner, part.placement))
    const lowX = Math.min(...corners.map((c) => c.x))
    const highX = Math.max(...corners.map((c) => c.x))
    const lowY = Math.min(...corners.map((c) => c.y))
    const highY = Math.max(...corners.map((c) => c.y))
    const clearX = lowX > 0 ? lowX : highX < 0 ? -highX : 0
    const clearY = lowY > 0 ? lowY : highY < 0 ? -highY : 0
    share = Math.min(share, Math.max((2 * clearX) / part.widthMm, (2 * clearY) / part.lengthMm) - 0.03)
  }
  if (share < SMALLEST_SHARE) return undefined
  const x = (share * part.widthMm) / 2
  const y = (share * part.lengthMm) / 2
  return [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ].map((corner) => placePoint(corner, part.placement))
}
