/** Where the numbers of the lift order stand, and the dotted line that joins them. */
import { type Box, overlap, type Point } from '../../base/index.ts'

export const BADGE_RADIUS_PX = 14

/**
 * One badge a part, on that corner of its box where it covers least.
 * @param boxes the parts' boxes in pixels, in lift order
 * @param centre what the badges should turn away from, in pixels: the core
 */
export function badgePlaces(boxes: readonly Box[], obstacles: readonly Box[], bounds: Box, centre: Point): Point[] {
  const taken = [...obstacles]
  const middle = middleOf(boxes)
  return boxes.map((box) => {
    const corners = cornersOf(box).toSorted((p, q) => farther(q, centre, middle) - farther(p, centre, middle))
    let best = corners[0] ?? centre
    let bestCost = Infinity
    for (const [rank, corner] of corners.entries()) {
      const around = boxAround(corner, BADGE_RADIUS_PX)
      let covered = rank * 20 + 4 * (4 * BADGE_RADIUS_PX ** 2 - overlap(around, bounds))
      for (const other of taken) covered += overlap(around, other)
      if (covered < bestCost) {
        best = corner
        bestCost = covered
      }
    }
    taken.push(boxAround(best, BADGE_RADIUS_PX + 4))
    return best
  })
}

export interface Arc {
  readonly from: Point
  readonly control: Point
  readonly to: Point
}

/** Quadratic curves from badge to badge, each bulging away from a centre. */
export function badgeArcs(places: readonly Point[], centre: Point): Arc[] {
  return places.slice(1).map((to, i) => {
    const from = places[i] ?? to
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }
    const away = { x: middle.x - centre.x, y: middle.y - centre.y }
    const length = Math.hypot(away.x, away.y)
    const bulge = Math.min(120, 0.36 * Math.hypot(to.x - from.x, to.y - from.y))
    const control =
      length < 1
        ? { x: middle.x, y: middle.y - bulge }
        : { x: middle.x + (away.x / length) * bulge, y: middle.y + (away.y / length) * bulge }
    return { from, control, to }
  })
}

const cornersOf = (box: Box): Point[] => [
  { x: box.maxX, y: box.minY },
  { x: box.minX, y: box.minY },
  { x: box.maxX, y: box.maxY },
  { x: box.minX, y: box.maxY },
]

const boxAround = (at: Point, radius: number): Box => ({
  minX: at.x - radius,
  minY: at.y - radius,
  maxX: at.x + radius,
  maxY: at.y + radius,
})

function middleOf(boxes: readonly Box[]): Point {
  const n = Math.max(1, boxes.length)
  return {
    x: boxes.reduce((sum, box) => sum + (box.minX + box.maxX) / 2, 0) / n,
    y: boxes.reduce((sum, box) => sum + (box.minY + box.maxY) / 2, 0) / n,
  }
}

/** Corners far from the core count as better, the upper ones more; then those far from the middle of what is lifted. */
const farther = (corner: Point, centre: Point, middle: Point): number =>
  Math.hypot(corner.x - centre.x, corner.y - centre.y) -
  0.3 * (corner.y - centre.y) +
  0.05 * Math.hypot(corner.x - middle.x, corner.y - middle.y)
