/** The photo straightened small, at once, while its points are moved. */
import { type Box, good, multiplied, type Result, resample } from '../../../../base/index.ts'
import { type MatchedCorners, type Photo, samplingOf } from '../../../../case/index.ts'

const MOST_PX = 110_000

export interface Preview {
  readonly box: Box
  readonly image: ImageData
}

/** The pixels of a picture, for sampling on the screen's own thread: keep it small. */
export function pixelsOf(image: ImageBitmap): ImageData | undefined {
  const canvas = new OffscreenCanvas(image.width, image.height)
  const ctx = canvas.getContext('2d', { willReadFrequently: true })
  ctx?.drawImage(image, 0, 0)
  return ctx?.getImageData(0, 0, image.width, image.height)
}

/** @param source the whole photo, at any size */
export function previewOf(photo: Photo, source: ImageData, corners: MatchedCorners, board: Box): Result<Preview> {
  const sampling = samplingOf(photo, corners, board, MOST_PX)
  if (!sampling.ok) return sampling
  const { box, width, height, sourceWidth, sourceHeight, toSource } = sampling.value
  const image = new ImageData(width, height)
  const toSized = multiplied([source.width / sourceWidth, 0, 0, 0, source.height / sourceHeight, 0, 0, 0, 1], toSource)
  resample(
    { width: source.width, height: source.height, rgba: source.data },
    { width, height, rgba: image.data },
    toSized,
  )
  return good({ box, image })
}
