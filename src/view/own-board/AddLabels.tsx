/** Adds labelled addresses to the edited board: typed, pasted or from a file, each line with its place or all of one. */
import { useState } from 'react'
import { sayFault, someOf, say } from '../../base/index.ts'
import type { BoardDescription } from '../../board/index.ts'
import { calls } from '../../workers/contract.ts'
import { SelectField } from '../controls/fields.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './own-board.module.css'
import { type Taken, TextOrFile } from './TextOrFile.tsx'
import { tried } from './tried.ts'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

const EACH_LINE = 'each line'
const ONE_PACKAGE = 'one package'
/** More of one text tell no more. */
const MOST_ROWS = 5000

export function AddLabels() {
  const desk = useDesk()
  const editor = useEditorStore()
  const board = useEditedBoard()
  const [place, setPlace] = useState(EACH_LINE)
  const take = async (text: string): Promise<Taken> => {
    const label = labelFor(board, place)
    const question = { text, names: namesOf(board), ...(label === undefined ? {} : { label }) }
    const read = await desk.boards.call(calls.readAddresses, question)
    if (!read.ok) return { fault: read.faults.map(sayFault).join(' ') }
    const { rows, skipped } = read.value
    const some = evenly(rows)
    const fault = tried(editor, {
      kind: 'label-addresses',
      rows: some.map(({ address, label: name }) => ({ address, label: name })),
    })
    if (fault !== undefined) return { fault }
    const told = [
      say('{length, plural, one {# address} other {# addresses}} taken.', { length: some.length }),
      some.length < rows.length
        ? say('More than {MOSTROWS} tell no more: every so many of {length}.', {
            MOSTROWS: MOST_ROWS,
            length: rows.length,
          })
        : '',
      skipped.length === 0 ? '' : say('Skipped lines: {skipped}.', { skipped: someOf(skipped.map(String), 6) }),
    ]
    return { said: told.filter((words) => words !== '').join(' ') }
  }
  return (
    <div className={styles.fields}>
      <SelectField label={say('These addresses lie in')} value={place} options={placesOf(board)} onChange={setPlace} />
      <TextOrFile
        label={say('Addresses')}
        hint={place === EACH_LINE ? say('Such as 0x1f400,U5: a line each.') : say('Such as 0x1f400: a line each.')}
        takeWords={say('Add these')}
        fileLabel={say('File with addresses')}
        mostMegabytes={20}
        take={take}
      />
    </div>
  )
}

const namesOf = ({ memory: { channels } }: BoardDescription): string[] => [
  ...new Set(channels.flatMap(({ id, part, lanes }) => [id, part, ...lanes.flatMap((lane) => lane.part ?? [])])),
]

function placesOf(board: BoardDescription): { value: string; words: string }[] {
  const { channels } = board.memory
  const parts = [...new Set(channels.map(({ part }) => part))]
  const several = channels.filter(({ part }) => channels.filter((other) => other.part === part).length > 1)
  return [
    { value: EACH_LINE, words: say('as each line says') },
    { value: ONE_PACKAGE, words: say('one package, which is not known') },
    ...parts.map((ref) => ({ value: ref, words: ref })),
    ...several.map(({ id, part }) => ({ value: id, words: say('{id} of {part}', { id, part }) })),
  ]
}

function labelFor({ labelledAddresses = [] }: BoardDescription, place: string): string | undefined {
  if (place === EACH_LINE) return undefined
  if (place !== ONE_PACKAGE) return place
  const taken = new Set(labelledAddresses.map(({ label }) => label))
  for (let n = 1; ; n++) if (!taken.has(`?${n}`)) return `?${n}`
}

/** At most so many, spread over the whole text. */
const evenly = <T,>(rows: readonly T[]): readonly T[] =>
  rows.length <= MOST_ROWS
    ? rows
    : Array.from({ length: MOST_ROWS }, (_, i) => rows[Math.floor((i * rows.length) / MOST_ROWS)]).flatMap(
        (row) => row ?? [],
      )
