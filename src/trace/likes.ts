/** Finding the likes of a part: its patch is looked for over the whole board in four rotations, then each find is snapped. */
import { distance, type Point } from '../base/index.ts'
import { type Camera, topSeenAt } from './camera.ts'
import { type CorrelationMap, correlationMap } from './correlate.ts'
import { atMost, atScale, type BoardPlane, type BoardRaster, fromRaster, type GreyImage, planesOf } from './image.ts'
import {
  type Alike,
  alikeNear,
  closeUps,
  MARGIN_MM,
  patchAt,
  quarterTurned,
  ringOf,
  turnedModels,
  withoutSlope,
} from './likes-close.ts'
import type { BodySize, Pose } from './snap-outline.ts'
import { outlineNear, snap, type SnapWish } from './snap.ts'

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

/** Finer than this nothing is told apart better, and the outlines of many parts take long to lay. */
const MOST_PX_PER_MM = 6
/** Pixels of the patch in the search over the whole board, and how many a millimetre has there. */
const PATCH_PX = 300
const SCALE = { least: 1.1, most: 4 }
/** Peaks below this are chance. Chosen on rendered photos, as are the next seven. */
const LEAST_PEAK = 0.35
const MOST_PEAKS = 240
/** Nearer to each other two peaks are one: from each the neighbourhood is looked at. */
const PEAKS_APART_MM = 1.2
/** Close up, those less alike than this, or than this share of the most alike, are other parts. */
const LEAST_ALIKE = 0.3
const LEAST_OF_MOST = 0.6
/** The same part in shade or under glare is less clear, but a chip with bright ends is no black body. */
const GAIN = { least: 0.45, most: 2 }
/** How far the middle may be off that the search before gave, in mm, and what of the above is enough in the first look. */
const FIRST_REACH_MM = 1
const CLOSE_REACH_MM = 0.5
const FIRST_SLACK = 0.8
/** Those of less than this share of the best one’s score are other parts. */
const LEAST_OF_BEST = 0.56
/** After so many that were none, one after the other, no more are snapped. */
const MOST_STRANGERS = 10
/** How far the outline may be looked for from where the picture lies best, and how far it may be found, in mm. */
const SNAP_REACH_MM = 0.6
const MOST_MOVED_MM = 0.4
/** What an exact fit may add to the outline's score. */
const COARSE_SLACK = 0.15

/**
 * Every part that looks like the first one, the most alike first, the first one itself left out. Coarse to fine: correlation
 * maps of four rotations at about 300 pixels a patch, their peaks with no other near, then in all colours at 4 px/mm; what is
 * alike there is snapped, and is a like where its outline lies where its picture does.
 */
export function findLikes(whole: BoardRaster, wish: LikesWish): Like[] {
  const raster = atMost(whole, MOST_PX_PER_MM)
  const { body, first, camera, onShare, isCancelled } = wish
  const firstTop = {
    at: camera === undefined ? first.at : topSeenAt(camera, first.at, body.heightMm),
    rotationDeg: first.rotationDeg,
  }
  const peaks = peaksOver(raster, { wish, firstTop })
  const apartMm = leastApartMm(body)
  const planes = closeUps(raster, body)
  const others = peaks.filter(({ at }) => distance(at, firstTop.at) >= apartMm)
  const onLook = (share: number): void => onShare?.(0.5 + 0.2 * share)
  const seen = alikeAmong(planes.first, others, { wish, firstTop, reachMm: FIRST_REACH_MM, slack: FIRST_SLACK, onLook })
  const worth = withoutNear(
    alikeAmong(planes.close, seen, { wish, firstTop, reachMm: CLOSE_REACH_MM, slack: 1 }),
    apartMm,
  )
  const found: Like[] = []
  let best = 0
  let strangers = 0
  for (const [i, candidate] of worth.entries()) {
    if (isCancelled?.() === true || strangers >= MOST_STRANGERS) break
    onShare?.(0.7 + (0.3 * i) / worth.length)
    const like = likeAt(raster, wish, candidate, LEAST_OF_BEST * best)
    strangers++
    if (like === undefined || found.some((other) => distance(other.at, like.at) < apartMm)) continue
    strangers = 0
    found.push(like)
    best = Math.max(best, like.score)
  }
  onShare?.(1)
  return found.filter(({ score }) => score >= LEAST_OF_BEST * best).toSorted((a, b) => b.score - a.score)
}

interface Look {
  readonly wish: LikesWish
  readonly firstTop: Pose
  readonly reachMm: number
  /** Share of what is asked for that is enough. */
  readonly slack: number
  readonly onLook?: (share: number) => void
}

