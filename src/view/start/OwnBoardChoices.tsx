/** The boards of one's own cases to choose from, and a file that may hold another. */
import { useId } from 'react'
import { counted } from '../../base/index.ts'
import { boardLikeness } from '../../board/index.ts'
import { dayOf } from '../actions/clock.ts'
import { beginOnBoard, fromStart } from '../actions/open.ts'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { useDesk } from '../stores/hooks.ts'
import { BoardChoice } from './BoardChoice.tsx'
import { FromFile } from './FromFile.tsx'
import styles from './start.module.css'
import type { OwnBoard, OwnBoards } from './useOwnBoards.ts'

export function OwnBoardChoices({ boards, faults }: OwnBoards) {
  const desk = useDesk()
  const id = useId()
  return (
    <section className={styles.section} aria-labelledby={id}>
      <div className={styles.row}>
        <h2 id={id}>Boards of your own</h2>
        {boards?.length === 0 && faults.length === 0 && (
          <p className={styles.small}>None yet. A board from a file or a pattern stands here for the next card.</p>
        )}
        <FromFile />
      </div>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      {boards !== undefined && boards.length > 0 && (
        <ul className={styles.choices}>
          {boards.map((board) => (
            <BoardChoice
              key={board.caseId}
              model={board.model}
              title={board.name}
              about={aboutWords(board, boards)}
              onChoose={() => fromStart(desk, (at) => beginOnBoard(desk, board.model.description, at))}
            />
          ))}
        </ul>
      )}
    </section>
  )
}

/** Boards of one name are told apart by when a case on them was changed last. */
function aboutWords({ model, name, cases, changedAt }: OwnBoard, all: readonly OwnBoard[]): string {
  const words = `${boardLikeness(model)}; ${counted(cases, 'case')}`
  const isOnly = all.filter((each) => each.name === name).length === 1
  return isOnly ? words : `${words}, the last of ${dayOf(new Date(changedAt))}`
}
