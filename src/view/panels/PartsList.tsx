/** Every part on the board as a list with a search, for keyboard and screen reader: the sheet in words. */
import { sideWords } from '../../case/index.ts'
import { say } from '../../base/index.ts'
import { useState } from 'react'
import { showOnSheet } from '../actions/show.ts'
import { TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import { useBoard, useDesk, useResults, useTally } from '../stores/hooks.ts'
import { reachOf } from '../stores/partFacts.ts'
import { errorWords } from '../stores/tested.ts'
import { percent, spacedKind } from '../stores/words.ts'
import styles from '../controls/panel.module.css'

const MAX_ROWS = 200

export function PartsList() {
  const board = useBoard()
  if (board === undefined) return undefined
  return (
    <section aria-label={say('All parts on the board')}>
      <Opening
        summary={say('All {length, plural, one {# part} other {# parts}} on the board', {
          length: board.model.parts.length,
        })}
      >
        <SearchedParts />
      </Opening>
    </section>
  )
}

function SearchedParts() {
  const desk = useDesk()
  const board = useBoard()
  const tally = useTally()
  const assessment = useResults((results) => results.assessment)
  const [typed, setTyped] = useState('')
  const wanted = typed.trim().toLowerCase()
  const parts = (board?.model.parts ?? []).filter((part) =>
    [part.ref, part.kind, part.side, spacedKind(part.kind), sideWords[part.side]]
      .join(' ')
      .toLowerCase()
      .includes(wanted),
  )
  return (
    <>
      <TextField
        label={say('Only those with')}
        value={typed}
        onChange={setTyped}
        placeholder={say('ref, kind or side')}
      />
      <ul className={styles.parts} tabIndex={-1}>
        {parts.slice(0, MAX_ROWS).map((part) => {
          const tallied = tally?.parts.find((entry) => entry.ref === part.ref)
          const need = assessment?.suspects.parts.find((entry) => entry.ref === part.ref)?.comesOff
          const reached = reachOf(assessment, part.ref)
          const facts = [
            `${spacedKind(part.kind)}, ${sideWords[part.side]}`,
            ...(tallied === undefined ? [] : [errorWords(tallied)]),
            ...(reached === undefined || reached < 0.005
              ? []
              : [say('reached {reached}', { reached: percent(reached) })]),
          ]
          return (
            <li key={part.ref}>
              <button type="button" onClick={() => showOnSheet(desk, { kind: 'part', id: part.ref })}>
                <b>{part.ref}</b>
                <span>{facts.join(', ')}</span>
                <span>{need === undefined ? '' : say('lift {need}', { need: percent(need) })}</span>
              </button>
            </li>
          )
        })}
      </ul>
      {parts.length > MAX_ROWS && (
        <p className={styles.quiet}>
          {say('{length, plural, one {# more part} other {# more parts}}: search for it.', {
            length: parts.length - MAX_ROWS,
          })}
        </p>
      )}
    </>
  )
}
