/** Asks which card a new case is about: a board of one's own, one from a file, one from a pattern; examples stand apart. */
import { Dialog } from '@base-ui/react/dialog'
import { X } from 'lucide-react'
import { useId, useMemo, useRef } from 'react'
import { counted } from '../../base/index.ts'
import { boardLikeness } from '../../board/index.ts'
import { beginOnBoard, leaveStart, openShippedBoard } from '../actions/open.ts'
import controls from '../controls/controls.module.css'
import { useDesk, useScreen } from '../stores/hooks.ts'
import { BoardChoice } from './BoardChoice.tsx'
import { FromFile } from './FromFile.tsx'
import { freeBoardName } from './patternDraft.ts'
import { PatternForm } from './PatternForm.tsx'
import styles from './start.module.css'
import { useExamples } from './useExamples.ts'
import { type OwnBoard, useOwnBoards } from './useOwnBoards.ts'

const CORNER = { x: 420, y: 64 }

export function StartCase() {
  const desk = useDesk()
  const open = useScreen((screen) => screen.startOpen)
  const popup = useRef<HTMLDivElement>(null)
  return (
    <Dialog.Root open={open} onOpenChange={(next) => next || leaveStart(desk)}>
      <Dialog.Portal>
        <Dialog.Backdrop className={styles.backdrop} />
        <Dialog.Popup
          ref={popup}
          className={styles.popup}
          initialFocus={() => popup.current?.querySelector<HTMLElement>('form input') ?? true}
        >
          <Content />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

function Content() {
  const own = useOwnBoards()
  const freeName = useMemo(() => freeBoardName(new Set((own ?? []).map(({ name }) => name))), [own])
  return (
    <>
      <div className={styles.head}>
        <Dialog.Title className={styles.title}>A new case: which card is it?</Dialog.Title>
        <p>The case begins on the board that you choose.</p>
        <Dialog.Close
          className={controls.button}
          data-size="icon"
          data-tone="quiet"
          aria-label="Close without a new case"
        >
          <X size={18} aria-hidden="true" />
        </Dialog.Close>
      </div>
      <div className={styles.body}>
        <OwnBoards boards={own} />
        <section className={styles.section}>
          <h2 id="start-pattern">From a pattern</h2>
          <PatternForm freeName={freeName} />
        </section>
        <Examples />
      </div>
    </>
  )
}

function OwnBoards({ boards }: { readonly boards: readonly OwnBoard[] | undefined }) {
  const desk = useDesk()
  const id = useId()
  return (
    <section className={styles.section} aria-labelledby={id}>
      <div className={styles.row}>
        <h2 id={id}>Boards of your own</h2>
        {boards?.length === 0 && (
          <p className={styles.small}>None yet. A board from a file or a pattern stands here for the next card.</p>
        )}
        <FromFile />
      </div>
      {boards !== undefined && boards.length > 0 && (
        <ul className={styles.choices}>
          {boards.map(({ name, cases, model }) => (
            <BoardChoice
              key={name}
              model={model}
              title={name}
              about={`${boardLikeness(model)}; ${counted(cases, 'case')}`}
              onChoose={() => {
                leaveStart(desk)
                void beginOnBoard(desk, model.description, CORNER)
              }}
            />
          ))}
        </ul>
      )}
    </section>
  )
}

function Examples() {
  const desk = useDesk()
  const id = useId()
  const examples = useExamples()
  return (
    <section className={styles.section} data-apart="true" aria-labelledby={id}>
      <div className={styles.row}>
        <h2 id={id}>Invented examples</h2>
        <p className={styles.small}>No real card is like these: to try things out, not for a card on your bench.</p>
      </div>
      <ul className={styles.choices}>
        {examples.map(({ file, name, model }) => (
          <BoardChoice
            key={file}
            model={model}
            title={model === undefined ? name : boardLikeness(model)}
            about={model === undefined ? 'is being read' : name}
            onChoose={() => {
              leaveStart(desk)
              void openShippedBoard(desk, file, CORNER)
            }}
          />
        ))}
      </ul>
    </section>
  )
}
