/** A mark by its numbers, for who does not draw. */
import { say } from '../../../base/index.ts'
import { useState } from 'react'
import { addMark } from '../../actions/edit.ts'
import { Button } from '../../controls/Button.tsx'
import { NumberField, SelectField } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import type { MarkDraft } from '../../sheet/index.ts'
import { useBoard, useDesk } from '../../stores/hooks.ts'
import { PlaceFields } from '../marks/MarkFields.tsx'
import { type SeenKind, seenKinds } from './seenKinds.ts'

const options = seenKinds.map(({ value, words }) => ({ value, words }))

export function TypedMark() {
  const desk = useDesk()
  const box = useBoard()?.model.box
  const [kind, setKind] = useState<SeenKind>('residue')
  const [radiusMm, setRadiusMm] = useState(3)
  const [place, setPlace] = useState<Pick<MarkDraft & { kind: 'spill' }, 'side' | 'at'>>({
    side: 'top',
    at: {
      x: Math.round(((box?.minX ?? 0) + (box?.maxX ?? 0)) / 2),
      y: Math.round(((box?.minY ?? 0) + (box?.maxY ?? 0)) / 2),
    },
  })
  return (
    <div className={styles.section}>
      <SelectField label={say('Kind')} value={kind} options={options} onChange={setKind} />
      <PlaceFields side={place.side} at={place.at} onChange={setPlace} />
      <NumberField label={say('Radius')} unit="mm" min={0.2} max={500} value={radiusMm} onChange={setRadiusMm} />
      <Button onClick={() => addMark(desk, { kind, radiusMm, ...place })}>{say('Add this mark')}</Button>
    </div>
  )
}
