/** The cases as a table: which card, on which board, how far, how long here; more rows are drawn as they are needed. */
import { say } from '../../base/index.ts'
import { type KeyboardEvent, useCallback, useEffect, useRef, useState } from 'react'
import type { ShelfEntry } from '../shelf/caseShelf.ts'
import { Button } from '../controls/Button.tsx'
import { CaseRow } from './CaseRow.tsx'
import styles from './caseList.module.css'

const ROWS_AT_ONCE = 60

interface CaseTableProps {
  readonly entries: readonly ShelfEntry[]
  /** Milliseconds since 1970. */
  readonly now: number
  readonly today: string
}

export function CaseTable({ entries, now, today }: CaseTableProps) {
  const [rows, setRows] = useState(ROWS_AT_ONCE)
  const more = useCallback(() => setRows((drawn) => drawn + ROWS_AT_ONCE), [])
  const left = entries.length - rows
  return (
    <>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">{say('Card')}</th>
            <th scope="col">{say('Board')}</th>
            <th scope="col">{say('Visit')}</th>
            <th scope="col">{say('Due')}</th>
            <th scope="col">{say('Here for')}</th>
            <th scope="col">{say('Changed')}</th>
            <th scope="col">
              <span className="visually-hidden">{say('What to do with it')}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {entries.slice(0, rows).map((entry) => (
            <CaseRow key={entry.id} entry={entry} now={now} today={today} onKeyDown={walkRows} />
          ))}
        </tbody>
      </table>
      {left > 0 && <More key={left} left={left} onMore={more} />}
    </>
  )
}

/** Asks for more rows as soon as it is seen, and when it is pressed. */
function More({ left, onMore }: { readonly left: number; readonly onMore: () => void }) {
  const place = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const seen = new IntersectionObserver((found) => found.some((each) => each.isIntersecting) && onMore(), {
      rootMargin: '600px',
    })
    if (place.current !== null) seen.observe(place.current)
    return () => seen.disconnect()
  }, [onMore])
  return (
    <div ref={place} className={styles.more}>
      <Button onClick={onMore}>{say('Show more: {left, plural, one {# case} other {# cases}} left', { left })}</Button>
    </div>
  )
}

/** Arrows go from case to case, Home and End to the first and the last one that is drawn. */
function walkRows(event: KeyboardEvent<HTMLButtonElement>): void {
  const titles = [...(event.currentTarget.closest('tbody')?.querySelectorAll<HTMLElement>('[data-open-case]') ?? [])]
  const at = titles.indexOf(event.currentTarget)
  const to: Readonly<Record<string, number>> = { ArrowUp: at - 1, ArrowDown: at + 1, Home: 0, End: titles.length - 1 }
  const next = to[event.key]
  if (next === undefined) return
  event.preventDefault()
  titles[next]?.focus()
}
