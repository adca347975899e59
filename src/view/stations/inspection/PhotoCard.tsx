/** One photo: small, with its match, how strongly it shows, its side, when it was taken, and a note. */
import { Grid2x2, Trash2 } from 'lucide-react'
import { useId, useState } from 'react'
import { sayFault, say } from '../../../base/index.ts'
import type { Photo } from '../../../case/index.ts'
import { editPhoto, removePhoto, turnPhoto } from '../../actions/photos.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice, TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePhotos } from '../../stores/hooks.ts'
import { FullPhoto } from './FullPhoto.tsx'
import own from './inspection.module.css'
import { MatchDialog } from './match/MatchDialog.tsx'
import { PhotoThumb } from './PhotoThumb.tsx'

export function PhotoCard({ photo }: { readonly photo: Photo }) {
  const desk = useDesk()
  const [open, setOpen] = useState<'full' | 'match' | undefined>()
  const close = (): void => setOpen(undefined)
  return (
    <article className={own.card} aria-label={photo.name}>
      <button
        type="button"
        className={own.look}
        aria-label={say('Look at {name}', { name: photo.name })}
        onClick={() => setOpen('full')}
      >
        <PhotoThumb id={photo.id} />
      </button>
      <div className={own.about}>
        <div className={own.named}>
          <b title={photo.name}>{photo.name}</b>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Remove {name}', { name: photo.name })}
            title={say('Remove; undo brings it back')}
            onClick={() => removePhoto(desk, photo.id)}
          >
            <Trash2 size={15} aria-hidden="true" />
          </Button>
        </div>
        <StateWords photo={photo} />
        <Button className={own.match} onClick={() => setOpen('match')}>
          <Grid2x2 size={15} aria-hidden="true" />{' '}
          {photo.corners === undefined ? say('Match to the board') : say('Match again')}
        </Button>
      </div>
      <div className={own.below}>
        {photo.corners !== undefined && <Shown photo={photo} />}
        <Opening summary={say('Side, time and note')}>
          <PhotoFields photo={photo} />
        </Opening>
      </div>
      {open === 'full' && <FullPhoto photo={photo} onClose={close} />}
      {open === 'match' && <MatchDialog photo={photo} onClose={close} />}
    </article>
  )
}

function StateWords({ photo }: { readonly photo: Photo }) {
  const ready = usePhotos((state) => state.straightened.get(photo.id))
  const matched =
    photo.corners === undefined
      ? say('not matched yet')
      : ready?.state === 'working'
        ? say('being straightened')
        : ready?.state === 'failed'
          ? say('could not be straightened')
          : say('matched')
  return (
    <>
      <span className={styles.quiet}>
        {say('{side}, {phase} the work, {matched}', { side: photo.side, phase: photo.phase, matched })}
      </span>
      {ready?.state === 'failed' && photo.corners !== undefined && (
        <p className={own.fault}>{ready.faults.map(sayFault).join(' ')}</p>
      )}
    </>
  )
}

function Shown({ photo }: { readonly photo: Photo }) {
  const desk = useDesk()
  const id = useId()
  return (
    <div className={own.shown}>
      <label htmlFor={id}>{say('Under the drawing')}</label>
      <output htmlFor={id}>{photo.shownPct === 0 ? say('hidden') : `${photo.shownPct} %`}</output>
      <input
        id={id}
        type="range"
        min={0}
        max={100}
        step={5}
        value={photo.shownPct}
        aria-valuetext={photo.shownPct === 0 ? say('hidden') : say('{shownPct} percent', { shownPct: photo.shownPct })}
        onChange={(event) => {
          const shownPct = Number(event.target.value)
          editPhoto(desk, photo.id, (p) => ({ ...p, shownPct }), `shown ${photo.id}`)
        }}
      />
    </div>
  )
}

const sides = [
  { value: 'top', words: say('Top') },
  { value: 'bottom', words: say('Bottom') },
] as const
const phases = [
  { value: 'before', words: say('Before the work') },
  { value: 'after', words: say('After it') },
] as const

function PhotoFields({ photo }: { readonly photo: Photo }) {
  const desk = useDesk()
  return (
    <div className={own.fields}>
      <Choice
        label={say('It shows the side')}
        value={photo.side}
        options={sides}
        onChange={(side) => turnPhoto(desk, photo.id, side)}
        {...(photo.corners === undefined ? {} : { hint: say('The other side needs a new match.') })}
      />
      <Choice
        label={say('Taken')}
        value={photo.phase}
        options={phases}
        onChange={(phase) => editPhoto(desk, photo.id, (p) => ({ ...p, phase }))}
      />
      <TextField
        label={say('Note')}
        value={photo.note ?? ''}
        maxLength={2000}
        onChange={(note) => editPhoto(desk, photo.id, (p) => ({ ...p, note }), `note ${photo.id}`)}
      />
    </div>
  )
}
