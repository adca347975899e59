/** Asks which card a new case is about: a board of one's own, one from a file, one from a pattern; examples stand apart. */
import { Dialog } from '@base-ui/react/dialog'
import { useEffect, useId, useMemo, useRef } from 'react'
import { leaveStart } from '../actions/open.ts'
import dialog from '../controls/dialog.module.css'
import { DialogHead } from '../controls/DialogHead.tsx'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { Examples } from './Examples.tsx'
import { OwnBoardChoices } from './OwnBoardChoices.tsx'
import { freeBoardName } from './patternDraft.ts'
import { PatternForm } from './PatternForm.tsx'
import styles from './start.module.css'
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
          initialFocus={() => popup.current?.querySelector<HTMLElement>('form input') ?? true}
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
  const freeName = useMemo(() => freeBoardName(own.names), [own.names])
  // the worker that reads boards to look at is not needed any more
  useEffect(() => () => boards.end(), [boards])
  return (
    <>
      <DialogHead title="A new case: which card is it?" closeLabel="Close without a new case">
        <p>The case begins on the board that you choose.</p>
      </DialogHead>
      <div className={dialog.body}>
        <OwnBoardChoices {...own} />
        <section className={styles.section} aria-labelledby={id}>
          <h2 id={id}>From a pattern</h2>
          <PatternForm freeName={freeName} taken={own.names} labelledBy={id} />
        </section>
        <Examples />
      </div>
    </>
  )
}
