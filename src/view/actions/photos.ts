/** Photos: taken in at full size, matched to the board, straightened by a worker, taken out again with undo. */
import { type Fault, type Point, say } from '../../base/index.ts'
import { type ImageHead, imageHead, type MatchedCorners, type Photo, samplingOf } from '../../case/index.ts'
import type { AreaMark } from '../../spill/index.ts'
import { calls } from '../../workers/contract.ts'
import type { Desk } from '../stores/desk.ts'
import { matchKey, type Straightened } from '../stores/photoStore.ts'
import { editCase, editCaseOf } from './edit.ts'
import { owe } from './ledger.ts'
import { caseLeft, faultOf, sayFaults } from './messages.ts'

const MOST_BYTES = 60_000_000
const MOST_PIXELS = 64_000_000
const LEAST_SIDE_PX = 64
const MOST_ASPECT = 8
/** Enough of a file for the heads of pictures, previews inside of them included. */
const HEAD_BYTES = 4_000_000
const MOST_PHOTOS = 500

/** A photo that was dropped or chosen: the inspection shows what can be done with it. */
export async function takePhoto(desk: Desk, file: File, at: Point): Promise<void> {
  if (await keepPhoto(desk, file, at)) desk.screen.setState({ station: 'inspection' })
}

/**
 * @param at where on the page to say what is wrong with it
 * @param atIntake taken when the card was handed in
 * @returns whether it is in the case now
 */
export async function keepPhoto(desk: Desk, file: File, at: Point, atIntake = false): Promise<boolean> {
  const refuse = (fault: Omit<Fault, 'path'>): false => {
    sayFaults(desk, at, say('{name} was not taken', { name: file.name }), [{ path: file.name, ...fault }])
    return false
  }
  const { id: caseId, board, history } = desk.cases.getState()
  if (board === undefined || history === undefined)
    return refuse({
      found: say('no board on the sheet'),
      expected: say('an open case'),
      todo: say('Open one, then drop the photo.'),
    })
  if (history.present.photos.length >= MOST_PHOTOS)
    return refuse({
      found: say('{MOSTPHOTOS} photos already', { MOSTPHOTOS: MOST_PHOTOS }),
      expected: say('fewer'),
      todo: say('Remove some first.'),
    })
  const head = imageHead(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()))
  const fault = faultOfPicture(file, head)
  if (fault !== undefined || head === undefined) return refuse(fault ?? unreadable)
  const size = await decodedSize(file)
  if (size === undefined) return refuse(unreadable)
  const id = crypto.randomUUID()
  const kept = await desk.files.put(id, file)
  if (!kept.ok) {
    if (caseId !== undefined) owe(desk, caseId, kept.faults[0])
    sayFaults(desk, at, say('{name} could not be kept', { name: file.name }), kept.faults)
    return false
  }
  const { side } = board.camera.getState()
  const photo: Photo = {
    id,
    name: file.name.slice(0, 200) || 'photo',
    type: head.type,
    bytes: file.size,
    ...size,
    side: side === 'bottom' ? 'bottom' : 'top',
    shownPct: 60,
    phase: history.present.passes.length > 0 ? 'after' : 'before',
    ...(atIntake ? { atIntake } : {}),
  }
  return editCaseOf(desk, caseId, (c) => ({ ...c, photos: [...c.photos, photo] })) || refuse(caseLeft)
}

const unreadable = {
  found: say('a picture that can’t be read to its end'),
  expected: say('a whole JPEG, PNG or WebP picture'),
  todo: say('Copy it from the camera again.'),
}

