/** What the calls about tracing do: a photo decoded by the browser, straightened, and looked at by the core. */
import { bad, type Fault, good, multiplied, type Picture, type Result, say } from '../base/index.ts'
import { imageHead } from '../case/index.ts'
import {
  asRaster,
  cameraOf,
  findLikes,
  frameFor,
  frameSize,
  greyOf,
  type RectifiedView,
  snap,
  straightenRows,
  viewFromDistance,
  viewFromRectangle,
} from '../trace/index.ts'
import { calls, type StraightenWish, type StraightTrace, type TracePhoto } from './contract.ts'
import { type Handler, handle, type Work } from './serve.ts'

/** Handlers that share nothing and keep nothing: each question brings its photo or raster along. */
export const traceHandlers = (): Handler[] => [
  handle(calls.openTrace, ({ file }) => openPhoto(file)),
  handle(calls.straightenTrace, (wish, work) => straighten(wish, work)),
  handle(calls.snapTrace, ({ raster, wish }) => snap(raster, wish)),
  handle(calls.likesTrace, ({ raster, wish }, { signal, onProgress }) =>
    good(
      findLikes(raster, {
        ...wish,
        isCancelled: () => signal.aborted,
        onShare: (share) => onProgress({ share, words: say('looked through') }),
      }),
    ),
  ),
]

const MOST_BYTES = 60_000_000
const MOST_PIXELS = 64_000_000
const LEAST_SIDE_PX = 200
const MOST_ASPECT = 8
/** Enough of a file for the heads of pictures, previews inside of them included. */
const HEAD_BYTES = 4_000_000
/** More than this is made smaller before it is worked on. */
const WORKING_PIXELS = 24_000_000
const PREVIEW_PIXELS = 3_000_000
const RASTER_PIXELS = 6_000_000
const ROWS_AT_ONCE = 200

const unreadable: Omit<Fault, 'path'> = {
  found: say('a picture that can’t be read to its end'),
  expected: say('a whole JPEG, PNG or WebP picture'),
  todo: say('Copy it from the camera again.'),
}

/** What is wrong with a picture by its first bytes, before anything decodes it; undefined where nothing is. */
async function faultOf(file: Blob): Promise<Fault | undefined> {
  const head = imageHead(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()))
  const at = (fault: Omit<Fault, 'path'>): Fault => ({ path: 'photo', ...fault })
  const smaller = say('Save a smaller copy of it and take that.')
  if (head === undefined) return at({ ...unreadable, found: say('no picture that can be read') })
  const { widthPx, heightPx } = head
  if (file.size > MOST_BYTES)
    return at({ found: `${Math.round(file.size / 1e6)} MB`, expected: say('at most 60 MB'), todo: smaller })
  if (widthPx * heightPx > MOST_PIXELS)
    return at({
      found: say('{widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('at most 64 million pixels'),
      todo: smaller,
    })
  if (Math.min(widthPx, heightPx) < LEAST_SIDE_PX)
    return at({
      found: say('{widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('at least {least} pixels each way', { least: LEAST_SIDE_PX }),
    })
  if (Math.max(widthPx, heightPx) > MOST_ASPECT * Math.min(widthPx, heightPx))
    return at({
      found: say('a strip of {widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('a photo of a board, not a panorama'),
    })
  return undefined
}

async function openPhoto(file: Blob): Promise<Result<TracePhoto>> {
  const decoded = await decodedPhoto(file)
  if (!decoded.ok) return decoded
  const { width, height } = decoded.value
  const size = workingSize(width, height)
  const scale = Math.min(1, Math.sqrt(PREVIEW_PIXELS / (width * height)))
  const preview = await createImageBitmap(decoded.value, {
    resizeWidth: Math.round(width * scale),
    resizeHeight: Math.round(height * scale),
    resizeQuality: 'high',
  })
  decoded.value.close()
  return good({ widthPx: size.width, heightPx: size.height, preview })
}

async function decodedPhoto(file: Blob): Promise<Result<ImageBitmap>> {
  const fault = await faultOf(file)
  if (fault !== undefined) return bad(fault)
  try {
    return good(await createImageBitmap(file, { imageOrientation: 'from-image' }))
  } catch {
    return bad({ path: 'photo', ...unreadable })
  }
}

function workingSize(width: number, height: number): { readonly width: number; readonly height: number } {
  const scale = Math.min(1, Math.sqrt(WORKING_PIXELS / (width * height)))
  return { width: Math.round(width * scale), height: Math.round(height * scale) }
}

/** The photo in its working size, as plain pixels. */
async function pixelsOf(file: Blob): Promise<Result<Picture>> {
  const decoded = await decodedPhoto(file)
  if (!decoded.ok) return decoded
  const { width, height } = workingSize(decoded.value.width, decoded.value.height)
  const ctx = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })
  if (ctx === null)
    return bad({
      path: 'photo',
      found: say('no canvas in the worker'),
      expected: say('a browser that draws off the screen'),
    })
  ctx.imageSmoothingQuality = 'high'
  ctx.drawImage(decoded.value, 0, 0, width, height)
  decoded.value.close()
  return good({ width, height, rgba: ctx.getImageData(0, 0, width, height).data })
}

async function straighten(
  { file, known, box, under }: StraightenWish,
  { signal, onProgress }: Work,
): Promise<Result<StraightTrace>> {
  onProgress({ share: 0, words: say('photo read') })
  const picture = await pixelsOf(file)
  if (!picture.ok) return picture
  onProgress({ share: 0.3, words: say('edges followed') })
  const made = viewOf(picture.value, known)
  if (!made.ok) return made
  const { missMm } = made.value
  const view =
    under === undefined
      ? made.value.view
      : { ...made.value.view, homography: multiplied(made.value.view.homography, under) }
  const frame = frameFor(view, box, RASTER_PIXELS)
  const { width, height } = frameSize(frame)
  const into = new ImageData(width, height)
  const target = { width, height, rgba: into.data }
  for (let from = 0; from < height && !signal.aborted; from += ROWS_AT_ONCE) {
    straightenRows(picture.value, target, { view, frame }, { from, to: Math.min(height, from + ROWS_AT_ONCE) })
    onProgress({ share: 0.5 + (0.5 * from) / height, words: say('straightened') })
    // a cancel can only be heard between two pieces
    await new Promise((resolve) => setTimeout(resolve, 0))
  }
  return good({
    picture: await createImageBitmap(into),
    raster: asRaster(target, frame),
    camera: cameraOf(view),
    missMm,
  })
}

function viewOf(picture: Picture, known: StraightenWish['known']): Result<RectifiedView> {
  const image = greyOf(picture)
  return 'corners' in known ? viewFromRectangle(image, known) : viewFromDistance(image, known)
}
