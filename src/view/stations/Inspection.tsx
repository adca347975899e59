/** Inspection: what was seen on the board, and where nothing was; each mark is drawn, or typed by its place. */
import { useState } from 'react'
import type { Mark } from '../../spill/index.ts'
import { addMark, editMark } from '../actions/edit.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField, TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'
import type { MarkDraft, Tool } from '../sheet/index.ts'
import { useBoard, useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import { MarkList } from './MarkList.tsx'
import { PlaceFields } from './MarkFields.tsx'

type SeenKind = 'residue' | 'film' | 'corrosion' | 'clean' | 'slip'

const kinds: readonly { readonly value: SeenKind; readonly words: string; readonly help: string }[] = [
  { value: 'residue', words: 'Residue', help: 'dried or sticky' },
  { value: 'film', words: 'Film', help: 'wet or greasy' },
  { value: 'corrosion', words: 'Corrosion', help: 'eaten or green' },
  { value: 'clean', words: 'Clean spot', help: 'looked, nothing there' },
  { value: 'slip', words: 'Slip of a tool', help: 'scratched, knocked' },
]

const seenMarks = (marks: readonly Mark[]): Mark[] =>
  marks.filter((mark) => mark.kind !== 'spill' && mark.kind !== 'dam')

const nameOf = (mark: Mark): string => kinds.find((kind) => kind.value === mark.kind)?.words ?? 'Note'

export function Inspection() {
  const desk = useDesk()
  const present = usePresent()
  const tool = useScreen((screen) => screen.tool)
  if (present === undefined) return undefined
  const take = (next: Tool): void => desk.screen.setState({ tool: tool === next ? 'select' : next })
  const marks = seenMarks(present.marks)
  return (
    <section className={styles.section} aria-label="Inspection">
      <div className={styles.heading}>
        <h2>Inspection</h2>
        <span>what you see, and where there is nothing</span>
      </div>
      <div className={styles.row}>
        {kinds.map((kind) => (
          <Button
            key={kind.value}
            aria-pressed={tool === kind.value}
            tone={tool === kind.value ? 'strong' : 'plain'}
            title={kind.help}
            onClick={() => take(kind.value)}
          >
            {kind.words}
          </Button>
        ))}
      </div>
      <p className={styles.quiet}>
        Choose one, then drag a circle on the sheet. A clean spot says as much as a dirty one.
      </p>
      {marks.length > 0 && (
        <MarkList
          label="Seen on the board"
          marks={marks}
          nameOf={nameOf}
          fieldsOf={(mark) => <SeenFields mark={mark} />}
        />
      )}
      <Opening summary="Type a mark’s place instead">
        <TypedMark />
      </Opening>
      <StationCautions station="inspection" title="While you look and clean" />
    </section>
  )
}

function SeenFields({ mark }: { readonly mark: Mark }) {
  const desk = useDesk()
  if (mark.kind === 'spill' || mark.kind === 'dam') return undefined
  return (
    <>
      <PlaceFields
        side={mark.side}
        at={mark.at}
        onChange={(place) => editMark(desk, mark.id, (m) => ({ ...m, ...place }), `place ${mark.id}`)}
      />
      {mark.kind === 'note' ? (
        <TextField
          label="Words"
          value={mark.text}
          maxLength={2000}
          onChange={(text) =>
            text !== '' && editMark(desk, mark.id, (m) => (m.kind === 'note' ? { ...m, text } : m), `text ${mark.id}`)
          }
        />
      ) : (
        <>
          <NumberField
            label="Radius"
            unit="mm"
            min={0.2}
            max={500}
            step={0.5}
            value={Number(mark.radiusMm.toFixed(1))}
            onChange={(radiusMm) =>
              editMark(desk, mark.id, (m) => ('radiusMm' in m ? { ...m, radiusMm } : m), `radius ${mark.id}`)
            }
          />
          <TextField
            label="Note"
            value={mark.note ?? ''}
            maxLength={2000}
            onChange={(note) =>
              editMark(desk, mark.id, (m) => ('radiusMm' in m ? { ...m, note } : m), `note ${mark.id}`)
            }
          />
        </>
      )}
    </>
  )
}

const kindOptions = kinds.map(({ value, words }) => ({ value, words }))

function TypedMark() {
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
      <SelectField label="Kind" value={kind} options={kindOptions} onChange={setKind} />
      <PlaceFields side={place.side} at={place.at} onChange={setPlace} />
      <NumberField label="Radius" unit="mm" min={0.2} max={500} value={radiusMm} onChange={setRadiusMm} />
      <Button onClick={() => addMark(desk, { kind, radiusMm, ...place })}>Add this mark</Button>
    </div>
  )
}
