/**
 * In: photos of a board as plain pixels, what a user shows in them, sizes of packages. Out: the view of the board, a straight
 * raster, places of parts to a fraction of a millimetre, their likes, and a checked board of what was traced.
 * Refuses: sizes and corners that give no view, clicks where nothing of that size stands; it knows no file, decoder or screen.
 */
export { boardFromTrace, type Trace, traceUntold } from './board.ts'
export { type Camera, cameraOf, seatedAt, topSeenAt } from './camera.ts'
export { correlationMap } from './correlate.ts'
export { type BoardRaster, fromRaster, type GreyImage, greyOf, toRaster } from './image.ts'
export { findLikes, type Like, type LikesWish } from './likes.ts'
export {
  type KnownDistance,
  type KnownRectangle,
  type RectifiedView,
  viewFromDistance,
  viewFromRectangle,
} from './rectify.ts'
export { snap, type Snapped, type SnapWish } from './snap.ts'
export { asRaster, frameFor, frameSize, type RasterFrame, straightenRows } from './straighten.ts'
export { type BoardView, onBoardAt, seenAt } from './view.ts'
export {
  arrayBetween,
  type HolePair,
  patternPackageNamed,
  refsOf,
  type TracedPart,
  turnedAsUsual,
  turnedOver,
} from './traced.ts'
