/** A photo at its own size: fitted first, then as near as wanted; dragged, scrolled, or moved with the arrow keys. */
import { say } from '../../../base/index.ts'
import { Dialog } from '@base-ui/react/dialog'
import { X, ZoomIn, ZoomOut } from 'lucide-react'
import { type PointerEvent, useEffect, useRef, useState } from 'react'
import type { Photo } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import dialog from '../../controls/dialog.module.css'
import { useDesk } from '../../stores/hooks.ts'
import styles from './dialogs.module.css'

interface FullPhotoProps {
  readonly photo: Photo
  readonly onClose: () => void
}

const ZOOM_STEP = 1.5
const NEAREST = 4

export function FullPhoto({ photo, onClose }: FullPhotoProps) {
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={dialog.popup}>
          <Content photo={photo} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

function Content({ photo }: { readonly photo: Photo }) {
  const url = usePhotoUrl(photo.id)
  const [zoom, setZoom] = useState<number | undefined>()
  const view = useRef<HTMLDivElement>(null)
  const fitted = (): number => {
    const box = view.current
    if (box === null) return 1
    return Math.min(1, box.clientWidth / photo.widthPx, box.clientHeight / photo.heightPx)
  }
  const zoomBy = (factor: number): void =>
    setZoom((before) => Math.min(NEAREST, Math.max(fitted(), (before ?? fitted()) * factor)))
  const drag = useDragToScroll(view)
  return (
    <>
      <div className={styles.head}>
        <Dialog.Title className={styles.title}>{photo.name}</Dialog.Title>
        <p role="status">
          {say('{widthPx} × {heightPx} pixels{value}', {
            widthPx: photo.widthPx,
            heightPx: photo.heightPx,
            value: zoom === undefined ? say(', fitted') : say(', at {value} %', { value: Math.round(zoom * 100) }),
          })}
        </p>
        <Button onClick={() => setZoom(undefined)}>{say('Fit')}</Button>
        <Button size="icon" aria-label={say('Farther')} title={say('Farther')} onClick={() => zoomBy(1 / ZOOM_STEP)}>
          <ZoomOut size={16} aria-hidden="true" />
        </Button>
        <Button size="icon" aria-label={say('Nearer')} title={say('Nearer')} onClick={() => zoomBy(ZOOM_STEP)}>
          <ZoomIn size={16} aria-hidden="true" />
        </Button>
        <Dialog.Close
          className={controls.button}
          data-size="icon"
          data-tone="quiet"
          aria-label={say('Close the photo')}
        >
          <X size={18} aria-hidden="true" />
        </Dialog.Close>
      </div>
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- scrolled by keys */}
      <div ref={view} className={styles.view} role="region" tabIndex={0} aria-label={say('The photo')} {...drag}>
        {url === 'missing' && <p>{say('The picture is not on this machine. Import the case with its photos.')}</p>}
        {url !== undefined && url !== 'missing' && (
          <img
            src={url}
            alt={
              photo.note === undefined || photo.note === ''
                ? say('Photo of the {side} side', { side: photo.side })
                : photo.note
            }
            draggable={false}
            className={zoom === undefined ? styles.fitted : undefined}
            {...(zoom === undefined ? {} : { style: { width: photo.widthPx * zoom, maxWidth: 'none' } })}
          />
        )}
      </div>
    </>
  )
}

/** The full picture, for as long as it is looked at. */
function usePhotoUrl(id: string): string | undefined {
  const desk = useDesk()
  const [url, setUrl] = useState<string>()
  useEffect(() => {
    let made: string | undefined
    let gone = false
    void desk.files.get(id).then((file) => {
      if (gone) return
      made = file === undefined ? undefined : URL.createObjectURL(file)
      setUrl(made ?? 'missing')
    })
    return () => {
      gone = true
      if (made !== undefined) URL.revokeObjectURL(made)
    }
  }, [desk, id])
  return url
}

/** A mouse drags the picture; a finger scrolls it by itself. */
function useDragToScroll(view: React.RefObject<HTMLDivElement | null>) {
  const [last, setLast] = useState<{ x: number; y: number }>()
  return {
    onPointerDown: (event: PointerEvent) => {
      if (event.pointerType === 'touch') return
      event.currentTarget.setPointerCapture(event.pointerId)
      setLast({ x: event.clientX, y: event.clientY })
    },
    onPointerMove: (event: PointerEvent) => {
      if (last === undefined) return
      view.current?.scrollBy(last.x - event.clientX, last.y - event.clientY)
      setLast({ x: event.clientX, y: event.clientY })
    },
    onPointerUp: () => setLast(undefined),
    onPointerCancel: () => setLast(undefined),
  }
}