/** Those of some places that are alike enough to the first one, as strong in contrast too, each where it is most alike. */
function alikeAmong(planes: readonly BoardPlane[], places: readonly Pose[], look: Look): Alike[] {
  const { body, isCancelled } = look.wish
  const models = turnedModels(planes, body, look.firstTop)
  const alike: Alike[] = []
  for (const [i, near] of places.entries()) {
    if (isCancelled?.() === true) return []
    if (i % 16 === 0) look.onLook?.(i / places.length)
    alike.push(alikeNear(planes, { body, models, near, reachMm: look.reachMm }))
  }
  const most = alike.reduce((best, { value }) => Math.max(best, value), 0)
  const least = look.slack * Math.max(LEAST_ALIKE, LEAST_OF_MOST * most)
  return alike.filter(({ value, gain }) => value >= least && gain >= GAIN.least && gain <= GAIN.most)
}

/** Two of a kind can't stand nearer to each other, middle to middle. */
const leastApartMm = ({ widthMm, lengthMm }: BodySize): number => Math.min(widthMm, lengthMm) / 2

/** @param least a score below which it is another part */
function likeAt(
  raster: BoardRaster,
  { body, camera }: LikesWish,
  { at, rotationDeg, value }: Alike,
  least: number,
): Like | undefined {
  const wish = { body, click: at, camera, anglesDeg: [rotationDeg], reachMm: SNAP_REACH_MM }
  if (value * (outlineNear(raster, wish) + COARSE_SLACK) < least) return undefined
  const snapped = snap(raster, wish)
  if (!snapped.ok) return undefined
  const { topAt, score: outline } = snapped.value
  const score = value * Math.min(1, outline)
  if (score < least || distance(topAt, at) > MOST_MOVED_MM) return undefined
  return { at: snapped.value.at, rotationDeg: wrapped(snapped.value.rotationDeg), score }
}

const wrapped = (degrees: number): number => ((degrees % 360) + 360) % 360

interface Peak extends Pose {
  readonly value: number
  /** Quarter turns from the first one’s own axis. */
  readonly quarter: number
}

interface PeakWish {
  readonly wish: LikesWish
  readonly firstTop: Pose
}

function peaksOver(raster: BoardRaster, { wish: { body, isCancelled, onShare }, firstTop }: PeakWish): Peak[] {
  const areaMm2 = (body.widthMm + 2 * MARGIN_MM) * (body.lengthMm + 2 * MARGIN_MM)
  const scale = Math.max(SCALE.least, Math.min(SCALE.most, Math.sqrt(PATCH_PX / areaMm2)))
  const plane = clearestPlane(
    planesOf(raster).map((each) => atScale(each, scale)),
    body,
    firstTop,
  )
  const peaks: Peak[] = []
  let patch = withoutSlope(patchAt(plane, body, firstTop), ringOf(plane))
  for (let quarter = 0; quarter < 4; quarter++) {
    if (isCancelled?.() === true) return []
    const map = correlationMap(plane, patch)
    for (const { x, y, value } of peaksIn(map)) {
      const at = fromRaster(plane, { x: x + patch.widthPx / 2, y: y + patch.heightPx / 2 })
      peaks.push({ at, value, quarter, rotationDeg: 90 * quarter + nearestQuarterRest(firstTop.rotationDeg) })
    }
    patch = quarterTurned(patch)
    onShare?.((quarter + 1) / 8)
  }
  // what lies across may be the stronger peak, a little aside, and still be none
  const along = peaks.filter(({ quarter }) => quarter % 2 === 0)
  const across = peaks.filter(({ quarter }) => quarter % 2 === 1)
  return [along, across]
    .flatMap((each) => withoutNear(each, PEAKS_APART_MM))
    .toSorted((a, b) => b.value - a.value)
    .slice(0, MOST_PEAKS)
}

/** How far an angle is from the nearest quarter turn. */
const nearestQuarterRest = (degrees: number): number => degrees - 90 * Math.round(degrees / 90)

/** The colour in which the first one stands out most. */
function clearestPlane(planes: readonly BoardPlane[], body: BodySize, pose: Pose): BoardPlane {
  const spread = (plane: BoardPlane): number => spreadOf(patchAt(plane, body, pose))
  return planes.reduce((best, plane) => (spread(plane) > spread(best) ? plane : best))
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
function withoutNear<Place extends Pose & { readonly value: number }>(
  peaks: readonly Place[],
  apartMm: number,
): Place[] {
  const kept: Place[] = []
  for (const peak of peaks.toSorted((a, b) => b.value - a.value)) {
    if (kept.length >= 4 * MOST_PEAKS) break
    if (!kept.some((other) => distance(other.at, peak.at) < apartMm)) kept.push(peak)
  }
  return kept
}
