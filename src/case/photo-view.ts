/** A photo's view of the board: from its four matched corners to what has to be sampled to see it from above. */
import {
  applied,
  bad,
  type Box,
  boxOf,
  good,
  type Homography,
  homographyFrom,
  inverted,
  multiplied,
  type Point,
  type Result,
  signedArea,
  say,
} from '../base/index.ts'
import type { Photo } from './schema.ts'

export type MatchedCorners = NonNullable<Photo['corners']>

/** The raster of a straightened photo, and where each of its pixels is found in the photo. */
export interface PhotoSampling {
  /** The board box that the raster covers, its first row along `maxY`, seen from the top whichever side it shows. */
  readonly box: Box
  readonly width: number
  readonly height: number
  /** The photo is brought to this size first, so that no pixel of the raster skips over several of its own. */
  readonly sourceWidth: number
  readonly sourceHeight: number
  /** From pixels of the raster to pixels of the photo as brought to that size. */
  readonly toSource: Homography
}

type Seen = Pick<Photo, 'side' | 'widthPx' | 'heightPx'>

/**
 * From board mm to photo pixels. In a photo y runs down: of the top side it shows the board turned over against the
 * board's own axes, of the bottom side, which it sees from behind, the two cancel.
 * Refuses what `homographyFrom` refuses, in words about photo and board.
 */
export function viewOf(side: Photo['side'], corners: MatchedCorners): Result<Homography> {
  const pairs = corners.map(({ px, at }) => ({ from: at, to: px }))
  const made = homographyFrom(pairs, side === 'top' ? 'turned over' : 'kept')
  if (made.ok) return made
  return bad(
    ...made.faults.map((fault) => ({
      ...fault,
      path: fault.path.replace('the first plane', 'the board').replace('the second plane', 'the photo'),
    })),
  )
}

/**
 * @param mostPx the raster is made no larger; it is no finer than the photo either
 * Refuses corners that give no view, and a photo that shows nothing of the board.
 */
export function samplingOf(photo: Seen, corners: MatchedCorners, board: Box, mostPx: number): Result<PhotoSampling> {
  const view = viewOf(photo.side, corners)
  if (!view.ok) return view
  const box = shownBox(photo, corners, view.value, board)
  if (box === undefined) return bad(nothingShown)
  const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY]
  const density = densityOf(corners)
  const pxPerMm = Math.min(density, Math.sqrt(mostPx / (widthMm * heightMm)))
  const width = Math.max(1, Math.floor(widthMm * pxPerMm))
  const height = Math.max(1, Math.floor(heightMm * pxPerMm))
  const shrink = Math.min(1, pxPerMm / density)
  const sourceWidth = Math.max(1, Math.round(photo.widthPx * shrink))
  const sourceHeight = Math.max(1, Math.round(photo.heightPx * shrink))
  const toBoard: Homography = [widthMm / width, 0, box.minX, 0, -heightMm / height, box.maxY, 0, 0, 1]
  const toSized: Homography = [sourceWidth / photo.widthPx, 0, 0, 0, sourceHeight / photo.heightPx, 0, 0, 0, 1]
  const toSource = multiplied(toSized, multiplied(view.value, toBoard))
  return good({ box, width, height, sourceWidth, sourceHeight, toSource })
}

/** Pixels of the photo to a millimetre of the board, over the matched corners. */
function densityOf(corners: MatchedCorners): number {
  const px = Math.abs(signedArea(corners.map((corner) => corner.px)))
  const mm2 = Math.abs(signedArea(corners.map((corner) => corner.at)))
  return Math.sqrt(px / mm2)
}

/** What of the board the photo shows; all of it where the photo's frame runs beyond its horizon. */
function shownBox({ widthPx, heightPx }: Seen, corners: MatchedCorners, view: Homography, board: Box): Box | undefined {
  const back = inverted(view)
  const ahead = Math.sign(depthAt(back, corners[0]?.px ?? { x: 0, y: 0 }))
  const frame = [
    { x: 0, y: 0 },
    { x: widthPx, y: 0 },
    { x: widthPx, y: heightPx },
    { x: 0, y: heightPx },
  ]
  if (frame.some((corner) => depthAt(back, corner) * ahead <= 0)) return board
  const seen = boxOf(frame.map((corner) => applied(back, corner)))
  const box = {
    minX: Math.max(board.minX, seen.minX),
    minY: Math.max(board.minY, seen.minY),
    maxX: Math.min(board.maxX, seen.maxX),
    maxY: Math.min(board.maxY, seen.maxY),
  }
  return box.maxX > box.minX && box.maxY > box.minY ? box : undefined
}

const depthAt = (h: Homography, { x, y }: Point): number => h[6] * x + h[7] * y + h[8]

const nothingShown = {
  path: 'corners',
  found: say('a photo beside the board'),
  expected: say('a photo that shows some of it'),
  todo: say('Look at the places on the board again.'),
}

/** The corners of a board's box as they are seen when its side lies up: lower left first, then on to the right. */
export function cornersSeen(
  side: Photo['side'],
  { minX, minY, maxX, maxY }: Box,
): readonly [Point, Point, Point, Point] {
  const [left, right] = side === 'top' ? [minX, maxX] : [maxX, minX]
  return [
    { x: left, y: minY },
    { x: right, y: minY },
    { x: right, y: maxY },
    { x: left, y: maxY },
  ]
}
