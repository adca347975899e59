/** From what a user shows in a photo to the view of the board: corners with their size, or two points of known distance. */
import {
  bad,
  boxOf,
  distance,
  type Fault,
  good,
  type Homography,
  homographyFrom,
  multiplied,
  type Point,
  type Result,
  signedArea,
  say,
} from '../base/index.ts'
import { fitView } from './fit-view.ts'
import type { GreyImage } from './image.ts'
import { type BoardView, straightLens } from './view.ts'

/** A rectangle of known size in the photo: the board, four holes, or a package. */
export interface KnownRectangle {
  /** Its corners in pixels, in any order. */
  readonly corners: readonly Point[]
  /** Along the upper edge, as it is seen. */
  readonly widthMm: number
  readonly heightMm: number
  /** `board`: its edges are followed and tell how the lens bends. `package`: they are followed. `holes`: there are none. */
  readonly edges: 'board' | 'package' | 'holes'
}

/** Two points in pixels, the board seen straight from above. */
export interface KnownDistance {
  readonly from: Point
  readonly to: Point
  readonly distanceMm: number
}

export interface RectifiedView {
  /** The lower left corner of the rectangle is (0, 0); of two points, the lower left of the photo. */
  readonly view: BoardView
  /** How far the edges lie from where the view has them, as a median in mm; undefined where none was followed. */
  readonly missMm: number | undefined
}

const MM = { least: 3, most: 1000 }
const LEAST_SIDE_PX = 24
/** Fewer places than this along the edges, and they are not the edges. */
const LEAST_FOLLOWED = 0.45
/** Larger pictures are made smaller to follow edges: they get no sharper. */
const FIT_SIDE_PX = 3000

/**
 * The view by a rectangle of known size: the homography by its corners, then made exact by its edges where it has some and they
 * can be followed. The corners are taken clockwise from the upper left whatever their order.
 * Refuses sizes outside of 3 to 1000 mm, corners that are too near each other, and four that make no rectangle.
 */
export function viewFromRectangle(image: GreyImage, known: KnownRectangle): Result<RectifiedView> {
  const faults = [
    ...sizeFaults('widthMm', known.widthMm),
    ...sizeFaults('heightMm', known.heightMm),
    ...cornerFaults(known),
  ]
  if (faults.length > 0) return bad(...faults)
  const { widthMm: x, heightMm: y } = known
  const onBoard = [
    { x: 0, y },
    { x, y },
    { x, y: 0 },
    { x: 0, y: 0 },
  ]
  const seen = clockwiseFromUpperLeft(known.corners)
  const plain = homographyFrom(
    onBoard.map((from, i) => ({ from, to: seen[i] ?? from })),
    'turned over',
  )
  if (!plain.ok) return plain
  const unfitted: RectifiedView = { view: { homography: plain.value, lens: straightLens(image) }, missMm: undefined }
  if (known.edges === 'holes') return good(unfitted)
  const { image: small, factor } = madeSmaller(image)
  const fitted = fitView(small, {
    onBoard,
    seen: seen.map((corner) => ({ x: corner.x / factor, y: corner.y / factor })),
    lens: straightLens(small),
    mayBend: known.edges === 'board',
  })
  if (fitted === undefined || fitted.followed < LEAST_FOLLOWED) return good(unfitted)
  const pxPerMm = distance(seen[0] ?? nowhere, seen[2] ?? nowhere) / Math.hypot(x, y)
  return good({ view: grown(fitted.view, factor, image), missMm: (fitted.missPx * factor) / pxPerMm })
}

/** The view by two points of known distance, as a photo straight from above has it: one scale, upright as the photo is. */
export function viewFromDistance(image: GreyImage, { from, to, distanceMm }: KnownDistance): Result<RectifiedView> {
  const faults = sizeFaults('distanceMm', distanceMm)
  const apartPx = distance(from, to)
  if (apartPx < LEAST_SIDE_PX)
    faults.push({
      path: 'points',
      found: say('{apartPx} pixels apart', { apartPx: Math.round(apartPx) }),
      expected: say('at least {leastSidePx} pixels', { leastSidePx: LEAST_SIDE_PX }),
    })
  if (faults.length > 0) return bad(...faults)
  const pxPerMm = apartPx / distanceMm
  const homography: Homography = [pxPerMm, 0, 0, 0, -pxPerMm, image.heightPx, 0, 0, 1]
  return good({ view: { homography, lens: straightLens(image) }, missMm: undefined })
}

/** As they are seen: upper left, upper right, lower right, lower left. */
export function clockwiseFromUpperLeft(corners: readonly Point[]): Point[] {
  const middle = {
    x: corners.reduce((sum, { x }) => sum + x, 0) / corners.length,
    y: corners.reduce((sum, { y }) => sum + y, 0) / corners.length,
  }
  const turnOf = ({ x, y }: Point): number => Math.atan2(y - middle.y, x - middle.x)
  const around = corners.toSorted((a, b) => turnOf(a) - turnOf(b))
  const first = around.reduce((best, corner, i) => {
    const other = around[best] ?? corner
    return corner.x + corner.y < other.x + other.y ? i : best
  }, 0)
  return around.map((_, i) => around[(first + i) % around.length] ?? nowhere)
}

const nowhere: Point = { x: 0, y: 0 }

function sizeFaults(path: string, mm: number): Fault[] {
  if (mm >= MM.least && mm <= MM.most) return []
  return [{ path, found: `${mm} mm`, expected: say('{least} to {most} mm', { least: MM.least, most: MM.most }) }]
}

function cornerFaults({ corners }: KnownRectangle): Fault[] {
  if (corners.length !== 4)
    return [
      {
        path: 'corners',
        found: say('{count} corners', { count: corners.length }),
        expected: say('four corners'),
        todo: say('Click each once.'),
      },
    ]
  const { minX, maxX, minY, maxY } = boxOf(corners)
  const small = Math.min(maxX - minX, maxY - minY) < LEAST_SIDE_PX
  const flat = Math.abs(signedArea(clockwiseFromUpperLeft(corners))) < LEAST_SIDE_PX * LEAST_SIDE_PX
  if (!small && !flat) return []
  const todo = say('Click each corner once.')
  return [
    {
      path: 'corners',
      found: say('corners that lie too near each other'),
      expected: say('four corners that lie apart'),
      todo,
    },
  ]
}

/** By a whole factor, each new pixel the mean of those that it covers. */
function madeSmaller(image: GreyImage): { readonly image: GreyImage; readonly factor: number } {
  const factor = Math.ceil(Math.max(image.widthPx, image.heightPx) / FIT_SIDE_PX)
  if (factor <= 1) return { image, factor: 1 }
  const widthPx = Math.floor(image.widthPx / factor)
  const heightPx = Math.floor(image.heightPx / factor)
  const grey = new Float32Array(widthPx * heightPx)
  const share = 1 / (factor * factor)
  for (let row = 0; row < heightPx * factor; row++) {
    const to = Math.floor(row / factor) * widthPx
    for (let column = 0, at = row * image.widthPx; column < widthPx; column++)
      for (let i = 0; i < factor; i++, at++)
        grey[to + column] = (grey[to + column] ?? 0) + share * (image.grey[at] ?? 0)
  }
  return { image: { widthPx, heightPx, grey }, factor }
}

/** The same view of a picture that is larger by a factor. */
const grown = ({ homography, lens }: BoardView, factor: number, size: GreyImage): BoardView => ({
  homography: multiplied([factor, 0, 0, 0, factor, 0, 0, 0, 1], homography),
  lens: { ...straightLens(size), k1: lens.k1, k2: lens.k2 },
})
