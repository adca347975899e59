/** Asks which card a new case is about: a board of one's own, one from a file, a photo or a pattern; examples stand apart. */
import { say } from '../../base/index.ts'
import { Dialog } from '@base-ui/react/dialog'
import { Camera } from 'lucide-react'
import { useEffect, useId, useMemo, useRef, useState } from 'react'
import { leaveStart } from '../actions/open.ts'
import dialog from '../controls/dialog.module.css'
import { Button } from '../controls/Button.tsx'
import { DialogHead } from '../controls/DialogHead.tsx'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { TraceBoard } from '../trace/TraceBoard.tsx'
import { Examples } from './Examples.tsx'
import { OwnBoardChoices } from './OwnBoardChoices.tsx'
import { firstDraft, freeBoardName } from './patternDraft.ts'
import { PatternForm } from './PatternForm.tsx'
import styles from './start.module.css'
import { Supplies } from './Supplies.tsx'
import { useOwnBoards } from './useOwnBoards.ts'

export function StartCase() {
  const desk = useDesk()
  const open = useScreen((screen) => screen.startOpen)
  const popup = useRef<HTMLDivElement>(null)
  return (
    <Dialog.Root open={open} onOpenChange={(next) => next || leaveStart(desk)}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup
          ref={popup}
          className={`${dialog.popup} ${styles.start}`}
          initialFocus={() => popup.current?.querySelector<HTMLElement>('form select') ?? true}
        >
          <Content />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

function Content() {
  const { boards } = useDesk()
  const own = useOwnBoards()
  const id = useId()
  const photoId = useId()
  const [tracing, setTracing] = useState(false)
  const freeName = useMemo(() => freeBoardName(own.names), [own.names])
  // the worker that reads boards to look at is not needed any more
  useEffect(() => () => boards.end(), [boards])
  if (tracing)
    return (
      <TraceBoard
        freeName={freeName}
        suppliesForm={({ supplies, faults, onChange }) => (
          <Supplies draft={{ ...firstDraft(), supplies }} faults={faults} onChange={onChange} />
        )}
        onBack={() => setTracing(false)}
      />
    )
  return (
    <>
      <DialogHead title={say('A new case: which card is it?')} closeLabel={say('Close without a new case')}>
        <p>{say('The case begins on the board that you choose.')}</p>
      </DialogHead>
      <div className={dialog.body}>
        <OwnBoardChoices {...own} />
        <section className={styles.section} aria-labelledby={photoId}>
          <div className={styles.row}>
            <h2 id={photoId}>{say('From a photo')}</h2>
            <p className={styles.small}>{say('Clicks snap to the edges of its parts, and find their likes.')}</p>
            <Button onClick={() => setTracing(true)}>
              <Camera size={16} aria-hidden="true" /> {say('Trace a board from a photo…')}
            </Button>
          </div>
        </section>
        <section className={styles.section} aria-labelledby={id}>
          <h2 id={id}>{say('From a pattern')}</h2>
          <PatternForm freeName={freeName} taken={own.names} labelledBy={id} />
        </section>
        <Examples />
      </div>
    </>
  )
}
