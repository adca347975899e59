/** The board's side as it is seen, with the four points and the straightened photo under its parts. */
import { useEffect, useMemo, useRef } from 'react'
import { type Box, decimals, type Point, say } from '../../../../base/index.ts'
import type { BoardModel, Side } from '../../../../board/index.ts'
import styles from './match.module.css'
import { catchPoints, caught, clampTo, type Pair } from './pairs.ts'
import { PointHandle, ratioOf, shareOf } from './PointHandle.tsx'
import type { Preview } from './preview.ts'

interface BoardPadProps {
  readonly model: BoardModel
  readonly side: Side
  readonly pairs: readonly Pair[]
  readonly active: number
  readonly catching: boolean
  readonly preview: Preview | undefined
  readonly onTake: (index: number) => void
  readonly onMove: (index: number, at: Point) => void
}

const FINE_MM = 0.1
const FAR_MM = 2
const CATCH_PX = 14

export function BoardPad({ model, side, pairs, active, catching, preview, onTake, onMove }: BoardPadProps) {
  const { box } = model
  const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY]
  const mirrored = side === 'bottom'
  const catches = useMemo(() => (catching ? catchPoints(model, side) : []), [model, side, catching])
  const pad = useRef<HTMLDivElement>(null)
  const place = (share: Point): Point => {
    const at = {
      x: mirrored ? box.maxX - share.x * widthMm : box.minX + share.x * widthMm,
      y: box.maxY - share.y * heightMm,
    }
    const reachMm = (CATCH_PX * widthMm) / Math.max(1, pad.current?.clientWidth ?? 1)
    return rounded(caught(at, catches, reachMm))
  }
  return (
    <div className={styles.fit}>
      <div
        ref={pad}
        className={styles.pad}
        data-board="true"
        style={ratioOf(widthMm / heightMm)}
        onPointerDown={(event) => onMove(active, place(shareOf(event, event.currentTarget)))}
      >
        {preview !== undefined && <Straightened preview={preview} box={box} mirrored={mirrored} />}
        <Drawing model={model} side={side} />
        {pairs.map(({ at }, index) => (
          <PointHandle
            // oxlint-disable-next-line react/no-array-index-key -- the four points are told apart by their place
            key={index}
            number={index + 1}
            label={say('Point {index} on the board, x {x}, y {y} mm', {
              index: index + 1,
              x: decimals(at.x, 1),
              y: decimals(at.y, 1),
            })}
            at={{
              x: (mirrored ? box.maxX - at.x : at.x - box.minX) / widthMm,
              y: (box.maxY - at.y) / heightMm,
            }}
            active={index === active}
            onTake={() => onTake(index)}
            onDrag={(share) => onMove(index, place(share))}
            onStep={(right, down, far) => {
              const step = far ? FAR_MM : FINE_MM
              const to = { x: at.x + (mirrored ? -right : right) * step, y: at.y - down * step }
              onMove(index, rounded(clampTo(to, box)))
            }}
          />
        ))}
      </div>
    </div>
  )
}

const rounded = ({ x, y }: Point): Point => ({ x: Number(x.toFixed(2)), y: Number(y.toFixed(2)) })

interface StraightenedProps {
  readonly preview: Preview
  readonly box: Box
  readonly mirrored: boolean
}

function Straightened({ preview: { image, box: covered }, box, mirrored }: StraightenedProps) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    canvas.current?.getContext('2d')?.putImageData(image, 0, 0)
  }, [image])
  const share = (mm: number, whole: number): string => `${(mm / whole) * 100}%`
  const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY]
  return (
    <canvas
      ref={canvas}
      className={styles.straightened}
      width={image.width}
      height={image.height}
      aria-hidden="true"
      style={{
        left: share(mirrored ? box.maxX - covered.maxX : covered.minX - box.minX, widthMm),
        top: share(box.maxY - covered.maxY, heightMm),
        width: share(covered.maxX - covered.minX, widthMm),
        height: share(covered.maxY - covered.minY, heightMm),
        transform: mirrored ? 'scaleX(-1)' : undefined,
      }}
    />
  )
}

/** Parts smaller than this share of the board's width are left out: they would be specks. */
const SMALLEST_SHARE = 1 / 160

function Drawing({ model, side }: { readonly model: BoardModel; readonly side: Side }) {
  const { box } = model
  const d = useMemo(() => drawn(model, side), [model, side])
  const turn =
    side === 'bottom'
      ? `translate(${box.maxX} ${box.maxY}) scale(-1 -1)`
      : `translate(${-box.minX} ${box.maxY}) scale(1 -1)`
  return (
    <svg
      className={styles.over}
      viewBox={`0 0 ${box.maxX - box.minX} ${box.maxY - box.minY}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <g transform={turn}>
        <path className={styles.partHalo} d={d} />
        <path className={styles.part} d={d} />
      </g>
    </svg>
  )
}

function drawn(model: BoardModel, side: Side): string {
  const least = (model.box.maxX - model.box.minX) * SMALLEST_SHARE
  const closed = (polygon: readonly Point[]): string => `M${polygon.map(({ x, y }) => `${x} ${y}`).join('L')}Z`
  const ring = (at: Point, r: number): string =>
    `M${at.x - r} ${at.y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`
  return [
    closed(model.outline),
    ...model.cutouts.map(closed),
    ...model.drills.filter(({ diameterMm }) => diameterMm >= 2).map(({ at, diameterMm }) => ring(at, diameterMm / 2)),
    ...model.parts
      .filter((part) => part.side === side && Math.max(part.widthMm, part.lengthMm) >= least)
      .map((part) => closed(part.outline)),
  ].join('')
}
