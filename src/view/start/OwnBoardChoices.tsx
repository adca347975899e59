/** The boards of one's own to choose from, what can be done with each, and a file that may hold another. */
import { useId, useState } from 'react'
import { dayWords, say } from '../../base/index.ts'
import { boardLikeness } from '../../board/index.ts'
import { dayOf } from '../actions/clock.ts'
import { beginOnBoard, fromStart } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { FaultRow } from '../controls/FileMessages.tsx'
import files from '../controls/files.module.css'
import { type BoardSubject, type BoardTask, exportBoard, OwnBoardWindow } from '../own-board/index.ts'
import { useDesk } from '../stores/hooks.ts'
import { BoardChoice } from './BoardChoice.tsx'
import { FromFile } from './FromFile.tsx'
import own from './ownBoards.module.css'
import styles from './start.module.css'
import type { OwnBoard, OwnBoards } from './useOwnBoards.ts'

interface OpenBoard {
  readonly subject: BoardSubject
  readonly task: BoardTask
}

export function OwnBoardChoices({ boards, faults }: OwnBoards) {
  const desk = useDesk()
  const id = useId()
  const [opened, setOpened] = useState<OpenBoard>()
  return (
    <section className={styles.section} aria-labelledby={id}>
      <div className={styles.row}>
        <h2 id={id}>{say('Boards of your own')}</h2>
        {boards?.length === 0 && faults.length === 0 && (
          <p className={styles.small}>
            {say('None yet. A board from a file or a pattern stands here for the next card.')}
          </p>
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
        <ul className={`${styles.choices} ${own.choices}`}>
          {boards.map((board) => (
            <Choice key={board.key} board={board} all={boards} onOpen={setOpened} />
          ))}
        </ul>
      )}
      {opened !== undefined && (
        <OwnBoardWindow
          {...opened}
          onBegin={(board) => fromStart(desk, (at) => beginOnBoard(desk, board, at))}
          onClose={() => setOpened(undefined)}
        />
      )}
    </section>
  )
}

interface ChoiceProps {
  readonly board: OwnBoard
  readonly all: readonly OwnBoard[]
  readonly onOpen: (opened: OpenBoard) => void
}

const tasks: readonly { readonly task: BoardTask; readonly words: string }[] = [
  { task: 'edit', words: say('Edit') },
  { task: 'versions', words: say('Versions') },
  { task: 'compare', words: say('Compare') },
]

function Choice({ board, all, onOpen }: ChoiceProps) {
  const desk = useDesk()
  const { subject, model, name, version } = board
  return (
    <BoardChoice
      model={model}
      title={name}
      about={aboutWords(board, all)}
      onChoose={() => fromStart(desk, (at) => beginOnBoard(desk, model.description, at))}
    >
      <div className={own.tasks} role="group" aria-label={name}>
        {tasks.map(({ task, words }) => (
          <Button
            key={task}
            tone="quiet"
            disabled={task === 'compare' && (version ?? 1) < 2}
            onClick={() => onOpen({ subject, task })}
          >
            {words}
          </Button>
        ))}
        <Button tone="quiet" onClick={() => exportBoard(subject.description, version)}>
          {say('Export')}
        </Button>
      </div>
    </BoardChoice>
  )
}

/** Boards of one name are told apart by when a case on them was changed last. */
function aboutWords({ model, name, cases, changedAt, version }: OwnBoard, all: readonly OwnBoard[]): string {
  const likeness = boardLikeness(model)
  const words =
    version === undefined
      ? say('{likeness}; {cases, plural, one {# case} other {# cases}}', { likeness, cases })
      : say('{likeness}; version {version}; {cases, plural, one {# case} other {# cases}}', {
          likeness,
          version,
          cases,
        })
  const isOnly = all.filter((each) => each.name === name).length === 1
  return isOnly ? words : say('{words}, the last of {day}', { words, day: dayWords(dayOf(new Date(changedAt))) })
}
