/** Keeps the edited board as its next version: who did it, and what changed by the program's own account. */
import { useDeferredValue, useMemo, useState } from 'react'
import { type Fault, sayFault, say } from '../../base/index.ts'
import { compareBoards, NOTHING_CHANGED, sayComparison } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { latestOf } from '../shelf/boardShelf.ts'
import { useDesk } from '../stores/hooks.ts'
import { type BoardSubject, keepVersion, lastWho, rememberWho } from './keepVersion.ts'
import styles from './own-board.module.css'
import { useEditedBoard } from './useEditor.ts'

interface SavePanelProps {
  readonly subject: BoardSubject
  readonly faults: number
  /** @param number of the version that was kept */
  readonly onKept: (board: string, number: number) => void
}

export function SavePanel({ subject, faults, onKept }: SavePanelProps) {
  const desk = useDesk()
  const board = useEditedBoard()
  const [who, setWho] = useState(lastWho)
  const [note, setNote] = useState('')
  const [trouble, setTrouble] = useState<readonly Fault[]>([])
  const [busy, setBusy] = useState(false)
  const before = subject.kept === undefined ? subject.description : latestOf(subject.kept).description
  const now = useDeferredValue(board)
  const changed = useMemo(() => (now === before ? [] : sayComparison(compareBoards(before, now))), [before, now])
  const next = (subject.kept === undefined ? 1 : latestOf(subject.kept).number) + 1
  const nothing = changed.length === 0 || changed[0] === NOTHING_CHANGED
  const keep = async (): Promise<void> => {
    setBusy(true)
    rememberWho(who)
    const kept = await keepVersion(desk, { subject, board, who, note })
    setBusy(false)
    setTrouble(kept.ok ? [] : kept.faults)
    if (kept.ok && kept.value.kind === 'kept') onKept(kept.value.board, kept.value.number)
  }
  return (
    <section className={styles.save} aria-label={say('Keep as a version')}>
      {nothing ? (
        <p className={styles.quiet}>{say('Nothing changed yet.')}</p>
      ) : (
        <Opening
          summary={say('{length, plural, one {# change} other {# changes}} against version {next}', {
            length: changed.length,
            next: next - 1,
          })}
        >
          <ul className={styles.changes}>
            {changed.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </Opening>
      )}
      <div className={styles.two}>
        <TextField
          label={say('Who')}
          placeholder={say('your name or mark')}
          maxLength={60}
          value={who}
          onChange={setWho}
        />
        <TextField
          label={say('Why')}
          placeholder={say('if you like')}
          maxLength={200}
          value={note}
          onChange={setNote}
        />
      </div>
      {faults > 0 && (
        <p className={styles.quiet}>{say('A board with faults can’t be kept: mend what the check lists.')}</p>
      )}
      <Button tone="strong" disabled={busy || nothing || faults > 0} onClick={() => void keep()}>
        {say('Save as version {next}', { next })}
      </Button>
      <div role="alert">
        {trouble.map((fault) => (
          <p key={fault.path + fault.found} className={styles.wrong}>
            {sayFault(fault)}
          </p>
        ))}
      </div>
    </section>
  )
}
