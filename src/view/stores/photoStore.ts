/** Photos as they lie under the drawing: straightened once for each match, kept while the case shows them. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Box, Fault } from '../../base/index.ts'
import type { Case, Photo } from '../../case/index.ts'
import type { PhotoView } from '../sheet/index.ts'

export interface Straightened {
  /** Tells one match from another of the same photo. */
  readonly key: string
  readonly state: 'working' | 'done' | 'failed'
  readonly box: Box | undefined
  readonly image: ImageBitmap | undefined
  readonly faults: readonly Fault[]
}

export interface PhotoState {
  /** By the photo's id. */
  readonly straightened: ReadonlyMap<string, Straightened>
}

export type PhotoStore = StoreApi<PhotoState>

export const createPhotoStore = (): PhotoStore => createStore<PhotoState>(() => ({ straightened: new Map() }))

export const matchKey = ({ side, corners }: Photo): string => JSON.stringify([side, corners])

/** What the sheet draws: matched photos that are ready and not turned down to nothing, in the case's order. */
export function photoViews(photos: Case['photos'], { straightened }: PhotoState): PhotoView[] {
  return photos.flatMap((photo) => {
    const ready = straightened.get(photo.id)
    if (photo.corners === undefined || photo.shownPct <= 0) return []
    if (ready?.image === undefined || ready.box === undefined || ready.key !== matchKey(photo)) return []
    return [{ id: photo.id, side: photo.side, box: ready.box, image: ready.image, shownPct: photo.shownPct }]
  })
}
