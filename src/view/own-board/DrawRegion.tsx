/** A region of a part drawn by hand: its name, the lanes that end in it, and its box, on the sheet or by numbers. */
import { say } from '../../base/index.ts'
import { X } from 'lucide-react'
import { useState } from 'react'
import { laneIdsOn, type Part, partBox } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, TextField, Tick } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { edit, type RegionWish } from './editorStore.ts'
import styles from './own-board.module.css'
import { useEditedBoard, useEditor, useEditorStore } from './useEditor.ts'

export function DrawRegion({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const isDrawing = useEditor(({ tool }) => tool === 'region')
  const [name, setName] = useState('')
  const [going, setGoing] = useState<readonly string[]>([])
  const lanes = laneIdsOn(board, part)
  const wish: RegionWish = { ref: part.ref, region: name.trim(), lanes: going.filter((id) => lanes.includes(id)) }
  return (
    <div className={styles.fields}>
      <DrawnRegions part={part} />
      <TextField
        label={say('Name of the region of {ref}', { ref: part.ref })}
        hint={say('A lane ends in the region of its own name, and in the one ticked here.')}
        value={name}
        maxLength={120}
        onChange={(typed) => {
          setName(typed)
          editor.setState({ tool: 'select', regionWish: undefined })
        }}
      />
      <div className={styles.laneTicks}>
        {lanes.map((id) => (
          <Tick
            key={id}
            label={say('{id} ends in it', { id })}
            checked={going.includes(id)}
            onChange={(on) => {
              setGoing((all) => (on ? [...all, id] : all.filter((each) => each !== id)))
              editor.setState({ tool: 'select', regionWish: undefined })
            }}
          />
        ))}
      </div>
      <Button
        tone="strong"
        disabled={wish.region === ''}
        aria-pressed={isDrawing}
        onClick={() =>
          editor.setState(isDrawing ? { tool: 'select', regionWish: undefined } : { tool: 'region', regionWish: wish })
        }
      >
        {isDrawing ? say('Drag its box on the sheet; here to stop') : say('Draw its box on the sheet')}
      </Button>
      <Opening summary={say('By numbers')}>
        <BoxByNumbers key={part.ref} part={part} wish={wish} />
      </Opening>
    </div>
  )
}

function DrawnRegions({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  if (part.regions === undefined) return undefined
  return (
    <ul className={styles.lanes} aria-label={say('Drawn regions of {ref}', { ref: part.ref })}>
      {part.regions.map(({ name }) => (
        <li key={name}>
          <span>{name}</span>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Take region {name} away', { name })}
            onClick={() => edit(editor, { kind: 'forget-region', ref: part.ref, region: name })}
          >
            <X size={15} aria-hidden="true" />
          </Button>
        </li>
      ))}
    </ul>
  )
}

/** Begins with the left half of the part. */
function BoxByNumbers({ part, wish }: { readonly part: Part; readonly wish: RegionWish }) {
  const editor = useEditorStore()
  const [box, setBox] = useState(() => {
    const { minX, minY, maxX, maxY } = partBox(part)
    return { left: round(minX), right: round((minX + maxX) / 2), lower: round(minY), upper: round(maxY) }
  })
  const draw = (): void => {
    edit(editor, {
      kind: 'draw-region',
      ...wish,
      lanes: [...wish.lanes],
      corners: [
        { x: box.left, y: box.lower },
        { x: box.right, y: box.upper },
      ],
    })
  }
  return (
    <div className={styles.fields}>
      <div className={styles.two}>
        {(['left', 'right', 'lower', 'upper'] as const).map((edge) => (
          <NumberField
            key={edge}
            label={say('{edge, select, left {Left edge} right {Right edge} lower {Lower edge} other {Upper edge}}', {
              edge,
            })}
            unit="mm"
            min={-2000}
            max={2000}
            value={box[edge]}
            onChange={(mm) => setBox((now) => ({ ...now, [edge]: mm }))}
          />
        ))}
      </div>
      <Button disabled={wish.region === ''} onClick={draw}>
        {say('Draw it there')}
      </Button>
    </div>
  )
}

const round = (mm: number): number => Math.round(mm * 10) / 10
