/** Where a mark is, as numbers: side, x and y; so that everything the hand can draw can be typed. */
import { type Point, say } from '../../../base/index.ts'
import type { Side } from '../../../board/index.ts'
import { Choice, NumberField } from '../../controls/fields.tsx'
import { useBoard } from '../../stores/hooks.ts'
import styles from '../../controls/panel.module.css'

interface PlaceFieldsProps {
  readonly side: Side
  readonly at: Point
  readonly onChange: (place: { readonly side: Side; readonly at: Point }) => void
}

const sides = [
  { value: 'top', words: say('Top') },
  { value: 'bottom', words: say('Bottom') },
] as const

export function PlaceFields({ side, at, onChange }: PlaceFieldsProps) {
  const box = useBoard()?.model.box
  const limits = box ?? { minX: -2000, maxX: 2000, minY: -2000, maxY: 2000 }
  const tenth = (mm: number): number => Number(mm.toFixed(1))
  return (
    <>
      <Choice label={say('Side')} value={side} options={sides} onChange={(next) => onChange({ side: next, at })} />
      <div className={styles.two}>
        <NumberField
          label={say('x from the left')}
          unit="mm"
          value={tenth(at.x)}
          min={tenth(limits.minX)}
          max={tenth(limits.maxX)}
          onChange={(x) => onChange({ side, at: { x, y: at.y } })}
        />
        <NumberField
          label={say('y from below')}
          unit="mm"
          value={tenth(at.y)}
          min={tenth(limits.minY)}
          max={tenth(limits.maxY)}
          onChange={(y) => onChange({ side, at: { x: at.x, y } })}
        />
      </div>
    </>
  )
}
