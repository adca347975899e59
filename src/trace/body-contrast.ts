/** How much a body differs from the board about it, in strips along its sides: what tells it where its edges are faint. */
import type { Point } from '../base/index.ts'
import { greyAt, type GreyImage } from './image.ts'
import { ofFourSides, type OutlineEdge } from './outline-score.ts'

/** Strips begin so far from the edge, where blur ends, and are so wide, in mm. */
const GAP_MM = 0.08
export const STRIP_MM = 0.36
/** A strip is looked at in so many places across. */
const ACROSS = [1 / 6, 1 / 2, 5 / 6]
/** Differences of grey as large as the noise of a photo count for half. */
const NOISE = 4

/**
 * Whether a body of that outline, its middle at `at` in pixels, is darker than the board on all of its sides or brighter than it
 * on all, in the colour that shows it best: 0 to 1. Each place along a side has one vote, so that neither writing nor a bright
 * part beside it outweighs the rest; the worst side counts no less than half of the others, as there may be glare.
 */
export function bodyContrast(
  colours: readonly GreyImage[],
  edges: readonly OutlineEdge[],
  at: Point,
  pxPerMm: number,
): number {
  let best = 0
  for (const colour of colours) {
    let [sum, darkest, brightest] = [0, 1, 1]
    for (const edge of edges) {
      const vote = votesAlong(colour, edge, at, pxPerMm)
      sum += vote
      darkest = Math.min(darkest, vote)
      brightest = Math.min(brightest, -vote)
    }
    best = Math.max(best, ofFourSides(sum, darkest), ofFourSides(-sum, brightest))
  }
  return best
}

/** Positive where it is brighter outside; what is seen of the wall between top and foot is neither inside nor outside. */
function votesAlong(image: GreyImage, { x, y, outX, outY, footPx }: OutlineEdge, at: Point, pxPerMm: number): number {
  let votes = 0
  for (let i = 0; i < x.length; i++) {
    const [atX, atY] = [at.x + (x[i] ?? 0), at.y + (y[i] ?? 0)]
    let differs = 0
    for (const share of ACROSS) {
      const awayPx = (GAP_MM + share * STRIP_MM) * pxPerMm
      const outPx = awayPx + footPx
      differs +=
        greyAt(image, atX + outX * outPx, atY + outY * outPx) - greyAt(image, atX - outX * awayPx, atY - outY * awayPx)
    }
    differs /= ACROSS.length
    votes += differs / (Math.abs(differs) + NOISE)
  }
  return votes / x.length
}
