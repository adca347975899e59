/** One camera for as long as something shows it: opened, told of when it goes, closed with the dialog. */
import { useEffect, useState } from 'react'
import {
  type CameraName,
  camerasHere,
  closeCamera,
  idOf,
  openCamera,
  troubleOf,
  UNPLUGGED,
  type WantedSize,
} from './openCamera.ts'
import { lastCamera, rememberCamera } from './lastCamera.ts'

type View =
  | { readonly state: 'asking' }
  | { readonly state: 'live'; readonly stream: MediaStream }
  | { readonly state: 'trouble'; readonly words: string }

const asking: View = { state: 'asking' }

export interface Camera {
  readonly view: View
  readonly cameras: readonly CameraName[]
  /** Id of the one that is shown. */
  readonly shown: string | undefined
  readonly choose: (id: string) => void
  readonly again: () => void
}

/** @param size the same object at each drawing */
export function useCamera(size: WantedSize): Camera {
  const [wanted, setWanted] = useState(() => ({ id: lastCamera() }))
  const [last, setLast] = useState<{ readonly of: typeof wanted; readonly view: View }>()
  const view: View = last?.of === wanted ? last.view : asking
  const [cameras, setCameras] = useState<readonly CameraName[]>([])
  useEffect(() => {
    let gone = false
    let opened: MediaStream | undefined
    const show = (next: View): void => {
      if (!gone) setLast({ of: wanted, view: next })
    }
    const open = async (): Promise<void> => {
      const stream = await openCamera(wanted.id, size)
      if (gone) return closeCamera(stream)
      opened = stream
      stream.getVideoTracks()[0]?.addEventListener('ended', () => show({ state: 'trouble', words: UNPLUGGED }))
      show({ state: 'live', stream })
      const found = await camerasHere()
      if (!gone) setCameras(found)
    }
    open().catch((reason: unknown) => show({ state: 'trouble', words: troubleOf(reason) }))
    return () => {
      gone = true
      if (opened !== undefined) closeCamera(opened)
    }
  }, [wanted, size])
  useEffect(() => watchCameras(setCameras), [])
  return {
    view,
    cameras,
    shown: view.state === 'live' ? idOf(view.stream) : undefined,
    choose: (id) => {
      rememberCamera(id)
      setWanted({ id })
    },
    again: () => setWanted(({ id }) => ({ id })),
  }
}

/** Cameras that come and go while one is shown. */
function watchCameras(onChange: (cameras: readonly CameraName[]) => void): (() => void) | undefined {
  if (!isSecureContext) return undefined
  const { mediaDevices } = navigator
  const look = (): void => void camerasHere().then(onChange, () => undefined)
  mediaDevices.addEventListener('devicechange', look)
  return () => mediaDevices.removeEventListener('devicechange', look)
}
