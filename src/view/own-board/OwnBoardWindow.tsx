/** The window about one board of one's own: edited, its versions, two of them compared. What is not kept is asked about. */
import { Dialog } from '@base-ui/react/dialog'
import { type ReactNode, useState } from 'react'
import { sayFault, say } from '../../base/index.ts'
import type { BoardDescription } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import dialog from '../controls/dialog.module.css'
import { DialogHead } from '../controls/DialogHead.tsx'
import { latestOf, type VersionsToRemove } from '../shelf/boardShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import { Compare } from './Compare.tsx'
import { Editor } from './Editor.tsx'
import { createEditor } from './editorStore.ts'
import { exportBoard } from './exportBoard.ts'
import type { BoardSubject } from './keepVersion.ts'
import styles from './own-board.module.css'
import { Versions, versionsOf } from './Versions.tsx'

export type BoardTask = 'edit' | 'versions' | 'compare'

interface OwnBoardWindowProps {
  readonly subject: BoardSubject
  readonly task: BoardTask
  readonly onBegin: (board: BoardDescription) => void
  readonly onClose: () => void
}

export function OwnBoardWindow(props: OwnBoardWindowProps) {
  const { onBegin, onClose } = props
  const state = useWindow(props)
  const { subject, task, editor, later, guard } = state
  return (
    <Dialog.Root open onOpenChange={(next) => next || guard(onClose)}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${styles.window}`}>
          <Head {...state} />
          <div className={styles.content}>
            {task === 'edit' && (
              <Editor editor={editor} subject={subject} onKept={(board, number) => void state.kept(board, number)} />
            )}
            {task === 'versions' && (
              <Versions
                subject={subject}
                onBegin={(board) => guard(() => onBegin(board))}
                onEdit={({ description }) => guard(() => state.editFrom(description))}
                onCompare={state.compare}
                onDelete={async (what) => {
                  const trouble = await state.deleted(what)
                  if (trouble === undefined && what.number === undefined) onClose()
                  return trouble
                }}
                onMove={(move) =>
                  guard(() => {
                    move()
                    onClose()
                  })
                }
              />
            )}
            {task === 'compare' && <Compare key={later} versions={versionsOf(subject)} later={later} />}
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

/** What the window shows; `guard` asks first where the editor holds what no version has. */
function useWindow({ subject: opened, task: first }: OwnBoardWindowProps) {
  const desk = useDesk()
  const [task, setTask] = useState(first)
  const [subject, setSubject] = useState(opened)
  const [editor, setEditor] = useState(() => createEditor(opened.description))
  const [later, setLater] = useState<number>()
  const [said, setSaid] = useState('')
  const [waiting, setWaiting] = useState<{ readonly act: () => void }>()
  const guard = (act: () => void): void => {
    if (editor.getState().session.past.length > 0) setWaiting({ act })
    else act()
  }
  return {
    subject,
    task,
    editor,
    later,
    said,
    waiting,
    guard,
    setTask,
    goOn: () => setWaiting(undefined),
    editFrom: (board: BoardDescription) => {
      setWaiting(undefined)
      setEditor(createEditor(board))
      setTask('edit')
    },
    compare: (number: number) => {
      setLater(number)
      setTask('compare')
    },
    deleted: async (what: VersionsToRemove): Promise<string | undefined> => {
      const removed = await desk.caseShelf.boards.remove(what)
      if (!removed.ok) return removed.faults.map(sayFault).join(' ')
      if (what.number === undefined) return undefined
      setSubject(await subjectFrom(desk, what.board, subject))
      setSaid(say('Version {number} is deleted.', { number: what.number }))
      return undefined
    },
    kept: async (board: string, number: number): Promise<void> => {
      const now = await subjectFrom(desk, board, subject)
      setSubject(now)
      setEditor(createEditor(now.description))
      setWaiting(undefined)
      setSaid(say('Kept as version {number}.', { number }))
      setTask('versions')
    },
  }
}

const tasks: readonly { readonly value: BoardTask; readonly words: string }[] = [
  { value: 'edit', words: say('Edit') },
  { value: 'versions', words: say('Versions') },
  { value: 'compare', words: say('Compare') },
]

function Head({ subject, task, editor, said, waiting, setTask, goOn }: ReturnType<typeof useWindow>): ReactNode {
  /** What is being edited goes out as it is now, also where it could not be kept. */
  const exportNow = (): void => {
    const { session } = editor.getState()
    if (task === 'edit' && session.past.length > 0) exportBoard(session.board)
    else exportBoard(subject.description, subject.kept && latestOf(subject.kept).number)
  }
  return (
    <>
      <DialogHead title={subject.description.name} closeLabel={say('Close the board')}>
        <p role="status">{said === '' ? headWords(subject) : said}</p>
      </DialogHead>
      <nav className={styles.tasks} aria-label={say('What to do with the board')}>
        {tasks.map(({ value, words }) => (
          <Button key={value} aria-pressed={task === value} onClick={() => setTask(value)}>
            {words}
          </Button>
        ))}
        <Button onClick={exportNow}>{say('Export')}</Button>
      </nav>
      <div role="alert">
        {waiting !== undefined && (
          <div className={styles.leaving}>
            <p>{say('What you changed is not kept as a version yet.')}</p>
            <Button onClick={goOn}>{say('Go on editing')}</Button>
            <Button onClick={waiting.act}>{say('Leave without keeping it')}</Button>
          </div>
        )}
      </div>
    </>
  )
}

function headWords({ kept }: BoardSubject): string {
  return kept === undefined
    ? say('A board of your own, in its cases so far')
    : say('A board of your own, version {number}', { number: latestOf(kept).number })
}

/** The same board as the shelf has it now. */
async function subjectFrom(desk: Desk, board: string, before: BoardSubject): Promise<BoardSubject> {
  const listed = await desk.caseShelf.boards.list()
  const kept = listed.ok ? listed.value.boards.find(({ id }) => id === board) : undefined
  return kept === undefined ? before : { ...before, kept, description: latestOf(kept).description }
}
