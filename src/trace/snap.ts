/** Snapping: from a click in a package of known size to where it stands and how it is turned. */
import { bad, distance, good, type Point, type Result, say } from '../base/index.ts'
import { bodyContrast, STRIP_MM } from './body-contrast.ts'
import { type Camera, seatedAt, topSeenAt } from './camera.ts'
import { atScale, type BoardPlane, type BoardRaster, fromRaster, gradientOf, planesOf, toRaster } from './image.ts'
import { agreedOutline, outlineEdges, outlineScore, slopeFloor, type Slopes } from './outline-score.ts'
import { fittedPose } from './snap-fit.ts'
import type { BodySize, Pose } from './snap-outline.ts'

export interface Snapped {
  /** Where it stands, in board mm. */
  readonly at: Point
  /** Middle of its top as it is seen, in board mm. */
  readonly topAt: Point
  /** Counter-clockwise in degrees: a rectangle says nothing of half turns, a square nothing of quarter turns. */
  readonly rotationDeg: number
  /** How well the outline lies on edges, 0 to 1. */
  readonly score: number
  /** Share of the outline in exactly this size that has an edge in its place, 0 to 1. */
  readonly fit: number
}

export interface SnapWish {
  readonly body: BodySize & { readonly heightMm: number }
  /** Where it was clicked, in board mm: anywhere on its top. */
  readonly click: Point
  /** Left out, the board is seen straight from above everywhere. */
  readonly camera?: Camera | undefined
  /** Angles to try, in degrees; quarter turns where left out, and all others where those don’t fit. */
  readonly anglesDeg?: readonly number[]
  /** How far its middle may be from the click, in mm; to the body’s edge where left out. */
  readonly reachMm?: number
}

const SIZE = { least: 0.8, most: 120 }
/** Below this no outline is there. Chosen on rendered photos. */
const LEAST_SCORE = 0.3
/** From here on an outline is surely there. */
const SURE_SCORE = 0.5
const OTHER_ANGLES = Array.from({ length: 36 }, (_, i) => i * 5 - 90)

/**
 * Where a body of known size stands around a click. The outline is laid over the picture’s slopes at about 40 pixels a side, then
 * fitted to the edges between pixels; what its height and the camera’s place shift is taken off.
 * Refuses bodies outside of 0.8 to 120 mm, clicks off the picture, and places without an outline of that size.
 */
export function snap(raster: BoardRaster, asked: SnapWish): Result<Snapped> {
  const wish = asSeen(asked)
  const { body, click, camera } = wish
  if (!isSize(asked.body.widthMm) || !isSize(asked.body.lengthMm))
    return bad({
      path: 'size',
      found: `${asked.body.widthMm} × ${asked.body.lengthMm} mm`,
      expected: say('{least} to {most} mm each way', { least: SIZE.least, most: SIZE.most }),
    })
  const middle = toRaster(raster, click)
  if (middle.x < 0 || middle.y < 0 || middle.x > raster.widthPx || middle.y > raster.heightPx)
    return bad({ path: 'click', found: say('a place off the photo'), expected: say('a place on the board') })
  const leanMm = leanAt(wish)
  const patch = patchAround(raster, {
    at: click,
    reachMm: reachOf(wish) + halfDiagonal(body) + 1,
    pxPerMm: coarseScale(body),
  })
  const around = { body, leanMm, click, reachMm: reachOf(wish) }
  const coarse = coarseStart(patch, around, asked.anglesDeg)
  const fine = patchAround(raster, {
    at: coarse.at,
    reachMm: halfDiagonal(body) + Math.hypot(leanMm.x, leanMm.y) + 2,
    pxPerMm: raster.pxPerMm,
  })
  const {
    at: topAt,
    rotationDeg,
    fit,
    leanShare,
  } = fittedPose(fine.planes, {
    body,
    starts: [...finerStarts(fine, { body, leanMm }, coarse), ...contrastStart(patch, around, coarse)],
    leanMm,
    worth: (pose) => bestNear(fine, { body, leanMm }, pose) * contrastWorth(fine, { body, leanMm }, pose),
  })
  const score = bestNear(patch, { body, leanMm }, { at: topAt, rotationDeg })
  if (score < LEAST_SCORE)
    return bad({
      path: 'click',
      found: say('no outline of {widthMm} × {lengthMm} mm', {
        widthMm: asked.body.widthMm,
        lengthMm: asked.body.lengthMm,
      }),
      expected: say('a body of that size around the click'),
      todo: say('Check the size, or place it by hand.'),
    })
  return good({
    at: camera === undefined ? topAt : footOf(topAt, seatedAt(camera, topAt, body.heightMm), leanShare),
    topAt,
    rotationDeg,
    score,
    fit,
  })
}

