/** Scans the code of an intake slip: the picture is looked through until a code is in it. */
import { say } from '../../base/index.ts'
import { Dialog } from '@base-ui/react/dialog'
import { useEffect, useRef, useState } from 'react'
import { DialogHead } from '../controls/DialogHead.tsx'
import dialog from '../controls/dialog.module.css'
import styles from './camera.module.css'
import { codeIn } from './codeIn.ts'
import { drawFrame } from './grab.ts'
import { CameraChoice, LiveView } from './LiveView.tsx'
import { useCamera } from './useCamera.ts'

interface CodeScannerProps {
  readonly onCode: (code: string) => void
  readonly onClose: () => void
}

export function CodeScanner({ onCode, onClose }: CodeScannerProps) {
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${styles.dialog}`}>
          <Content onCode={onCode} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

const SIZE = { widthPx: 1280, heightPx: 720 }
const LONGEST_PX = 1280
const EVERY_MS = 120

function Content({ onCode }: Pick<CodeScannerProps, 'onCode'>) {
  const camera = useCamera(SIZE)
  const video = useRef<HTMLVideoElement>(null)
  const [other, setOther] = useState(false)
  const found = useRef(onCode)
  useEffect(() => {
    found.current = onCode
  }, [onCode])
  const live = camera.view.state === 'live'
  useEffect(() => {
    if (!live) return undefined
    const canvas = document.createElement('canvas')
    const timer = setInterval(() => {
      if (video.current === null || !drawFrame(video.current, canvas, LONGEST_PX)) return
      const seen = codeIn(canvas)
      if (seen?.kind === 'code') {
        clearInterval(timer)
        found.current(seen.code)
      } else if (seen !== undefined) setOther(true)
    }, EVERY_MS)
    return () => clearInterval(timer)
  }, [live])
  return (
    <>
      <DialogHead title={say('Scan the code of a slip')} closeLabel={say('Stop scanning')}>
        <p role="status">
          {other
            ? say('That is another kind of code. Hold up the one on the intake slip.')
            : say('Hold the slip’s square code into the picture.')}
        </p>
      </DialogHead>
      <LiveView camera={camera} video={video} instead={say('Or type the code into the search of the list.')} />
      <div className={styles.foot}>
        <CameraChoice camera={camera} />
      </div>
    </>
  )
}
