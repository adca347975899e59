/** Photos from a connected camera or microscope: the live picture, frozen by one press and kept by the next. */
import { Dialog } from '@base-ui/react/dialog'
import { Check, Pause, Play } from 'lucide-react'
import { useRef, useState } from 'react'
import { say } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import { DialogHead } from '../controls/DialogHead.tsx'
import dialog from '../controls/dialog.module.css'
import styles from './camera.module.css'
import { drawFrame, jpegOf } from './grab.ts'
import { CameraChoice, LiveView } from './LiveView.tsx'
import { useCamera } from './useCamera.ts'

interface PhotoCameraProps {
  /** Of the next photo, as a file. */
  readonly nextName: string
  /** @returns whether it is in the case now */
  readonly onPhoto: (photo: File) => Promise<boolean>
  readonly onClose: () => void
}

export function PhotoCamera({ onClose, ...rest }: PhotoCameraProps) {
  const main = useRef<HTMLButtonElement>(null)
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${styles.dialog}`} initialFocus={main}>
          <Content main={main} {...rest} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

/** The best that microscopes on a plain USB cable give. */
const SIZE = { widthPx: 3840, heightPx: 2160 }

interface ContentProps extends Omit<PhotoCameraProps, 'onClose'> {
  readonly main: React.RefObject<HTMLButtonElement | null>
}

function Content({ main, nextName, onPhoto }: ContentProps) {
  const camera = useCamera(SIZE)
  const video = useRef<HTMLVideoElement>(null)
  const still = useRef<HTMLCanvasElement>(null)
  const [frozen, setFrozen] = useState(false)
  const [kept, setKept] = useState(0)
  const freeze = (): void => {
    if (video.current !== null && still.current !== null && drawFrame(video.current, still.current)) setFrozen(true)
  }
  const keep = async (): Promise<void> => {
    const photo = still.current === null ? undefined : await jpegOf(still.current, nextName)
    if (photo === undefined || !(await onPhoto(photo))) return
    setKept((before) => before + 1)
    setFrozen(false)
  }
  const live = camera.view.state === 'live'
  return (
    <>
      <DialogHead title={say('Camera')} closeLabel={say('Close the camera')}>
        <p role="status">{kept === 0 ? '' : say('{kept, plural, one {# photo} other {# photos}} kept', { kept })}</p>
      </DialogHead>
      <LiveView camera={camera} video={video} covered={frozen} instead={say('Or add photos of a telephone as files.')}>
        <canvas
          ref={still}
          className={styles.picture}
          data-covered={!frozen}
          role="img"
          aria-label={frozen ? say('Frozen picture') : undefined}
          aria-hidden={!frozen}
        />
      </LiveView>
      <div className={styles.foot}>
        <Button
          ref={main}
          tone="strong"
          aria-disabled={!frozen && !live}
          onClick={() => (frozen ? void keep() : freeze())}
        >
          {frozen ? <Check size={16} aria-hidden="true" /> : <Pause size={16} aria-hidden="true" />}
          {frozen ? say('Keep photo') : say('Freeze')}
        </Button>
        {frozen && (
          <Button onClick={() => setFrozen(false)}>
            <Play size={16} aria-hidden="true" /> {say('Live again')}
          </Button>
        )}
        <CameraChoice camera={camera} />
      </div>
    </>
  )
}
