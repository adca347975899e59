/** Owners who are to be asked by now whether their card still works: each opens its case at the hand-back. */
import { useEffect, useState } from 'react'
import { say } from '../../base/index.ts'
import { weeksSince } from '../../case/index.ts'
import { today } from '../actions/clock.ts'
import { openListed } from '../actions/caseList.ts'
import { closePage } from '../actions/pages.ts'
import { goToStation } from '../actions/goToStation.ts'
import { Button } from '../controls/Button.tsx'
import { Opening } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import type { Desk } from '../stores/desk.ts'
import { useDesk, useShopDetails } from '../stores/hooks.ts'
import { type AskedEntry, dueOf } from './due.ts'
import styles from './shopRecord.module.css'

export function DueFollowUps() {
  const desk = useDesk()
  const { followUpWeeks } = useShopDetails()
  const due = dueOf(useEntries(desk), followUpWeeks, today())
  const open = async (entry: ShelfEntry): Promise<void> => {
    await openListed(desk, entry)
    closePage(desk)
    goToStation(desk, 'hand-back')
  }
  return (
    <section className={panel.section} aria-label={say('Owners to ask')}>
      <h2 className={panel.sub}>
        {due.length === 0
          ? say('No owner is to be asked today')
          : say('{length, plural, one {# owner} other {# owners}} to ask', { length: due.length })}
      </h2>
      <p className={panel.quiet}>
        {say(
          'An owner is asked {followUpWeeks, plural, one {# week} other {# weeks}} after the mended card went back. If it works, its remedy counts as one that lasts; if the same fault is back, as one that did not, and its cause no longer counts.',
          { followUpWeeks },
        )}
      </p>
      {due.length > 0 && <DueList due={due.slice(0, SHOWN)} onAsk={open} />}
      {due.length > SHOWN && (
        <Opening summary={say('{length} more', { length: due.length - SHOWN })}>
          <DueList due={due.slice(SHOWN)} onAsk={open} />
        </Opening>
      )}
    </section>
  )
}

const SHOWN = 3

interface DueListProps {
  readonly due: readonly AskedEntry[]
  readonly onAsk: (entry: AskedEntry) => Promise<void>
}

function DueList({ due, onAsk }: DueListProps) {
  return (
    <ul className={styles.due}>
      {due.map((entry) => (
        <li key={entry.id}>
          <span>
            <b>{entry.card ?? entry.title}</b> {entry.owner},{' '}
            {say('{weeks, plural, one {# week} other {# weeks}} ago', { weeks: weeksSince(entry.askAfter, today()) })}
          </span>
          <Button
            aria-label={say('Ask about {card}', { card: entry.card ?? entry.title })}
            onClick={() => void onAsk(entry)}
          >
            {say('Ask')}
          </Button>
        </li>
      ))}
    </ul>
  )
}

function useEntries({ caseShelf, saving }: Desk): readonly ShelfEntry[] {
  const [entries, setEntries] = useState<readonly ShelfEntry[]>([])
  useEffect(() => {
    let wanted = true
    const read = async (): Promise<void> => {
      const listed = await caseShelf.list()
      if (wanted && listed.ok) setEntries(listed.value)
    }
    // what was entered last at the desk counts too
    void saving.getState().saveNow().then(read)
    const end = caseShelf.subscribe(() => void read())
    return () => {
      wanted = false
      end()
    }
  }, [caseShelf, saving])
  return entries
}
