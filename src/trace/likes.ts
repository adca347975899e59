/** Finding the likes of a part: its patch is looked for over the whole board in four rotations, then each find is snapped. */
import { distance, type Point } from '../base/index.ts'
import { type Camera, topSeenAt } from './camera.ts'
import { type CorrelationMap, correlationMap, correlationOf } from './correlate.ts'
import {
  atScale,
  type BoardPlane,
  type BoardRaster,
  fromRaster,
  greyAt,
  type GreyImage,
  planesOf,
  toRaster,
} from './image.ts'
import { type BodySize, type Pose } from './snap-fit.ts'
import { snap, type SnapWish } from './snap.ts'

export interface LikesWish {
  readonly body: SnapWish['body']
  /** Where the first one stands, in board mm. */
  readonly first: { readonly at: Point; readonly rotationDeg: number }
  readonly camera?: Camera | undefined
  /** Says how far it is, 0 to 1. */
  readonly onShare?: (share: number) => void
  /** Ends the search with what was found so far. */
  readonly isCancelled?: () => boolean
}

export interface Like {
  /** Where it stands, in board mm. */
  readonly at: Point
  /** Turned like the first one and so many quarters more, in degrees. */
  readonly rotationDeg: number
  /** How alike it is, 0 to 1: how its picture agrees, times how its outline does. */
  readonly score: number
}

/** Pixels of the patch in the search over the whole board, and how many a millimetre has there. */
const PATCH_PX = 220
const SCALE = { least: 1.1, most: 4 }
/** How much of the board about the body belongs to the patch, in mm: its edge tells it from others. */
const MARGIN_MM = 0.6
/** Peaks below this are chance. Chosen on rendered photos, as are the next four. */
const LEAST_PEAK = 0.4
const LEAST_SCORE = 0.4
const MOST_PEAKS = 120
/** Those of less than this share of the best one’s score are other parts. */
const LEAST_OF_BEST = 0.55
/** After so many peaks that were none, one after the other, no more are looked at. */
const MOST_STRANGERS = 8
/** How far a peak’s middle may be off, in mm. */
const PEAK_REACH_MM = 1
/** Pixels per mm at which half turns are told apart. */
const CLOSE_PX_PER_MM = 5

/**
 * Every part that looks like the first one, the most alike first, the first one itself left out. Coarse to fine: correlation
 * maps of four rotations at about 220 pixels a patch, their peaks with no other near, then `snap` for the place, and the
 * patch once more at 5 px/mm for which way round it stands.
 */
export function findLikes(raster: BoardRaster, wish: LikesWish): Like[] {
  const { body, first, camera, onShare, isCancelled } = wish
  const firstTop = {
    at: camera === undefined ? first.at : topSeenAt(camera, first.at, body.heightMm),
    rotationDeg: first.rotationDeg,
  }
  const peaks = peaksOver(raster, { wish, firstTop })
  const close = closeUp(raster, body)
  const model = patchAt(close, body, firstTop)
  const found: Like[] = []
  let strangers = 0
  for (const [i, peak] of peaks.entries()) {
    if (isCancelled?.() === true || strangers >= MOST_STRANGERS) break
    onShare?.(0.5 + (0.5 * i) / peaks.length)
    if (distance(peak.at, firstTop.at) < leastApartMm(body)) continue
    const like = likeAt(raster, wish, { peak, close, model })
    const isNew = like !== undefined && !found.some((other) => distance(other.at, like.at) < leastApartMm(body))
    if (isNew) found.push(like)
    strangers = isNew ? 0 : strangers + 1
  }
  onShare?.(1)
  const best = found.reduce((most, { score }) => Math.max(most, score), 0)
  return found.filter(({ score }) => score >= LEAST_OF_BEST * best).toSorted((a, b) => b.score - a.score)
}

/** Two of a kind can't stand nearer to each other, middle to middle. */
const leastApartMm = ({ widthMm, lengthMm }: BodySize): number => Math.min(widthMm, lengthMm) / 2

interface Looked {
  readonly peak: Peak
  readonly close: BoardPlane
  /** The first one, close up and upright. */
  readonly model: GreyImage
}

function likeAt(raster: BoardRaster, { body, camera }: LikesWish, { peak, close, model }: Looked): Like | undefined {
  const snapped = snap(raster, { body, click: peak.at, camera, anglesDeg: [peak.rotationDeg], reachMm: PEAK_REACH_MM })
  if (!snapped.ok) return undefined
  const { at, topAt, rotationDeg, score: outline } = snapped.value
  const turns = turnsOf(body).map((turn) => {
    const turned = rotationDeg + turn
    return { turned, alike: correlationOf(patchAt(close, body, { at: topAt, rotationDeg: turned }), model) }
  })
  const best = turns.reduce((a, b) => (b.alike > a.alike ? b : a))
  const score = Math.max(0, Math.max(best.alike, peak.value)) * Math.min(1, outline)
  return score < LEAST_SCORE ? undefined : { at, rotationDeg: wrapped(best.turned), score }
}

/** A square stands the same way four times, other rectangles twice. */
const turnsOf = ({ widthMm, lengthMm }: BodySize): number[] =>
  Math.abs(widthMm - lengthMm) < 0.02 * widthMm ? [0, 90, 180, 270] : [0, 180]

const wrapped = (degrees: number): number => ((degrees % 360) + 360) % 360

