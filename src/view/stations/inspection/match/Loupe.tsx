/** What lies under the active point, enlarged, with a cross at the very place. */
import { useEffect, useRef } from 'react'
import type { Point } from '../../../../base/index.ts'
import styles from './match.module.css'

interface LoupeProps {
  readonly image: ImageBitmap
  /** In pixels of the image. */
  readonly at: Point
  /** Image pixels across. */
  readonly across: number
  /** Where on the pad the point is, as shares of its sides: the loupe stands above it, or below where there is no room. */
  readonly share: Point
}

const SIZE_PX = 150

export function Loupe({ image, at, across, share }: LoupeProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const ctx = canvas.current?.getContext('2d')
    if (ctx === null || ctx === undefined) return
    ctx.clearRect(0, 0, SIZE_PX, SIZE_PX)
    ctx.imageSmoothingEnabled = across > SIZE_PX / 3
    const scale = SIZE_PX / across
    ctx.drawImage(
      image,
      SIZE_PX / 2 - at.x * scale,
      SIZE_PX / 2 - at.y * scale,
      image.width * scale,
      image.height * scale,
    )
    for (const [width, colour] of [
      [3, '#fffdf7'],
      [1.2, '#2b2a27'],
    ] as const) {
      ctx.lineWidth = width
      ctx.strokeStyle = colour
      ctx.beginPath()
      ctx.moveTo(SIZE_PX / 2, 0)
      ctx.lineTo(SIZE_PX / 2, SIZE_PX)
      ctx.moveTo(0, SIZE_PX / 2)
      ctx.lineTo(SIZE_PX, SIZE_PX / 2)
      ctx.stroke()
    }
  }, [image, at.x, at.y, across])
  return (
    <canvas
      ref={canvas}
      className={styles.loupe}
      data-side={share.y > 0.42 ? 'above' : 'below'}
      style={{ left: `${Math.min(0.86, Math.max(0.14, share.x)) * 100}%`, top: `${share.y * 100}%` }}
      width={SIZE_PX}
      height={SIZE_PX}
      aria-hidden="true"
    />
  )
}
