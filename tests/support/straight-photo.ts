/** A shipped board photographed and straightened as a user would: corners clicked by an unsteady hand. */
import { type Point, seededRandom } from '../../src/base/index.ts'
import type { BoardModel } from '../../src/board/index.ts'
import {
  asRaster,
  type BoardRaster,
  type BoardView,
  type Camera,
  cameraOf,
  frameFor,
  frameSize,
  greyOf,
  type RectifiedView,
  straightenRows,
  viewFromRectangle,
} from '../../src/trace/index.ts'
import { boardCorners, type BoardPhoto, photographed, type PhotoWish } from './board-photo.ts'

export interface StraightPhoto {
  readonly photo: BoardPhoto
  readonly rectified: RectifiedView
  readonly view: BoardView
  readonly camera: Camera
  /** From the board’s own mm to those of the view, whose origin is the lower left corner that was clicked. */
  readonly inView: (at: Point) => Point
}

/** How far a hand is off, as a standard deviation in pixels. */
const HAND_PX = 2.5

export function straightened(model: BoardModel, wish: PhotoWish): StraightPhoto {
  const photo = photographed(model, wish)
  const random = seededRandom(wish.seed + 7000)
  const corners = boardCorners(model)
  const clicked = corners.map((corner) => {
    const { x, y } = photo.seen(corner)
    return { x: x + HAND_PX * random.normal(), y: y + HAND_PX * random.normal() }
  })
  const [upperLeft, upperRight, , lowerLeft] = corners
  if (upperLeft === undefined || upperRight === undefined || lowerLeft === undefined) throw new Error('no corners')
  const widthMm = upperRight.x - upperLeft.x
  const heightMm = upperLeft.y - lowerLeft.y
  const made = viewFromRectangle(greyOf(photo.picture), { corners: clicked, widthMm, heightMm, edges: 'board' })
  if (!made.ok) throw new Error('no view')
  return {
    photo,
    rectified: made.value,
    view: made.value.view,
    camera: cameraOf(made.value.view),
    inView: ({ x, y }) => ({ x: x - lowerLeft.x, y: y - lowerLeft.y }),
  }
}

/** The whole board with a little of what is around it. */
export function rasterOf({ photo, view, inView }: StraightPhoto, model: BoardModel): BoardRaster {
  const low = inView({ x: model.box.minX - 2, y: model.box.minY - 2 })
  const high = inView({ x: model.box.maxX + 2, y: model.box.maxY + 2 })
  const frame = frameFor(view, { minX: low.x, minY: low.y, maxX: high.x, maxY: high.y }, 8e6)
  const size = frameSize(frame)
  const into = { ...size, rgba: new Uint8ClampedArray(size.width * size.height * 4) }
  straightenRows(photo.picture, into, { view, frame }, { from: 0, to: size.height })
  return asRaster(into, frame)
}
