/** The window about one board of one's own: edited, its versions, two of them compared. What is not kept is asked about. */
import { Dialog } from '@base-ui/react/dialog'
import { useEffect, useState } from 'react'
import type { BoardDescription } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import dialog from '../controls/dialog.module.css'
import { DialogHead } from '../controls/DialogHead.tsx'
import { latestOf } from '../shelf/boardShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk } from '../stores/hooks.ts'
import { Compare } from './Compare.tsx'
import { Editor } from './Editor.tsx'
import { createEditor, type EditorStore } from './editorStore.ts'
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

export function OwnBoardWindow({ onClose, ...rest }: OwnBoardWindowProps) {
  const [leaving, setLeaving] = useState(false)
  const [unkept, setUnkept] = useState(false)
  const close = (): void => (unkept ? setLeaving(true) : onClose())
  return (
    <Dialog.Root open onOpenChange={(next) => next || close()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${styles.window}`}>
          <Content
            {...rest}
            onUnkept={setUnkept}
            leaving={leaving}
            onStay={() => setLeaving(false)}
            onLeave={onClose}
          />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

interface ContentProps extends Omit<OwnBoardWindowProps, 'onClose'> {
  readonly onUnkept: (unkept: boolean) => void
  readonly leaving: boolean
  readonly onStay: () => void
  readonly onLeave: () => void
}

function Content({ subject: opened, task: first, onBegin, onUnkept, leaving, onStay, onLeave }: ContentProps) {
  const desk = useDesk()
  const [task, setTask] = useState(first)
  const [subject, setSubject] = useState(opened)
  const [editor, setEditor] = useState(() => createEditor(opened.description))
  const [later, setLater] = useState<number>()
  const [said, setSaid] = useState('')
  useUnkept(editor, onUnkept)
  const kept = async (board: string, number: number): Promise<void> => {
    const now = await subjectFrom(desk, board, subject)
    setSubject(now)
    setEditor(createEditor(now.description))
    setSaid(`Kept as version ${number}.`)
    setTask('versions')
  }
  const name = subject.description.name
  return (
    <>
      <DialogHead title={name} closeLabel="Close the board">
        <p role="status">{said === '' ? headWords(subject) : said}</p>
      </DialogHead>
      <nav className={styles.tasks} aria-label="What to do with the board">
        {tasks.map(({ value, words }) => (
          <Button key={value} aria-pressed={task === value} onClick={() => setTask(value)}>
            {words}
          </Button>
        ))}
        <Button onClick={() => exportBoard(subject.description, subject.kept && latestOf(subject.kept).number)}>
          Export
        </Button>
      </nav>
      <div role="alert">
        {leaving && (
          <div className={styles.leaving}>
            <p>What you changed is not kept as a version yet.</p>
            <Button onClick={onStay}>Go on editing</Button>
            <Button onClick={onLeave}>Leave without keeping it</Button>
          </div>
        )}
      </div>
      <div className={styles.content}>
        {task === 'edit' && (
          <Editor editor={editor} subject={subject} onKept={(board, number) => void kept(board, number)} />
        )}
        {task === 'versions' && (
          <Versions
            subject={subject}
            onBegin={onBegin}
            onEdit={({ description }) => {
              setEditor(createEditor(description))
              setTask('edit')
            }}
            onCompare={(number) => {
              setLater(number)
              setTask('compare')
            }}
            onMoved={onLeave}
          />
        )}
        {task === 'compare' && <Compare key={later} versions={versionsOf(subject)} later={later} />}
      </div>
    </>
  )
}

const tasks: readonly { readonly value: BoardTask; readonly words: string }[] = [
  { value: 'edit', words: 'Edit' },
  { value: 'versions', words: 'Versions' },
  { value: 'compare', words: 'Compare' },
]

function headWords({ kept }: BoardSubject): string {
  return kept === undefined
    ? 'A board of your own, in its cases so far'
    : `A board of your own, version ${latestOf(kept).number}`
}

/** Whether the editor holds what no version has. */
function useUnkept(editor: EditorStore, onUnkept: (unkept: boolean) => void): void {
  useEffect(() => {
    const look = (): void => onUnkept(editor.getState().session.past.length > 0)
    look()
    return editor.subscribe(look)
  }, [editor, onUnkept])
}

/** The same board as the shelf has it now. */
async function subjectFrom(desk: Desk, board: string, before: BoardSubject): Promise<BoardSubject> {
  const listed = await desk.caseShelf.boards.list()
  const kept = listed.ok ? listed.value.boards.find(({ id }) => id === board) : undefined
  return kept === undefined ? before : { ...before, kept, description: latestOf(kept).description }
}
