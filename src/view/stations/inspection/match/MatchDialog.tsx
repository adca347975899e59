/** Matching a photo to the board: the same four places set on both, and the photo straightened while they move. */
import { Dialog } from '@base-ui/react/dialog'
import { X } from 'lucide-react'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { sayFault, say } from '../../../../base/index.ts'
import type { BoardModel } from '../../../../board/index.ts'
import type { Photo } from '../../../../case/index.ts'
import { editPhoto, matchPhoto } from '../../../actions/photos.ts'
import { Button } from '../../../controls/Button.tsx'
import controls from '../../../controls/controls.module.css'
import dialog from '../../../controls/dialog.module.css'
import { useBoard, useDesk } from '../../../stores/hooks.ts'
import dialogs from '../dialogs.module.css'
import { usePicture } from '../usePicture.ts'
import { BoardPad } from './BoardPad.tsx'
import styles from './match.module.css'
import { PairFields } from './PairFields.tsx'
import { firstPairs, type Pair, withPair } from './pairs.ts'
import { PhotoPad } from './PhotoPad.tsx'
import { pixelsOf, previewOf } from './preview.ts'

interface MatchDialogProps {
  readonly photo: Photo
  readonly onClose: () => void
}

export function MatchDialog({ photo, onClose }: MatchDialogProps) {
  const board = useBoard()
  const popup = useRef<HTMLDivElement>(null)
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup ref={popup} className={dialog.popup} initialFocus={popup}>
          {board !== undefined && <Content photo={photo} model={board.model} onClose={onClose} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

const PAD_PX = 4096
const SMALL_PX = 900

function Content({ photo, model, onClose }: MatchDialogProps & { readonly model: BoardModel }) {
  const desk = useDesk()
  const [pairs, setPairs] = useState<readonly Pair[]>(() => firstPairs(photo, model.box))
  const [active, setActive] = useState(0)
  const [catching, setCatching] = useState(true)
  const picture = usePicture(photo.id, PAD_PX)
  const change = (index: number, next: Partial<Pair>): void => {
    setActive(index)
    setPairs((before) => withPair(before, index, next))
  }
  const preview = usePreview(photo, model, pairs)
  const wrong = preview !== undefined && !preview.ok
  const shared = { pairs, active, onTake: setActive }
  return (
    <>
      <div className={dialogs.head}>
        <Dialog.Title className={dialogs.title}>{say('Match {name} to the board', { name: photo.name })}</Dialog.Title>
        <Dialog.Description>
          {say(
            'Set the same four places on both, best far apart. Drag a point, or move it with the arrow keys, with shift in large steps.',
          )}
        </Dialog.Description>
        <Dialog.Close
          className={controls.button}
          data-size="icon"
          data-tone="quiet"
          aria-label={say('Close without matching')}
        >
          <X size={18} aria-hidden="true" />
        </Dialog.Close>
      </div>
      <div className={styles.pads}>
        <section aria-label={say('On the photo')}>
          <h3>{say('On the photo')}</h3>
          {picture.state === 'loading' && <p>{say('Opening the picture…')}</p>}
          {picture.state === 'missing' && <p>{say('The picture is not on this machine. Drop the photo again.')}</p>}
          {picture.state === 'there' && (
            <PhotoPad photo={photo} image={picture.image} {...shared} onMove={(index, px) => change(index, { px })} />
          )}
        </section>
        <section aria-label={say('On the board')}>
          <h3>{say('On the board, {side} side as you see it', { side: photo.side })}</h3>
          <BoardPad
            model={model}
            side={photo.side}
            catching={catching}
            preview={preview?.ok === true ? preview.value : undefined}
            {...shared}
            onMove={(index, at) => change(index, { at })}
          />
        </section>
      </div>
      <PairFields
        photo={photo}
        box={model.box}
        {...shared}
        catching={catching}
        onChange={change}
        onCatching={setCatching}
      />
      <div className={styles.foot}>
        <p role="status" data-wrong={wrong}>
          {wrong
            ? preview.faults.map(sayFault).join(' ')
            : say('The photo lies under the board as these points put it. Compare parts in the middle, too.')}
        </p>
        {photo.corners !== undefined && (
          <Button
            onClick={() => {
              editPhoto(desk, photo.id, unmatched)
              onClose()
            }}
          >
            {say('Undo the match')}
          </Button>
        )}
        <Button onClick={() => setPairs(firstPairs(unmatched(photo), model.box))}>{say('Begin again')}</Button>
        <Button
          tone="strong"
          disabled={wrong || picture.state !== 'there'}
          onClick={() => {
            matchPhoto(desk, photo.id, [...pairs])
            onClose()
          }}
        >
          {say('Use this match')}
        </Button>
      </div>
    </>
  )
}

function unmatched(photo: Photo): Photo {
  const { corners: _, ...rest } = photo
  return rest
}

function usePreview(photo: Photo, model: BoardModel, pairs: readonly Pair[]) {
  const small = usePicture(photo.id, SMALL_PX)
  const source = useMemo(() => (small.state === 'there' ? pixelsOf(small.image) : undefined), [small])
  const shown = useDeferredValue(pairs)
  return useMemo(
    () => (source === undefined ? undefined : previewOf(photo, source, [...shown], model.box)),
    [photo, source, shown, model],
  )
}
