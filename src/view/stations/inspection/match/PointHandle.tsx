/** One of the four points on a pad: dragged, or moved with the arrow keys; shift takes large steps. */
import type { CSSProperties, PointerEvent } from 'react'
import type { Point } from '../../../../base/index.ts'
import styles from './match.module.css'

interface PointHandleProps {
  readonly number: number
  readonly label: string
  /** Where on the pad, as shares of its width and height, y down. */
  readonly at: Point
  readonly active: boolean
  readonly onTake: () => void
  readonly onDrag: (at: Point) => void
  /** Steps to the right and down as seen. */
  readonly onStep: (right: number, down: number, far: boolean) => void
}

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

export function PointHandle({ number, label, at, active, onTake, onDrag, onStep }: PointHandleProps) {
  return (
    <button
      type="button"
      className={styles.handle}
      data-active={active}
      style={{ left: `${at.x * 100}%`, top: `${at.y * 100}%` }}
      aria-label={label}
      onFocus={onTake}
      onPointerDown={(event) => {
        event.stopPropagation()
        if (event.isTrusted) event.currentTarget.setPointerCapture(event.pointerId)
        event.currentTarget.focus()
      }}
      onPointerMove={(event) => event.buttons === 1 && onDrag(shareOf(event, event.currentTarget.parentElement))}
      onKeyDown={(event) => {
        const step = STEPS[event.key]
        if (step === undefined) return
        event.preventDefault()
        event.stopPropagation()
        onStep(step[0], step[1], event.shiftKey)
      }}
    >
      <span>{number}</span>
    </button>
  )
}

/** A pad as large as fits, with this ratio of width to height. */
export const ratioOf = (ratio: number): CSSProperties & { readonly '--ratio': string } => ({ '--ratio': String(ratio) })

/** Where a pointer is on a pad, as shares of its sides. */
export function shareOf(event: PointerEvent, pad: Element | null): Point {
  const box = pad?.getBoundingClientRect()
  if (box === undefined || box.width === 0 || box.height === 0) return { x: 0, y: 0 }
  const share = (value: number): number => Math.min(1, Math.max(0, value))
  return { x: share((event.clientX - box.left) / box.width), y: share((event.clientY - box.top) / box.height) }
}
