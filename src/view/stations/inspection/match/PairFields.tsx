/** The point that is held, as numbers: all that can be dragged can be typed. */
import { type Box, say } from '../../../../base/index.ts'
import type { Photo } from '../../../../case/index.ts'
import { Choice, NumberField, Tick } from '../../../controls/fields.tsx'
import styles from './match.module.css'
import type { Pair } from './pairs.ts'

interface PairFieldsProps {
  readonly photo: Photo
  readonly box: Box
  readonly pairs: readonly Pair[]
  readonly active: number
  readonly catching: boolean
  readonly onTake: (index: number) => void
  readonly onChange: (index: number, change: Partial<Pair>) => void
  readonly onCatching: (catching: boolean) => void
}

const numbers = ['1', '2', '3', '4'].map((value) => ({ value, words: value }))

export function PairFields(props: PairFieldsProps) {
  const { photo, box, pairs, active, catching, onTake, onChange, onCatching } = props
  const pair = pairs[active]
  if (pair === undefined) return undefined
  const { px, at } = pair
  const tenth = (value: number): number => Number(value.toFixed(1))
  return (
    <div className={styles.numbers}>
      <Choice
        label={say('Point')}
        value={String(active + 1)}
        options={numbers}
        onChange={(number) => onTake(Number(number) - 1)}
      />
      <NumberField
        label={say('Photo, across')}
        unit="px"
        min={0}
        max={photo.widthPx}
        value={tenth(px.x)}
        onChange={(x) => onChange(active, { px: { x, y: px.y } })}
      />
      <NumberField
        label={say('Photo, down')}
        unit="px"
        min={0}
        max={photo.heightPx}
        value={tenth(px.y)}
        onChange={(y) => onChange(active, { px: { x: px.x, y } })}
      />
      <NumberField
        label={say('Board, x')}
        unit="mm"
        min={tenth(box.minX)}
        max={tenth(box.maxX)}
        step={0.1}
        value={Number(at.x.toFixed(2))}
        onChange={(x) => onChange(active, { at: { x, y: at.y } })}
      />
      <NumberField
        label={say('Board, y')}
        unit="mm"
        min={tenth(box.minY)}
        max={tenth(box.maxY)}
        step={0.1}
        value={Number(at.y.toFixed(2))}
        onChange={(y) => onChange(active, { at: { x: at.x, y } })}
      />
      <Tick label={say('Catch on holes and part corners')} checked={catching} onChange={onCatching} />
    </div>
  )
}
