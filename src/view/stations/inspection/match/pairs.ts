/** Four pairs of points, photo and board: where they begin, how they move, and what they catch on. */
import { type Box, distance, type Point } from '../../../../base/index.ts'
import type { BoardModel, Side } from '../../../../board/index.ts'
import { cornersSeen, type MatchedCorners, type Photo } from '../../../../case/index.ts'

export type Pair = MatchedCorners[number]

/** How far in from the photo's frame the points stand at first, as a share of its sides. */
const INSET = 0.12

/** As matched before; else the board's corners, at the photo's own corners as they would be seen. */
export function firstPairs(photo: Photo, board: Box): Pair[] {
  if (photo.corners !== undefined) return [...photo.corners]
  const [left, right] = [photo.widthPx * INSET, photo.widthPx * (1 - INSET)]
  const [top, bottom] = [photo.heightPx * INSET, photo.heightPx * (1 - INSET)]
  const inPhoto = [
    { x: left, y: bottom },
    { x: right, y: bottom },
    { x: right, y: top },
    { x: left, y: top },
  ]
  return cornersSeen(photo.side, board).map((at, i) => ({ at, px: inPhoto[i] ?? at }))
}

export const withPair = (pairs: readonly Pair[], index: number, change: Partial<Pair>): Pair[] =>
  pairs.map((pair, i) => (i === index ? { ...pair, ...change } : pair))

export const clampTo = ({ x, y }: Point, { minX, minY, maxX, maxY }: Box): Point => ({
  x: Math.min(maxX, Math.max(minX, x)),
  y: Math.min(maxY, Math.max(minY, y)),
})

/** What is told apart in a photo: middles of holes, corners of parts and of the board on this side. */
export function catchPoints(model: BoardModel, side: Side): Point[] {
  return [
    ...model.drills.map(({ at }) => at),
    ...model.outline,
    ...model.parts.filter((part) => part.side === side).flatMap((part) => part.outline),
  ]
}

/** The nearest of them within reach, else the point itself. */
export function caught(at: Point, catches: readonly Point[], reachMm: number): Point {
  let best = at
  let bestMm = reachMm
  for (const point of catches) {
    const awayMm = distance(point, at)
    if (awayMm <= bestMm) {
      best = point
      bestMm = awayMm
    }
  }
  return best
}
