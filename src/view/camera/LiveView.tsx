/** What the camera sees, or why it sees nothing, with the choice among several cameras above it. */
import { say } from '../../base/index.ts'
import { RefreshCw } from 'lucide-react'
import { type ReactNode, type RefObject, useEffect, useImperativeHandle, useRef } from 'react'
import { Button } from '../controls/Button.tsx'
import { SelectField } from '../controls/fields.tsx'
import styles from './camera.module.css'
import type { Camera } from './useCamera.ts'

interface LiveViewProps {
  readonly camera: Camera
  readonly video: RefObject<HTMLVideoElement | null>
  /** What to do without a camera. */
  readonly instead: string
  /** A picture that was frozen lies over the live one. */
  readonly covered?: boolean
  /** What lies over it. */
  readonly children?: ReactNode
}

export function LiveView({ camera, video, instead, covered = false, children }: LiveViewProps) {
  const { view } = camera
  const stream = view.state === 'live' ? view.stream : null
  const own = useRef<HTMLVideoElement>(null)
  useImperativeHandle<HTMLVideoElement | null, HTMLVideoElement | null>(video, () => own.current, [])
  useEffect(() => {
    if (own.current !== null) own.current.srcObject = stream
  }, [stream])
  return (
    <div className={styles.view}>
      <video
        ref={own}
        className={styles.picture}
        aria-label={say('Live picture')}
        data-covered={covered || stream === null}
        autoPlay
        muted
        playsInline
      />
      {children}
      {!covered && view.state === 'asking' && (
        <p role="status">{say('Waiting for the camera; the browser may ask you.')}</p>
      )}
      {!covered && view.state === 'trouble' && (
        <div className={styles.trouble} role="alert">
          <p>
            {view.words} {instead}
          </p>
          <Button onClick={camera.again}>
            <RefreshCw size={16} aria-hidden="true" /> {say('Try again')}
          </Button>
        </div>
      )}
    </div>
  )
}

export function CameraChoice({ camera }: { readonly camera: Camera }) {
  const { cameras, shown, choose } = camera
  if (cameras.length < 2) return undefined
  return (
    <SelectField
      label={say('Camera')}
      labelHidden
      value={shown ?? cameras[0]?.id ?? ''}
      options={cameras.map(({ id, words }) => ({ value: id, words }))}
      onChange={choose}
    />
  )
}