const footOf = (top: Point, foot: Point, leanShare: number): Point => ({
  x: top.x + leanShare * (foot.x - top.x),
  y: top.y + leanShare * (foot.y - top.y),
})

/**
 * How well an outline of that size lies on edges near a place, 0 to 1, without making it exact: what `snap` begins with.
 * The wish is one that `snap` takes.
 */
export function outlineNear(raster: BoardRaster, wish: SnapWish): number {
  const { body, click } = asSeen(wish)
  const reachMm = reachOf(wish) + halfDiagonal(body) + 1
  const patch = patchAround(raster, { at: click, reachMm, pxPerMm: coarseScale(body) })
  return bestAmong(patch, { body, leanMm: leanAt(wish), click, reachMm: reachOf(wish) }, wish.anglesDeg ?? [0]).score
}

const isSize = (mm: number): boolean => mm >= SIZE.least && mm <= SIZE.most
const halfDiagonal = ({ widthMm, lengthMm }: BodySize): number => Math.hypot(widthMm, lengthMm) / 2
const reachOf = ({ reachMm, body }: SnapWish): number => reachMm ?? halfDiagonal(body)

/** The top is nearer to the camera than the board, and seen larger by so much. */
function asSeen(wish: SnapWish): SnapWish {
  const { camera, body } = wish
  if (camera === undefined) return wish
  const { widthMm, lengthMm, heightMm } = body
  const share = camera.heightMm / Math.max(1, camera.heightMm - heightMm)
  return { ...wish, body: { widthMm: widthMm * share, lengthMm: lengthMm * share, heightMm, footShare: 1 / share } }
}

/** How far the top is seen from the foot, in mm. */
function leanAt({ camera, click, body }: SnapWish): Point {
  if (camera === undefined) return { x: 0, y: 0 }
  const foot = seatedAt(camera, click, body.heightMm)
  const top = topSeenAt(camera, foot, body.heightMm)
  return { x: top.x - foot.x, y: top.y - foot.y }
}

/** The part of the raster around a place, with its slopes, at a scale that fits the body. */
interface Patch {
  readonly frame: BoardPlane
  readonly planes: readonly [BoardPlane, ...BoardPlane[]]
  readonly colours: readonly Slopes[]
}

/** Pixels along the shorter side of the body in the coarse search, and how many pixels a millimetre has there at least. */
const COARSE_SIDE_PX = 40
const COARSE_PX_PER_MM = 2.5

const coarseScale = ({ widthMm, lengthMm }: BodySize): number =>
  Math.max(COARSE_PX_PER_MM, COARSE_SIDE_PX / Math.min(widthMm, lengthMm))

interface PatchWish {
  readonly at: Point
  readonly reachMm: number
  readonly pxPerMm: number
}

function patchAround(raster: BoardRaster, { at, reachMm, pxPerMm }: PatchWish): Patch {
  const planes = planesOf(raster).map((plane) =>
    atScale(cropped(plane, at, reachMm), Math.min(raster.pxPerMm, pxPerMm)),
  )
  const colours = planes.map((plane): Slopes => {
    const gradient = gradientOf(plane)
    return { gradient, floor: slopeFloor(gradient) }
  })
  const [frame, ...others] = planes
  if (frame === undefined) throw new Error('a raster without planes')
  return { frame, planes: [frame, ...others], colours }
}

