/** A new part in the middle of what is seen: from a package, or with a body of its own. */
import { say } from '../../base/index.ts'
import { useState } from 'react'
import { freeRefs, type Part, packageOutlines, type PartKind, partSchema } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField } from '../controls/fields.tsx'
import { edit, select } from './editorStore.ts'
import styles from './own-board.module.css'
import { kindOptions } from './tried.ts'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

/** Letters of refs by kind, as IEEE 315 has them: U integrated circuits, L coils, C capacitors, J connectors, X what is none of these. */
const letters: Readonly<Record<PartKind, string>> = {
  core: 'U',
  memory: 'U',
  'power-stage': 'U',
  controller: 'U',
  inductor: 'L',
  capacitor: 'C',
  connector: 'J',
  other: 'X',
}

const OWN_BODY = 'own body'
const packageOptions = [
  { value: OWN_BODY, words: say('its own body') },
  ...[...packageOutlines.values()].map(({ name, title }) => ({ value: name, words: `${name}: ${title}`.slice(0, 60) })),
]

export function AddPart() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const [kind, setKind] = useState<PartKind>('memory')
  const [from, setFrom] = useState('180-ball')
  const [widthMm, setWidth] = useState(5)
  const [lengthMm, setLength] = useState(6)
  const [heightMm, setHeight] = useState(1)
  const sameKind = board.parts.find((part) => part.kind === kind)?.ref
  const [ref = 'X1'] = freeRefs(board, sameKind ?? letters[kind])
  const add = (): void => {
    const { view } = editor.getState()
    const shape = from === OWN_BODY ? { body: { widthMm, lengthMm, heightMm } } : { package: from }
    const middle = { x: Math.round(view.centre.x * 2) / 2, y: Math.round(view.centre.y * 2) / 2 }
    const core = board.parts.find((part) => part.kind === 'core')
    const isStack = kind === 'memory' && core !== undefined && packageOutlines.get(from)?.joints === 'bumps'
    const place = isStack
      ? { side: core.side, at: core.at, rotationDeg: core.rotationDeg, carriedBy: core.ref }
      : { side: view.side, at: middle }
    const part: Part = partSchema.parse({ ref, kind, ...place, ...shape })
    if (edit(editor, { kind: 'add-part', part })) select(editor, [ref])
  }
  return (
    <div className={styles.fields}>
      <SelectField
        label={say('Kind of the new part')}
        value={kind}
        options={kindOptions}
        onChange={(next) => {
          setKind(next)
          setFrom(next === 'memory' ? '180-ball' : next === 'core' ? 'core-40' : OWN_BODY)
        }}
      />
      <SelectField label={say('Body from')} value={from} options={packageOptions} onChange={setFrom} />
      {from === OWN_BODY && (
        <div className={styles.three}>
          <NumberField label={say('Width')} unit="mm" value={widthMm} min={0.1} max={500} onChange={setWidth} />
          <NumberField label={say('Length')} unit="mm" value={lengthMm} min={0.1} max={500} onChange={setLength} />
          <NumberField label={say('Height')} unit="mm" value={heightMm} min={0} max={100} onChange={setHeight} />
        </div>
      )}
      <Button onClick={add}>{say('Add {ref} in the middle of the sheet', { ref })}</Button>
    </div>
  )
}
