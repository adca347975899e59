/** Where the edges of a body are expected in the picture: of its top and, where a wall is seen, of its foot. */
import type { Point } from '../base/index.ts'
import { edgesAcross, type EdgeSpot } from './edge-search.ts'
import { type BoardPlane, toRaster } from './image.ts'
import { type OutlineEdge, outlineEdges } from './outline-score.ts'

/** A body seen from above, in mm, its length along y before it is turned. */
export interface BodySize {
  readonly widthMm: number
  readonly lengthMm: number
  /** How large its foot is seen beside its top; as large where left out. */
  readonly footShare?: number | undefined
}

export interface Pose {
  /** Middle of the top as it is seen, in board mm. */
  readonly at: Point
  readonly rotationDeg: number
}

export interface Outline {
  readonly body: BodySize
  readonly leanPx: Point
  /** Which sides are seen by the edge of their foot. */
  readonly atFoot: readonly boolean[]
}

/** Long edges are looked at in more places, so that weak ones stand out of the noise. */
const MOST_PER_EDGE = 72

/** The four sides of a body, each `grownMm` further out than its size says. */
export const edgesFor = (
  { pxPerMm }: BoardPlane,
  { body, leanPx }: Outline,
  { rotationDeg }: Pose,
  grownMm = 0,
): OutlineEdge[] =>
  outlineEdges(
    {
      widthPx: (body.widthMm + 2 * grownMm) * pxPerMm,
      lengthPx: (body.lengthMm + 2 * grownMm) * pxPerMm,
      angleDeg: rotationDeg,
      leanPx,
      footShare: body.footShare,
    },
    MOST_PER_EDGE,
  )

interface Side {
  readonly edge: OutlineEdge
  readonly pose: Pose
  readonly atFoot: boolean
}

/** Places along a side, at the edge of its top or of its foot. */
export function spotsOf(frame: BoardPlane, { edge, pose, atFoot }: Side): EdgeSpot[] {
  const middle = toRaster(frame, pose.at)
  const outPx = atFoot ? edge.footPx : 0
  const across = { x: edge.outX, y: edge.outY }
  return Array.from(edge.x, (dx, i) => ({
    at: { x: middle.x + dx + edge.outX * outPx, y: middle.y + (edge.y[i] ?? 0) + edge.outY * outPx },
    across,
  }))
}

export type Sign = -1 | 1

/** The edges across the spots of one side in one colour. */
export type EdgesOfSide = readonly ReturnType<typeof edgesAcross>[]

export interface ClearPlane {
  /** Of the colour, among the planes. */
  readonly plane: number
  readonly sign: Sign
}

/** What is seen across spots in each colour. */
export const edgesIn = (planes: readonly BoardPlane[], spots: readonly EdgeSpot[], reachPx: number): EdgesOfSide[] =>
  planes.map((plane) => spots.map((spot) => edgesAcross(plane, spot, { reachPx, alongPx: 2 })))

/** The colour in which an edge is clearest: where the strongest slopes across it add up to most, all of one sign. */
export function clearestOf(colours: readonly EdgesOfSide[]): ClearPlane {
  let best: ClearPlane = { plane: 0, sign: 1 }
  let most = -1
  for (const [plane, edges] of colours.entries()) {
    const rising = edges.reduce((sum, each) => sum + (each[0]?.slope ?? 0), 0)
    if (Math.abs(rising) <= most) continue
    most = Math.abs(rising)
    best = { plane, sign: rising < 0 ? -1 : 1 }
  }
  return best
}
