/** The find box: parts, rails, lanes and nets by name; arrows choose, Enter selects and shows it on the sheet. */
import { say } from '../../base/index.ts'
import { type KeyboardEvent, useId, useMemo, useState } from 'react'
import { showOnSheet } from '../actions/show.ts'
import { FIND_BOX_ID } from '../actions/goToStation.ts'
import { type Found, find, findIndex, foundWords } from '../stores/find.ts'
import { useBoard, useDesk } from '../stores/hooks.ts'
import styles from './header.module.css'

export function FindBox() {
  const desk = useDesk()
  const board = useBoard()
  const listId = useId()
  const [typed, setTyped] = useState('')
  const [open, setOpen] = useState(false)
  const [at, setAt] = useState(0)
  const index = useMemo(() => (board === undefined ? [] : findIndex(board.model)), [board])
  const found = useMemo(() => find(index, typed), [index, typed])
  const shown = open && typed.trim() !== ''

  const choose = (entry: Found): void => {
    setOpen(false)
    setTyped('')
    showOnSheet(desk, { kind: entry.kind, id: entry.id })
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Escape') {
      setTyped('')
      setOpen(false)
      event.currentTarget.blur()
    } else if (event.key === 'Enter') {
      const entry = found[at]
      if (entry !== undefined) choose(entry)
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault()
      const next = at + (event.key === 'ArrowDown' ? 1 : -1)
      setAt(Math.max(0, Math.min(found.length - 1, next)))
      setOpen(true)
    }
  }
  return (
    <div className={styles.find}>
      <input
        id={FIND_BOX_ID}
        type="text"
        role="combobox"
        autoComplete="off"
        spellCheck={false}
        aria-label={say('Find a part, rail, lane or net')}
        aria-expanded={shown}
        aria-controls={shown ? listId : undefined}
        aria-activedescendant={shown && found.length > 0 ? `${listId}-${at}` : undefined}
        placeholder={say('Find a part, rail, lane or net')}
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value)
          setAt(0)
          setOpen(true)
        }}
        onFocus={() => setOpen(true)}
        onBlur={() => setOpen(false)}
        onKeyDown={onKeyDown}
      />
      <kbd aria-hidden="true">/</kbd>
      {shown && (
        <div className={styles.results}>
          {found.length === 0 && <p className={styles.none}>{say('Nothing on this board is called that.')}</p>}
          <ul id={listId} role="listbox" aria-label={say('Found on this board')}>
            {found.map((entry, i) => (
              <li
                key={`${entry.kind} ${entry.id}`}
                id={`${listId}-${i}`}
                role="option"
                aria-selected={i === at}
                ref={i === at ? scrollThere : undefined}
                onPointerDown={(event) => {
                  event.preventDefault()
                  choose(entry)
                }}
              >
                <b>{entry.id}</b>{' '}
                <span>
                  {foundWords[entry.kind]}, {entry.detail}
                </span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  )
}

const scrollThere = (item: HTMLLIElement | null): void => item?.scrollIntoView({ block: 'nearest' })
