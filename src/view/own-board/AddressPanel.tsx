/** The addresses of the edited board: what is known of its map, what is not, and which addresses to look at next. */
import { useMemo, useState } from 'react'
import { sayFault, someOf, say } from '../../base/index.ts'
import {
  type BoardDescription,
  heldAgainst,
  hexOf,
  type LabelledAddress,
  type LearntMap,
  mapForBoard,
  sayOpen,
  sayPlaces,
} from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { FiguredText } from '../figures/index.ts'
import { Opening } from '../controls/pieces.tsx'
import { AddLabels } from './AddLabels.tsx'
import { edit } from './editorStore.ts'
import { LearntPicture } from './LearntPicture.tsx'
import styles from './own-board.module.css'
import { useEditedBoard, useEditorStore } from './useEditor.ts'
import { useLearnt } from './useLearnt.ts'

export function AddressPanel() {
  const board = useEditedBoard()
  const { labelledAddresses, memory } = board
  const learnt = useLearnt(labelledAddresses)
  // as it was found: it must not shut over what was just added
  const [beganEmpty] = useState(labelledAddresses === undefined)
  if (memory.channels.length === 0)
    return <p className={styles.quiet}>{say('This board has no channels: an address has nowhere to go.')}</p>
  return (
    <>
      <PresentMap board={board} />
      <Opening summary={say('Add addresses whose package is known')} open={beganEmpty}>
        <AddLabels />
      </Opening>
      <div role="status">
        {learnt.state === 'waiting' && <p className={styles.quiet}>{say('Learning from the labels…')}</p>}
        {learnt.state === 'failed' && <p className={styles.wrong}>{learnt.why}</p>}
      </div>
      {learnt.state === 'learnt' && <Told board={board} map={learnt.map} rows={labelledAddresses ?? []} />}
    </>
  )
}

function PresentMap({ board }: { readonly board: BoardDescription }) {
  const { addressMap, labelledAddresses = [], memory } = board
  const held = useMemo(
    () => (addressMap === undefined ? undefined : heldAgainst(addressMap, memory.channels, labelledAddresses)),
    [addressMap, labelledAddresses, memory.channels],
  )
  if (addressMap === undefined)
    return (
      <p>
        <b>{say('No map yet.')}</b> {say('A report that gives addresses only can’t be placed on this board.')}
      </p>
    )
  const fits =
    held === undefined || held.rows === 0 ? undefined : fitWords(held.rows - held.elsewhere.length, held.rows)
  return (
    <p>
      <b>
        {say('{length, plural, one {# channel} other {# channels}}', { length: memory.channels.length })},{' '}
        {say('{addressBits, plural, one {# bit} other {# bits}}', { addressBits: addressMap.addressBits })}.
      </b>{' '}
      {fits === undefined ? (
        say('Nothing to hold it against yet.')
      ) : (
        <FiguredText words={fits.words} numbers={[fits.share]} of={{ kind: 'learnt-map', ...fits.counts }} />
      )}
    </p>
  )
}

function fitWords(fit: number, rows: number) {
  const share = say('{fit} of {rows, plural, one {# labelled address} other {# labelled addresses}}', { fit, rows })
  return { share, words: say('{share} lie where the map says.', { share }), counts: { rows, fits: fit } }
}

interface ToldProps {
  readonly board: BoardDescription
  readonly map: LearntMap
  readonly rows: readonly LabelledAddress[]
}