/** A square of the raster, as far as it goes. */
function cropped(raster: BoardPlane, at: Point, reachMm: number): BoardPlane {
  const middle = toRaster(raster, at)
  const reach = Math.ceil(reachMm * raster.pxPerMm)
  const left = Math.max(0, Math.floor(middle.x) - reach)
  const top = Math.max(0, Math.floor(middle.y) - reach)
  const widthPx = Math.max(1, Math.min(raster.widthPx, Math.ceil(middle.x) + reach) - left)
  const heightPx = Math.max(1, Math.min(raster.heightPx, Math.ceil(middle.y) + reach) - top)
  const grey = new Float32Array(widthPx * heightPx)
  for (let row = 0; row < heightPx; row++) {
    const from = (top + row) * raster.widthPx + left
    for (let column = 0; column < widthPx; column++) grey[row * widthPx + column] = raster.grey[from + column] ?? 0
  }
  const corner = fromRaster(raster, { x: left, y: top })
  return { widthPx, heightPx, grey, pxPerMm: raster.pxPerMm, minXMm: corner.x, maxYMm: corner.y }
}

function coarseStart(patch: Patch, around: Around, anglesDeg?: readonly number[]): Pose {
  const { body } = around
  const isSquare = Math.abs(body.widthMm - body.lengthMm) < 0.02 * body.widthMm
  const straight = bestAmong(patch, around, anglesDeg ?? (isSquare ? [0] : [0, 90]))
  if (anglesDeg !== undefined || straight.score >= SURE_SCORE) return straight
  const others = OTHER_ANGLES.filter((angle) => angle % 90 !== 0 && (!isSquare || Math.abs(angle) <= 45))
  const turned = bestAmong(patch, around, others)
  return turned.score > straight.score + 0.1 ? turned : straight
}

/** How far around the coarse start the outline is tried at the raster’s own scale, in mm. */
const FINER_REACH_MM = 0.8

/** Starts nearer to each other are one. */
const SAME_START_MM = 0.15

/**
 * What stands in rows beside a body pulls the coarse outline off its edges: the same once more, looked at closely. Where the
 * outline lies elsewhere when all its edges must go the same way, darker or brighter outwards, it may be there as well.
 */
function finerStarts({ frame, colours }: Patch, leaning: Leaning, start: Pose): [Pose, ...Pose[]] {
  const edges = edgesAt(frame, leaning, start.rotationDeg)
  const middle = toRaster(frame, start.at)
  const reachPx = Math.ceil(FINER_REACH_MM * frame.pxPerMm)
  const best = { any: { at: middle, score: -1 }, agreed: { at: middle, score: -1 } }
  for (let dy = -reachPx; dy <= reachPx; dy++) {
    for (let dx = -reachPx; dx <= reachPx; dx++) {
      const at = { x: middle.x + dx, y: middle.y + dy }
      const any = outlineScore(colours, edges, at)
      if (any > best.any.score) best.any = { at, score: any }
      const agreed = agreedOutline(colours, edges, at)
      if (agreed > best.agreed.score) best.agreed = { at, score: agreed }
    }
  }
  const poseAt = (at: Point): Pose => ({ ...start, at: fromRaster(frame, at) })
  const apartMm = distance(best.any.at, best.agreed.at) / frame.pxPerMm
  const first = poseAt(best.any.at)
  return apartMm < SAME_START_MM ? [first] : [first, poseAt(best.agreed.at)]
}

/** How much of a pose’s worth hangs on the whole body standing out. Chosen on rendered photos. */
const CONTRAST_SHARE = 0.8

function contrastWorth({ frame, planes }: Patch, leaning: Leaning, { at, rotationDeg }: Pose): number {
  const edges = edgesAt(frame, leaning, rotationDeg)
  const contrast = bodyContrast(planes, edges, toRaster(frame, at), frame.pxPerMm)
  return 1 - CONTRAST_SHARE + CONTRAST_SHARE * contrast
}

interface Leaning {
  readonly body: BodySize
  readonly leanMm: Point
}

interface Around extends Leaning {
  readonly click: Point
  readonly reachMm: number
}

const edgesAt = ({ pxPerMm }: BoardPlane, { body, leanMm }: Leaning, angleDeg: number) =>
  outlineEdges({
    widthPx: body.widthMm * pxPerMm,
    lengthPx: body.lengthMm * pxPerMm,
    angleDeg,
    leanPx: { x: leanMm.x * pxPerMm, y: -leanMm.y * pxPerMm },
    footShare: body.footShare,
  })

