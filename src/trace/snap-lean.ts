/** How far a body’s top leans over its foot, by the walls that are seen between them. */
import type { EdgeSpot } from './edge-search.ts'
import type { BoardPlane } from './image.ts'
import { medianOf } from './least-squares.ts'
import { edgesFor, edgesIn, type Outline, type Pose, spotsOf } from './snap-outline.ts'

/** Walls that are seen less wide than this tell no more than the camera’s place does. */
const LEAST_WALL_MM = 0.5
/** The foot is looked for within this share of the wall, to either side of where the camera’s place has it. */
const REACH = 0.3
/** One photo rarely tells the focal length: so far off, as a share, the lean by the camera’s place usually is. */
const CAMERA_SD = 0.1
/** From here on it is rather the edge of something taller that stands before the foot. */
const MOST_OFF = 0.19
/** How well the edge of a foot is seen, in mm, and how far its places may be scattered. */
const EDGE_SD_MM = 0.12
const MOST_SCATTER_MM = 0.12
/** Fainter edges are noise, in grey per pixel. */
const LEAST_SLOPE = 1.2

/**
 * How many times as far as the camera’s place tells the top is seen from the foot: the mean of that, 1, and of what each
 * wall says whose foot is seen as one straight edge, weighed by their variances.
 */
export function leanShareSeen(planes: readonly BoardPlane[], outline: Outline, pose: Pose): number {
  const [frame] = planes
  if (frame === undefined) return 1
  let sum = 0
  let weights = 1 / CAMERA_SD ** 2
  for (const edge of edgesFor(frame, outline, pose)) {
    const wallMm = edge.footPx / frame.pxPerMm
    if (wallMm < LEAST_WALL_MM) continue
    const reachPx = Math.max(2, REACH * edge.footPx)
    const { leanPx } = outline
    const leanOutPx = -(leanPx.x * edge.outX + leanPx.y * edge.outY)
    const alongX = edge.outX * leanOutPx + leanPx.x
    const alongY = edge.outY * leanOutPx + leanPx.y
    // the foot lies aside of the top as well as further out
    const spots = spotsOf(frame, { edge, pose, atFoot: true }).map(({ at, across }) => ({
      at: { x: at.x - alongX, y: at.y - alongY },
      across,
    }))
    const offsets = likeliestEdge(planes, spots, { reachPx, sdPx: CAMERA_SD * edge.footPx })
    if (offsets.length < spots.length * 0.6) continue
    const middle = medianOf(offsets)
    const scatterMm = medianOf(offsets.map((offset) => Math.abs(offset - middle))) / frame.pxPerMm
    if (scatterMm > MOST_SCATTER_MM) continue
    const share = middle / edge.footPx
    const weight = (wallMm / EDGE_SD_MM) ** 2 / (1 + (share / MOST_OFF) ** 6)
    sum += weight * share
    weights += weight
  }
  return 1 + sum / weights
}

interface Expected {
  readonly reachPx: number
  readonly sdPx: number
}

/**
 * How far off each spot the edge of the foot is seen, in pixels: in the colour, and rising or falling, that has the clearest
 * edges near where they are expected. What stands close beside has edges too, and goes the other way as often as not.
 */
function likeliestEdge(
  planes: readonly BoardPlane[],
  spots: readonly EdgeSpot[],
  { reachPx, sdPx }: Expected,
): number[] {
  let best: number[] = []
  let most = 0
  for (const edges of edgesIn(planes, spots, reachPx))
    for (const sign of [-1, 1] as const) {
      const offsets: number[] = []
      let support = 0
      for (const { [sign]: found } of edges) {
        if (found === undefined || Math.abs(found.slope) < LEAST_SLOPE) continue
        offsets.push(found.offsetPx)
        support += Math.abs(found.slope) * Math.exp(-0.5 * (found.offsetPx / sdPx) ** 2)
      }
      if (support <= most) continue
      most = support
      best = offsets
    }
  return best
}