interface PeakWish {
  readonly wish: LikesWish
  readonly firstTop: Pose
}

interface Peak extends Pose {
  readonly value: number
}

function peaksOver(raster: BoardRaster, { wish: { body, isCancelled, onShare }, firstTop }: PeakWish): Peak[] {
  const areaMm2 = (body.widthMm + 2 * MARGIN_MM) * (body.lengthMm + 2 * MARGIN_MM)
  const scale = Math.max(SCALE.least, Math.min(SCALE.most, Math.sqrt(PATCH_PX / areaMm2)))
  const plane = clearestPlane(
    planesOf(raster).map((each) => atScale(each, scale)),
    body,
    firstTop,
  )
  const upright = patchAt(plane, body, firstTop)
  const peaks: Peak[] = []
  let patch = upright
  for (let quarter = 0; quarter < 4; quarter++) {
    if (isCancelled?.() === true) return []
    const map = correlationMap(plane, patch)
    for (const { x, y, value } of peaksIn(map)) {
      const at = fromRaster(plane, { x: x + patch.widthPx / 2, y: y + patch.heightPx / 2 })
      peaks.push({ at, value, rotationDeg: 90 * quarter + nearestQuarterRest(firstTop.rotationDeg) })
    }
    patch = quarterTurned(patch)
    onShare?.((quarter + 1) / 8)
  }
  return withoutNear(peaks, 0.4 * Math.min(body.widthMm, body.lengthMm)).slice(0, MOST_PEAKS)
}

/** How far an angle is from the nearest quarter turn. */
const nearestQuarterRest = (degrees: number): number => degrees - 90 * Math.round(degrees / 90)

/** The colour in which the first one stands out most. */
function clearestPlane(planes: readonly BoardPlane[], body: BodySize, pose: Pose): BoardPlane {
  const spreads = planes.map((plane) => spreadOf(patchAt(plane, body, pose)))
  const best = planes[spreads.indexOf(Math.max(...spreads))]
  if (best === undefined) throw new Error('a raster without planes')
  return best
}

function spreadOf({ grey }: GreyImage): number {
  let sum = 0
  let square = 0
  for (const value of grey) {
    sum += value
    square += value * value
  }
  return square / grey.length - (sum / grey.length) ** 2
}

function closeUp(raster: BoardRaster, body: BodySize): BoardPlane {
  const [red, green, blue] = planesOf(raster).map((plane) => atScale(plane, Math.min(raster.pxPerMm, closeScale(body))))
  const plane = green ?? red ?? blue
  if (plane === undefined) throw new Error('a raster without planes')
  return plane
}

/** Large bodies need fewer pixels a millimetre to be told which way round they stand. */
const closeScale = ({ widthMm, lengthMm }: BodySize): number =>
  Math.min(CLOSE_PX_PER_MM, 70 / Math.min(widthMm, lengthMm))

/** A body with its margin, upright as in its own drawing. */
function patchAt(plane: BoardPlane, { widthMm, lengthMm }: BodySize, { at, rotationDeg }: Pose): GreyImage {
  const { pxPerMm } = plane
  const widthPx = Math.max(3, Math.round((widthMm + 2 * MARGIN_MM) * pxPerMm))
  const heightPx = Math.max(3, Math.round((lengthMm + 2 * MARGIN_MM) * pxPerMm))
  const angle = (rotationDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const middle = toRaster(plane, at)
  const grey = new Float32Array(widthPx * heightPx)
  for (let row = 0, to = 0; row < heightPx; row++) {
    const v = row + 0.5 - heightPx / 2
    for (let column = 0; column < widthPx; column++, to++) {
      const u = column + 0.5 - widthPx / 2
      grey[to] = greyAt(plane, middle.x + u * cos + v * sin, middle.y - u * sin + v * cos)
    }
  }
  return { widthPx, heightPx, grey }
}

/** By a quarter counter-clockwise, as it is seen. */
function quarterTurned({ widthPx, heightPx, grey }: GreyImage): GreyImage {
  const turned = new Float32Array(grey.length)
  for (let row = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++)
      turned[(widthPx - 1 - column) * heightPx + row] = grey[row * widthPx + column] ?? 0
  return { widthPx: heightPx, heightPx: widthPx, grey: turned }
}

interface MapPeak {
  readonly x: number
  readonly y: number
  readonly value: number
}

/** Places above all eight neighbours and above chance. */
function peaksIn({ widthPx, heightPx, values }: CorrelationMap): MapPeak[] {
  const peaks: MapPeak[] = []
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const value = values[y * widthPx + x] ?? 0
      if (value < LEAST_PEAK) continue
      let highest = true
      for (let dy = -1; dy <= 1 && highest; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const inside = x + dx >= 0 && x + dx < widthPx && y + dy >= 0 && y + dy < heightPx
          if (inside && (values[(y + dy) * widthPx + x + dx] ?? 0) > value) highest = false
        }
      if (highest) peaks.push({ x, y, value })
    }
  }
  return peaks
}

/** The highest first; of those near each other only the highest. */
function withoutNear(peaks: readonly Peak[], apartMm: number): Peak[] {
  const kept: Peak[] = []
  for (const peak of peaks.toSorted((a, b) => b.value - a.value)) {
    if (kept.length >= 4 * MOST_PEAKS) break
    if (!kept.some((other) => distance(other.at, peak.at) < apartMm)) kept.push(peak)
  }
  return kept
}
