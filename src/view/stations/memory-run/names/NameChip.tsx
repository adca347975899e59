/** One name of a report: taken in the hand by a press, or dragged onto its package. */
import { numberWords, say } from '../../../../base/index.ts'
import { ArrowRight } from 'lucide-react'
import { type PointerEvent, useRef, useState } from 'react'
import type { ForeignName, Meaning } from '../../../../report/index.ts'
import { aimAt, holdName, placeUnder, putNameAt, shortMeaning } from './naming.ts'
import { useDesk } from '../../../stores/hooks.ts'
import styles from './names.module.css'

const DRAG_FROM_PX = 5

interface NameChipProps {
  readonly name: ForeignName
  readonly meaning: Meaning | undefined
  readonly isHeld: boolean
}

export function NameChip({ name: { name, errors }, meaning, isHeld }: NameChipProps) {
  const desk = useDesk()
  const from = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined)
  const dragged = useRef(false)
  const [ghost, setGhost] = useState<{ readonly x: number; readonly y: number } | undefined>(undefined)
  const pageOf = (event: PointerEvent) => ({ x: event.clientX, y: event.clientY })
  const move = (event: PointerEvent<HTMLButtonElement>): void => {
    if (from.current === undefined) return
    const page = pageOf(event)
    if (ghost === undefined && Math.hypot(page.x - from.current.x, page.y - from.current.y) < DRAG_FROM_PX) return
    if (!dragged.current) holdName(desk, name)
    dragged.current = true
    setGhost(page)
    aimAt(desk, placeUnder(desk, page))
  }
  const letGo = (event: PointerEvent<HTMLButtonElement>): void => {
    from.current = undefined
    setGhost(undefined)
    if (!dragged.current) return
    const place = placeUnder(desk, pageOf(event))
    if (place !== undefined) putNameAt(desk, place.at, place.side)
  }
  const means = meaning === undefined ? undefined : shortMeaning(desk, meaning)
  return (
    <>
      <button
        type="button"
        className={styles.chip}
        data-told={means !== undefined}
        aria-pressed={isHeld}
        onPointerDown={(event) => {
          if (event.button > 0) return
          from.current = pageOf(event)
          dragged.current = false
          if (event.isTrusted) event.currentTarget.setPointerCapture(event.pointerId)
        }}
        onPointerMove={move}
        onPointerUp={letGo}
        onPointerCancel={() => {
          from.current = undefined
          setGhost(undefined)
          holdName(desk, undefined)
        }}
        onClick={() => {
          if (!dragged.current) holdName(desk, isHeld ? undefined : name)
          dragged.current = false
        }}
      >
        <b>{name}</b>
        {errors !== undefined && errors > 0 && <small>{numberWords(errors)}</small>}
        {means !== undefined && (
          <>
            <ArrowRight size={13} aria-hidden="true" />
            <span className="visually-hidden">{say('means')}</span>
            <span>{means}</span>
          </>
        )}
      </button>
      {ghost !== undefined && (
        <span className={styles.ghost} style={{ left: ghost.x, top: ghost.y }} aria-hidden="true">
          {name}
        </span>
      )}
    </>
  )
}
