/** The photo with its four points and the loupe. */
import { useEffect, useRef } from 'react'
import { type Point, say } from '../../../../base/index.ts'
import type { Photo } from '../../../../case/index.ts'
import { Loupe } from './Loupe.tsx'
import styles from './match.module.css'
import { clampTo, type Pair } from './pairs.ts'
import { PointHandle, ratioOf, shareOf } from './PointHandle.tsx'

interface PhotoPadProps {
  readonly photo: Photo
  readonly image: ImageBitmap
  readonly pairs: readonly Pair[]
  readonly active: number
  readonly onTake: (index: number) => void
  readonly onMove: (index: number, px: Point) => void
}

/** An arrow key's step, as a share of the photo's longer side: fine, and with shift. */
const FINE = 1 / 2000
const FAR = 1 / 50
const LOUPE_SHARE = 1 / 12

export function PhotoPad({ photo, image, pairs, active, onTake, onMove }: PhotoPadProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    canvas.current?.getContext('2d')?.drawImage(image, 0, 0)
  }, [image])
  const { widthPx, heightPx } = photo
  const longest = Math.max(widthPx, heightPx)
  const frame = { minX: 0, minY: 0, maxX: widthPx, maxY: heightPx }
  const toPx = (share: Point): Point => ({ x: share.x * widthPx, y: share.y * heightPx })
  const held = pairs[active]?.px
  const scale = image.width / widthPx
  return (
    <div className={styles.fit}>
      <div
        className={styles.pad}
        style={ratioOf(widthPx / heightPx)}
        onPointerDown={(event) => onMove(active, toPx(shareOf(event, event.currentTarget)))}
      >
        <canvas ref={canvas} width={image.width} height={image.height} className={styles.picture} aria-hidden="true" />
        <svg
          className={styles.over}
          viewBox={`0 0 ${widthPx} ${heightPx}`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <polygon className={styles.halo} points={pairs.map(({ px }) => `${px.x},${px.y}`).join(' ')} />
          <polygon className={styles.quad} points={pairs.map(({ px }) => `${px.x},${px.y}`).join(' ')} />
        </svg>
        {pairs.map(({ px }, index) => (
          <PointHandle
            // oxlint-disable-next-line react/no-array-index-key -- the four points are told apart by their place
            key={index}
            number={index + 1}
            label={say('Point {index} on the photo, {x} across, {y} down, in pixels', {
              index: index + 1,
              x: Math.round(px.x),
              y: Math.round(px.y),
            })}
            at={{ x: px.x / widthPx, y: px.y / heightPx }}
            active={index === active}
            onTake={() => onTake(index)}
            onDrag={(share) => onMove(index, toPx(share))}
            onStep={(right, down, far) => {
              const step = Math.max(1, longest * (far ? FAR : FINE))
              onMove(index, clampTo({ x: px.x + right * step, y: px.y + down * step }, frame))
            }}
          />
        ))}
        {held !== undefined && (
          <Loupe
            image={image}
            at={{ x: held.x * scale, y: held.y * scale }}
            across={Math.max(24, Math.max(image.width, image.height) * LOUPE_SHARE)}
            share={{ x: held.x / widthPx, y: held.y / heightPx }}
          />
        )}
      </div>
    </div>
  )
}
