/** The fields of a mark that was seen: place, size, words; a painted one moves whole. */
import { say } from '../../../base/index.ts'
import type { Mark } from '../../../spill/index.ts'
import { editMark, putMark } from '../../actions/edit.ts'
import { NumberField, SelectField, TextField } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { movedMark } from '../../sheet/index.ts'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { PlaceFields } from '../marks/MarkFields.tsx'
import { paintedWords } from './seenKinds.ts'

export function SeenFields({ mark }: { readonly mark: Mark }) {
  const desk = useDesk()
  if (mark.kind === 'spill' || mark.kind === 'dam') return undefined
  return (
    <>
      <PlaceFields
        side={mark.side}
        at={mark.at}
        onChange={({ side, at }) => {
          if (side !== mark.side) editMark(desk, mark.id, (m) => ({ ...m, side }))
          else putMark(desk, movedMark(mark, at), 'move', 'drag')
        }}
      />
      {mark.kind === 'note' ? <NoteWords mark={mark} /> : <AreaFields mark={mark} />}
    </>
  )
}

function NoteWords({ mark }: { readonly mark: Extract<Mark, { kind: 'note' }> }) {
  const desk = useDesk()
  return (
    <TextField
      label={say('Words')}
      value={mark.text}
      maxLength={2000}
      onChange={(text) =>
        text !== '' && editMark(desk, mark.id, (m) => (m.kind === 'note' ? { ...m, text } : m), `text ${mark.id}`)
      }
    />
  )
}

type SeenMark = Extract<Mark, { radiusMm: number }>

function AreaFields({ mark }: { readonly mark: SeenMark }) {
  const desk = useDesk()
  const painted = paintedWords(mark)
  const lassoed = mark.kind !== 'slip' && mark.outline !== undefined
  const change = (next: SeenChange, what: string): void =>
    editMark(desk, mark.id, (m) => (isSeen(m) ? withFields(m, next) : m), `${what} ${mark.id}`)
  return (
    <>
      {painted !== undefined && <p className={styles.quiet}>{painted}</p>}
      {!lassoed && (
        <NumberField
          label={painted === undefined ? say('Radius') : say('Half the brush’s width')}
          unit="mm"
          min={0.2}
          max={500}
          step={0.5}
          value={Number(mark.radiusMm.toFixed(1))}
          onChange={(radiusMm) => change({ radiusMm }, 'radius')}
        />
      )}
      {mark.kind !== 'slip' && <SeenOnPhoto mark={mark} />}
      <TextField
        label={say('Note')}
        value={mark.note ?? ''}
        maxLength={2000}
        onChange={(note) => change({ note }, 'note')}
      />
    </>
  )
}

const isSeen = (mark: Mark): mark is SeenMark => 'radiusMm' in mark

type SeenChange = { readonly radiusMm: number } | { readonly note: string }

const withFields = (mark: SeenMark, next: SeenChange): Mark => ({ ...mark, ...next })

const NO_PHOTO = ''

/** Which photo of the case shows it. */
function SeenOnPhoto({ mark }: { readonly mark: Exclude<SeenMark, { kind: 'slip' }> }) {
  const desk = useDesk()
  const photos = usePresent()?.photos ?? []
  if (photos.length === 0) return undefined
  const options = [
    { value: NO_PHOTO, words: say('none') },
    ...photos.map((photo) => ({ value: photo.id, words: photo.name })),
  ]
  return (
    <SelectField
      label={say('Seen on the photo')}
      value={mark.photo ?? NO_PHOTO}
      options={options}
      onChange={(photo) =>
        editMark(desk, mark.id, (m) => {
          if (m.kind === 'spill' || m.kind === 'dam' || m.kind === 'note' || m.kind === 'slip') return m
          const { photo: _, ...rest } = m
          return photo === NO_PHOTO ? rest : { ...rest, photo }
        })
      }
    />
  )
}
