/** What the calls about photos do: straighten one onto the board, with the browser's own decoder. */
import { bad, good, type Result, resample, say } from '../base/index.ts'
import type { PhotoSampling } from '../case/index.ts'
import { calls } from './contract.ts'
import { type Handler, handle } from './serve.ts'

/** Handlers that need the browser's image decoder; they share nothing and keep nothing. */
export const photoHandlers = (): Handler[] => [
  handle(calls.rectifyPhoto, ({ file, sampling }) => rectify(file, sampling)),
]

async function rectify(file: Blob, sampling: PhotoSampling): Promise<Result<ImageBitmap>> {
  const { width, height, sourceWidth, sourceHeight, toSource } = sampling
  const decoded = await createImageBitmap(file, { imageOrientation: 'from-image' })
  const ctx = new OffscreenCanvas(sourceWidth, sourceHeight).getContext('2d', { willReadFrequently: true })
  if (ctx === null)
    return bad({
      path: 'photo',
      found: say('no canvas in the worker'),
      expected: say('a browser that draws off the screen'),
    })
  ctx.imageSmoothingQuality = 'high'
  ctx.drawImage(decoded, 0, 0, sourceWidth, sourceHeight)
  decoded.close()
  const source = ctx.getImageData(0, 0, sourceWidth, sourceHeight)
  const into = new ImageData(width, height)
  resample(
    { width: sourceWidth, height: sourceHeight, rgba: source.data },
    { width, height, rgba: into.data },
    toSource,
  )
  return good(await createImageBitmap(into))
}