/** Hands click the middle rather than the edge: what this takes off at the edge. */
const OFF_MIDDLE = 0.06

function bestAmong(
  { frame, colours }: Patch,
  around: Around,
  anglesDeg: readonly number[],
): Pose & { readonly score: number } {
  let best = { at: around.click, rotationDeg: anglesDeg[0] ?? 0, score: -1 }
  for (const angleDeg of anglesDeg) {
    const edges = edgesAt(frame, around, angleDeg)
    const worth = (at: Point): number => outlineScore(colours, edges, at)
    const found = bestAround(frame, around, { angleDeg, stepPx: 1, offMiddle: OFF_MIDDLE, worth })
    if (found.score > best.score) best = { ...found, rotationDeg: angleDeg }
  }
  return best
}

/** The same for standing out, which may be more where something else is meant. */
const CONTRAST_OFF_MIDDLE = 0.3

/** Where most stands out from the board about it: a dark body on a dark board has fainter edges than what is written on it. */
function contrastStart({ frame, planes }: Patch, around: Around, start: Pose): Pose[] {
  const { pxPerMm } = frame
  const edges = edgesAt(frame, around, start.rotationDeg)
  const { at } = bestAround(frame, around, {
    angleDeg: start.rotationDeg,
    // what stands out shows in a strip’s width; the fit goes the rest of the way
    stepPx: Math.max(1, Math.floor(STRIP_MM * pxPerMm)),
    offMiddle: CONTRAST_OFF_MIDDLE,
    worth: (place) => bodyContrast(planes, edges, place, pxPerMm),
  })
  return distance(at, start.at) < SAME_START_MM ? [] : [{ ...start, at }]
}

interface PlaceSearch {
  readonly angleDeg: number
  readonly stepPx: number
  /** What is taken off at the body’s edge. */
  readonly offMiddle: number
  /** How well it stands at a place in pixels. */
  readonly worth: (at: Point) => number
}

/** The best of the places around a click, in board mm, that a body under the click may have. */
function bestAround(
  frame: BoardPlane,
  { body, click, reachMm }: Around,
  { angleDeg, stepPx, offMiddle, worth }: PlaceSearch,
): { readonly at: Point; readonly score: number } {
  const { pxPerMm } = frame
  const middle = toRaster(frame, click)
  const reachPx = Math.ceil(reachMm * pxPerMm)
  let best = { at: click, score: -1 }
  for (let dy = -reachPx; dy <= reachPx; dy += stepPx) {
    for (let dx = -reachPx; dx <= reachPx; dx += stepPx) {
      const away = shareOut(body, { x: dx / pxPerMm, y: -dy / pxPerMm }, angleDeg)
      if (away > 1) continue
      const at = { x: middle.x + dx, y: middle.y + dy }
      const score = worth(at) - offMiddle * away * away
      if (score > best.score) best = { at: fromRaster(frame, at), score }
    }
  }
  return best
}

/** How far out a place is in a turned body: 0 in its middle, 1 on its edge. */
function shareOut({ widthMm, lengthMm }: BodySize, away: Point, angleDeg: number): number {
  const angle = (angleDeg * Math.PI) / 180
  const x = away.x * Math.cos(angle) + away.y * Math.sin(angle)
  const y = away.y * Math.cos(angle) - away.x * Math.sin(angle)
  return Math.max((2 * Math.abs(x)) / widthMm, (2 * Math.abs(y)) / lengthMm)
}

/** Half a pixel of the coarse picture is no miss. */
function bestNear({ frame, colours }: Patch, leaning: Leaning, { at, rotationDeg }: Pose): number {
  const edges = edgesAt(frame, leaning, rotationDeg)
  const middle = toRaster(frame, at)
  let best = 0
  for (const dx of [-0.7, 0, 0.7])
    for (const dy of [-0.7, 0, 0.7])
      best = Math.max(best, outlineScore(colours, edges, { x: middle.x + dx, y: middle.y + dy }))
  return best
}
