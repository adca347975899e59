/** A photo, small: drawn once from its bytes, so that no list ever holds a full picture. */
import { say } from '../../../base/index.ts'
import { ImageOff } from 'lucide-react'
import { useEffect, useRef } from 'react'
import styles from './inspection.module.css'
import { usePicture } from './usePicture.ts'

const LONGEST_PX = 192

export function PhotoThumb({ id }: { readonly id: string }) {
  const picture = usePicture(id, LONGEST_PX)
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    if (picture.state === 'there') canvas.current?.getContext('2d')?.drawImage(picture.image, 0, 0)
  }, [picture])
  if (picture.state === 'missing')
    return (
      <span className={styles.thumb} title={say('The picture is not on this machine')}>
        <ImageOff size={20} aria-hidden="true" />
      </span>
    )
  if (picture.state === 'loading') return <span className={styles.thumb} />
  return (
    <canvas
      ref={canvas}
      className={styles.thumb}
      width={picture.image.width}
      height={picture.image.height}
      aria-hidden="true"
    />
  )
}
