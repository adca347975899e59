/** A photo's picture, decoded from its bytes and brought to a size; nothing larger stays in memory. */
import { useEffect, useState } from 'react'
import type { Desk } from '../../stores/desk.ts'
import { useDesk } from '../../stores/hooks.ts'

export type Picture =
  | { readonly state: 'loading' }
  | { readonly state: 'missing' }
  | { readonly state: 'there'; readonly image: ImageBitmap }

/** @param longestPx of the longer side at most; smaller photos stay as they are */
export function usePicture(id: string, longestPx: number): Picture {
  const desk = useDesk()
  const [picture, setPicture] = useState<Picture>({ state: 'loading' })
  useEffect(() => {
    let gone = false
    let image: ImageBitmap | undefined
    void pictureOf(desk, id, longestPx).then((made) => {
      if (gone) return made?.close()
      image = made
      setPicture(made === undefined ? { state: 'missing' } : { state: 'there', image: made })
    })
    return () => {
      gone = true
      image?.close()
    }
  }, [desk, id, longestPx])
  return picture
}

async function pictureOf(desk: Desk, id: string, longestPx: number): Promise<ImageBitmap | undefined> {
  try {
    const file = await desk.files.get(id)
    if (file === undefined) return undefined
    const decoded = await createImageBitmap(file, { imageOrientation: 'from-image' })
    const shrink = longestPx / Math.max(decoded.width, decoded.height)
    if (shrink >= 1) return decoded
    const small = await createImageBitmap(decoded, {
      resizeWidth: Math.max(1, Math.round(decoded.width * shrink)),
      resizeHeight: Math.max(1, Math.round(decoded.height * shrink)),
      resizeQuality: 'high',
    })
    decoded.close()
    return small
  } catch {
    return undefined
  }
}
