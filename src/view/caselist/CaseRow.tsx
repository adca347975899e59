/** One case in the list: its title opens it; beside it what else can be done with it. */
import { say } from '../../base/index.ts'
import { AlarmClock, Archive, ArchiveRestore, Clock, Copy, Trash2 } from 'lucide-react'
import { type KeyboardEvent, memo } from 'react'
import { codeWords, outcomeWords, visitWords } from '../../case/index.ts'
import { archiveListed, deleteListed, duplicateListed, openListed } from '../actions/caseList.ts'
import { dayOf } from '../actions/clock.ts'
import { Button } from '../controls/Button.tsx'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { useDesk } from '../stores/hooks.ts'
import { useStore } from 'zustand'
import { agoWords, stayWords } from './age.ts'
import styles from './caseList.module.css'
import { cameOn } from './choose.ts'
import { dueOf, dueWords } from './due.ts'

interface CaseRowProps {
  readonly entry: ShelfEntry
  readonly now: number
  readonly today: string
  readonly onKeyDown: (event: KeyboardEvent<HTMLButtonElement>) => void
}

export const CaseRow = memo(function CaseRow({ entry, now, today, onKeyDown }: CaseRowProps) {
  const desk = useDesk()
  const onDesk = useStore(desk.cases, ({ id }) => id === entry.id)
  const remove = (): void => void deleteListed(desk, entry)
  return (
    <tr data-archived={entry.archived}>
      <td>
        <Title
          entry={entry}
          onDesk={onDesk}
          onKeyDown={(event) => (event.key === 'Delete' ? remove() : onKeyDown(event))}
        />
      </td>
      <td>{entry.boardName}</td>
      <td>
        {visitWords[entry.visit]}
        {entry.outcome !== undefined && <span className={styles.small}>{outcomeWords[entry.outcome]}</span>}
      </td>
      <td>
        <DueCell entry={entry} today={today} />
      </td>
      <td>{stayWords(cameOn(entry), today)}</td>
      <td>{agoWords(entry.changedAt, now, dayOf)}</td>
      <td>
        <div className={styles.actions}>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Duplicate {title}', { title: entry.title })}
            title={say('Duplicate')}
            onClick={() => void duplicateListed(desk, entry)}
          >
            <Copy size={16} aria-hidden="true" />
          </Button>
          <Button
            size="icon"
            tone="quiet"
            aria-label={
              entry.archived
                ? say('Take back {title}', { title: entry.title })
                : say('Archive {title}', { title: entry.title })
            }
            title={entry.archived ? say('Take back to the bench') : say('Archive')}
            onClick={() => void archiveListed(desk, entry)}
          >
            {entry.archived ? (
              <ArchiveRestore size={16} aria-hidden="true" />
            ) : (
              <Archive size={16} aria-hidden="true" />
            )}
          </Button>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Delete {title}', { title: entry.title })}
            title={say('Delete (Del)')}
            onClick={remove}
          >
            <Trash2 size={16} aria-hidden="true" />
          </Button>
        </div>
      </td>
    </tr>
  )
})

const dueSigns = { overdue: AlarmClock, soon: Clock, later: undefined } as const

function DueCell({ entry, today }: Pick<CaseRowProps, 'entry' | 'today'>) {
  const due = dueOf(entry, today)
  if (due === undefined) return undefined
  const Sign = dueSigns[due.state]
  return (
    <span className={styles.due} data-state={due.state} title={entry.dueOn}>
      {Sign !== undefined && <Sign size={15} aria-hidden="true" />}
      {dueWords(due)}
    </span>
  )
}

interface TitleProps extends Pick<CaseRowProps, 'entry' | 'onKeyDown'> {
  readonly onDesk: boolean
}

function Title({ entry, onDesk, onKeyDown }: TitleProps) {
  const desk = useDesk()
  return (
    <button
      type="button"
      className={styles.open}
      data-open-case
      disabled={entry.newer}
      aria-current={onDesk ? 'true' : undefined}
      onClick={() => void openListed(desk, entry)}
      onKeyDown={onKeyDown}
    >
      <b>{entry.title}</b>
      <span>{aboutWords(entry, onDesk)}</span>
    </button>
  )
}

function aboutWords({ card, code, owner, demo, goodCard, archived, newer }: ShelfEntry, onDesk: boolean): string {
  const words = [
    onDesk ? say('on the desk') : '',
    card === undefined ? '' : say('card {card}', { card }),
    code === undefined ? '' : codeWords(code),
    owner,
    demo ? say('demo') : '',
    goodCard ? say('good card') : '',
    archived ? say('archived') : '',
    newer ? say('saved by a newer Liftmap: can’t be opened here') : '',
  ]
  return words.filter((word) => word !== '').join(', ')
}