function Told({ board, map, rows }: ToldProps) {
  const editor = useEditorStore()
  const own = useMemo(() => mapForBoard(map, board.memory.channels), [map, board.memory.channels])
  const held = useMemo(
    () =>
      board.addressMap === undefined
        ? undefined
        : heldAgainst(board.addressMap, board.memory.channels, usable(rows, map)),
    [board.addressMap, board.memory.channels, map, rows],
  )
  const fits = held !== undefined && held.rows > 0 && held.elsewhere.length === 0
  return (
    <section className={styles.fields} aria-label={say('What the labels tell')}>
      <p>
        <b>{say('{length, plural, one {# labelled address} other {# labelled addresses}}', { length: rows.length })}</b>{' '}
        {shareWords(board, rows)}
      </p>
      {map.rank + map.modulus > 1 && <LearntPicture map={map} />}
      <ul className={styles.plainList}>
        {[...sayPlaces(map), ...sayOpen(map)].map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {own.ok && !fits && (
        <Button tone="strong" onClick={() => edit(editor, { kind: 'use-address-map', map: own.value })}>
          {board.addressMap === undefined ? say('Use this map') : say('Use this map in place of the old one')}
        </Button>
      )}
      {own.ok && fits && <p>{say('The board’s map says the same.')}</p>}
      {!own.ok && (
        <p className={styles.quiet}>
          {say('No map for the board yet: {faults}', { faults: own.faults.map(sayFault).join(' ') })}
        </p>
      )}
      <Contradictions map={map} rows={rows} />
      <NextAddresses map={map} />
      <Button onClick={() => edit(editor, { kind: 'forget-labels', lines: rows.map((_, i) => i + 1) })}>
        {say('Take all labels away')}
      </Button>
    </section>
  )
}

/** Rows that nothing contradicts: a wrong label speaks against no map. */
function usable(rows: readonly LabelledAddress[], { contradictions }: LearntMap): readonly LabelledAddress[] {
  const wrong = new Set(contradictions)
  return rows.filter((_, i) => !wrong.has(i + 1))
}

/** `of 11 of 12 packages; none of U18.` */
function shareWords({ memory: { channels } }: BoardDescription, rows: readonly LabelledAddress[]): string {
  const partOf = new Map(channels.map(({ id, part }) => [id, part]))
  const seen = new Set(rows.map(({ label }) => partOf.get(label) ?? label))
  const parts = [...new Set(channels.map(({ part }) => part))]
  const without = parts.filter((ref) => !seen.has(ref))
  const known = say('of {length} of {length2, plural, one {# package} other {# packages}}', {
    length: parts.length - without.length,
    length2: parts.length,
  })
  return without.length === 0 ? `${known}.` : say('{known}; none of {without}.', { known, without: someOf(without, 8) })
}

const MOST_SHOWN = 12

function Contradictions({ map: { contradictions }, rows }: Omit<ToldProps, 'board'>) {
  const editor = useEditorStore()
  if (contradictions.length === 0) return <p className={styles.quiet}>{say('No line contradicts the rest.')}</p>
  const shown = contradictions.slice(0, MOST_SHOWN)
  return (
    <div className={styles.fields}>
      <p>
        <b>{say('{length} don’t fit the rest', { length: contradictions.length })}</b>
        {say(': noted wrong, or another map.')}
      </p>
      <ul className={styles.plainList}>
        {shown.map((line) => (
          <li key={line}>
            {line}: {rows[line - 1]?.address}, {rows[line - 1]?.label}
          </li>
        ))}
        {contradictions.length > shown.length && (
          <li>{say('{length} more', { length: contradictions.length - shown.length })}</li>
        )}
      </ul>
      <Button onClick={() => edit(editor, { kind: 'forget-labels', lines: [...contradictions] })}>
        {say('Take {length, plural, one {it} other {these}} away', { length: contradictions.length })}
      </Button>
    </div>
  )
}

function NextAddresses({ map: { nextAddresses } }: { readonly map: LearntMap }) {
  if (nextAddresses.length === 0) return undefined
  return (
    <div className={styles.fields}>
      <p>
        <b>{say('Look at these next')}</b>
        {say(': test them with one package left off. What fails lies in it.')}
      </p>
      <ul className={styles.plainList}>
        {nextAddresses.map((address) => (
          <li key={address}>
            <code>{hexOf(address)}</code>
          </li>
        ))}
      </ul>
      <Button onClick={() => void navigator.clipboard.writeText(nextAddresses.map(hexOf).join('\n'))}>
        {say('Copy these addresses')}
      </Button>
    </div>
  )
}
