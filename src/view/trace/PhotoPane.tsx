/** A photo that is clicked: zoomed by buttons, scrolled by hand, and with a cross that the arrow keys move. */
import { Maximize, ZoomIn, ZoomOut } from 'lucide-react'
import { type KeyboardEvent, type MouseEvent, type ReactNode, useEffect, useRef, useState } from 'react'
import { type Point, say } from '../../base/index.ts'
import { Button } from '../controls/Button.tsx'
import styles from './trace.module.css'

interface PhotoPaneProps {
  readonly picture: ImageBitmap
  /** What it shows, for those who can't see it. */
  readonly label: string
  /** Drawn over it, in the picture's pixels. */
  readonly children: ReactNode
  /** Where it was clicked, in the picture's pixels. */
  readonly onPoint: (at: Point) => void
}

const ZOOM = { least: 1, most: 8, step: 1.5 }
const KEY_STEP_PX = 12

export function PhotoPane({ picture, label, children, onPoint }: PhotoPaneProps) {
  const { width, height } = picture
  const canvas = useRef<HTMLCanvasElement>(null)
  const [zoom, setZoom] = useState<number>(ZOOM.least)
  const [cross, setCross] = useState<Point>()
  useEffect(() => {
    canvas.current?.getContext('2d')?.drawImage(picture, 0, 0)
  }, [picture])
  const click = (event: MouseEvent<HTMLDivElement>): void => {
    const box = event.currentTarget.getBoundingClientRect()
    onPoint({
      x: ((event.clientX - box.left) / box.width) * width,
      y: ((event.clientY - box.top) / box.height) * height,
    })
  }
  const press = (event: KeyboardEvent): void => {
    const at = cross ?? { x: width / 2, y: height / 2 }
    const step = event.shiftKey ? 1 : KEY_STEP_PX
    const moved = MOVES[event.key]
    if (moved !== undefined) setCross({ x: at.x + moved.x * step, y: at.y + moved.y * step })
    else if (event.key === 'Enter' || event.key === ' ') onPoint(at)
    else return
    event.preventDefault()
  }
  const zoomBy = (factor: number): void =>
    setZoom((before) => Math.min(ZOOM.most, Math.max(ZOOM.least, before * factor)))
  return (
    <div className={styles.pane}>
      <div className={styles.scroll}>
        {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions */}
        <div
          className={styles.photo}
          role="application"
          aria-roledescription={say('photo to click on')}
          aria-label={say('{label} Arrow keys move a cross, Enter clicks there.', { label })}
          tabIndex={0}
          style={{
            width: `calc(min(100cqw, 100cqh * ${width / height}) * ${zoom})`,
            aspectRatio: `${width} / ${height}`,
          }}
          onClick={click}
          onKeyDown={press}
          onBlur={() => setCross(undefined)}
        >
          <canvas ref={canvas} width={width} height={height} aria-hidden="true" />
          <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
            {children}
            {cross !== undefined && (
              <path className={styles.cross} d={`M${cross.x - 20} ${cross.y}h40M${cross.x} ${cross.y - 20}v40`} />
            )}
          </svg>
        </div>
      </div>
      <div className={styles.zoom}>
        <Button size="icon" aria-label={say('Larger')} title={say('Larger')} onClick={() => zoomBy(ZOOM.step)}>
          <ZoomIn size={16} aria-hidden="true" />
        </Button>
        <Button size="icon" aria-label={say('Smaller')} title={say('Smaller')} onClick={() => zoomBy(1 / ZOOM.step)}>
          <ZoomOut size={16} aria-hidden="true" />
        </Button>
        <Button
          size="icon"
          aria-label={say('Whole photo')}
          title={say('Whole photo')}
          onClick={() => setZoom(ZOOM.least)}
        >
          <Maximize size={16} aria-hidden="true" />
        </Button>
      </div>
    </div>
  )
}

const MOVES: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
}