function faultOfPicture(file: File, head: ImageHead | undefined): Omit<Fault, 'path'> | undefined {
  if (head === undefined) return unreadable
  const { widthPx, heightPx } = head
  const smaller = say('Save a smaller copy of it and drop that.')
  if (file.size > MOST_BYTES)
    return { found: `${Math.round(file.size / 1e6)} MB`, expected: say('at most 60 MB'), todo: smaller }
  if (widthPx * heightPx > MOST_PIXELS)
    return {
      found: say('{widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('at most 64 million pixels'),
      todo: smaller,
    }
  if (Math.min(widthPx, heightPx) < LEAST_SIDE_PX)
    return {
      found: say('{widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('at least {least} pixels each way', { least: LEAST_SIDE_PX }),
    }
  if (Math.max(widthPx, heightPx) > MOST_ASPECT * Math.min(widthPx, heightPx))
    return {
      found: say('a strip of {widthPx} × {heightPx} pixels', { widthPx, heightPx }),
      expected: say('a photo of a board, not a panorama'),
    }
  return undefined
}

/** As it is seen upright: the camera's note of how it was held is honoured. */
async function decodedSize(file: Blob): Promise<Pick<Photo, 'widthPx' | 'heightPx'> | undefined> {
  try {
    const decoded = await createImageBitmap(file, { imageOrientation: 'from-image' })
    const size = { widthPx: decoded.width, heightPx: decoded.height }
    decoded.close()
    return size
  } catch {
    return undefined
  }
}

export const editPhoto = (desk: Desk, id: string, change: (photo: Photo) => Photo, joinKey?: string): void =>
  editCase(desk, (c) => ({ ...c, photos: c.photos.map((photo) => (photo.id === id ? change(photo) : photo)) }), joinKey)

/** Its bytes stay, so that undo brings it back whole; marks that were seen on it are marks without a photo. */
export const removePhoto = (desk: Desk, id: string): void =>
  editCase(desk, (c) => ({
    ...c,
    photos: c.photos.filter((photo) => photo.id !== id),
    marks: c.marks.map((mark) => ('photo' in mark && mark.photo === id ? withoutPhoto(mark) : mark)),
  }))

function withoutPhoto(mark: AreaMark): AreaMark {
  const { photo: _, ...rest } = mark
  return rest
}

export const matchPhoto = (desk: Desk, id: string, corners: MatchedCorners): void =>
  editPhoto(desk, id, (photo) => ({ ...photo, corners }))

/** A photo turned out to show the other side: what it was matched by does not hold there. */
export const turnPhoto = (desk: Desk, id: string, side: Photo['side']): void =>
  editPhoto(desk, id, (photo) => {
    const { corners: _, ...unmatched } = photo
    return { ...unmatched, side }
  })

/** Of one straightened photo; less where many lie under the drawing, because each pixel takes four bytes. */
const MOST_RASTER_PX = 8_000_000
const MOST_OF_ALL_PX = 32_000_000

/** Straightens what is matched and not yet straightened so; forgets what the case no longer has. */
export function watchForPhotos(desk: Desk): () => void {
  const look = (): void => {
    const { history, board } = desk.cases.getState()
    if (history === undefined || board === undefined) return
    const { straightened } = desk.photos.getState()
    const matched = history.present.photos.filter((photo) => photo.corners !== undefined && photo.shownPct > 0)
    forgetAllBut(desk, new Set(history.present.photos.map(({ id }) => id)))
    const mostPx = Math.min(MOST_RASTER_PX, MOST_OF_ALL_PX / Math.max(1, matched.length))
    for (const photo of matched) {
      if (straightened.get(photo.id)?.key !== matchKey(photo)) void straighten(desk, photo, mostPx)
    }
  }
  look()
  return desk.cases.subscribe(look)
}

function forgetAllBut(desk: Desk, ids: ReadonlySet<string>): void {
  const { straightened } = desk.photos.getState()
  const gone = [...straightened].filter(([id]) => !ids.has(id))
  if (gone.length === 0) return
  for (const [, { image }] of gone) image?.close()
  desk.photos.setState({ straightened: new Map([...straightened].filter(([id]) => ids.has(id))) })
}

async function straighten(desk: Desk, photo: Photo, mostPx: number): Promise<void> {
  const key = matchKey(photo)
  const set = (next: Omit<Straightened, 'key'>): void => {
    const { straightened } = desk.photos.getState()
    if (next.state !== 'working' && straightened.get(photo.id)?.key !== key) return next.image?.close()
    desk.photos.setState({ straightened: new Map(straightened).set(photo.id, { key, ...next }) })
  }
  const fail = (faults: readonly Fault[]): void => set({ state: 'failed', box: undefined, image: undefined, faults })
  set({ state: 'working', box: undefined, image: undefined, faults: [] })
  const { board } = desk.cases.getState()
  if (board === undefined || photo.corners === undefined) return
  const sampling = samplingOf(photo, photo.corners, board.model.box, mostPx)
  if (!sampling.ok) return fail(sampling.faults)
  try {
    const file = await desk.files.get(photo.id)
    if (file === undefined) return fail([missing(photo.name)])
    const made = await desk.reader.call(calls.rectifyPhoto, { file, sampling: sampling.value })
    if (!made.ok) return fail(made.faults)
    set({ state: 'done', box: sampling.value.box, image: made.value, faults: [] })
  } catch (reason) {
    fail([faultOf(photo.name, reason)])
  }
}

const missing = (name: string): Fault => ({
  path: name,
  found: say('no picture on this machine'),
  expected: say('the photo’s own bytes'),
  todo: say('Import the case with its photos, or drop the photo again.'),
})
