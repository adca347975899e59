/** Adds labelled addresses to the edited board: typed, pasted or from a file, each line with its place or all of one. */
import { useState } from 'react'
import { counted, sayFault, someOf } from '../../base/index.ts'
import { type BoardDescription, readLabelledAddresses } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { SelectField, TextField } from '../controls/fields.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import styles from './own-board.module.css'
import { tried } from './tried.ts'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

const EACH_LINE = 'each line'
const ONE_PACKAGE = 'one package'
/** More of one text tell no more. */
const MOST_ROWS = 5000
const MOST_BYTES = 20_000_000

export function AddLabels() {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const [place, setPlace] = useState(EACH_LINE)
  const [typed, setTyped] = useState('')
  const [said, setSaid] = useState('')
  const [fault, setFault] = useState<string>()
  const add = (text: string): boolean => {
    const read = readLabelledAddresses(text, { names: namesOf(board), label: labelFor(board, place) })
    if (!read.ok) {
      setFault(read.faults.map(sayFault).join(' '))
      return false
    }
    const { rows, skipped } = read.value
    const some = evenly(rows)
    const wrong = tried(editor, {
      kind: 'label-addresses',
      rows: some.map(({ address, label }) => ({ address, label })),
    })
    setFault(wrong)
    if (wrong !== undefined) return false
    setSaid(
      [
        `${counted(some.length, 'address', 'addresses')} taken.`,
        some.length < rows.length ? `More than ${MOST_ROWS} tell no more: every so many of ${rows.length}.` : '',
        skipped.length === 0 ? '' : `Skipped lines: ${someOf(skipped.map(String), 6)}.`,
      ].join(' '),
    )
    return true
  }
  const fromFile = async (file: File): Promise<void> => {
    if (file.size > MOST_BYTES) setFault(`${file.name} is longer than 20 MB. Give a part of it.`)
    else add(await file.text())
  }
  return (
    <div className={styles.fields}>
      <SelectField label="These addresses lie in" value={place} options={placesOf(board)} onChange={setPlace} />
      <TextField
        label="Addresses"
        long
        hint={place === EACH_LINE ? 'Such as 0x1f400,U5: a line each.' : 'Such as 0x1f400: a line each.'}
        value={typed}
        fault={fault}
        onChange={(text) => {
          setTyped(text)
          setFault(undefined)
        }}
      />
      <div className={styles.buttons}>
        <Button disabled={typed.trim() === ''} onClick={() => add(typed) && setTyped('')}>
          Add these
        </Button>
        <FileButton label="File with addresses" onFile={(file) => void fromFile(file)}>
          From a file
        </FileButton>
      </div>
      <p className={styles.quiet} role="status">
        {said}
      </p>
    </div>
  )
}

const namesOf = ({ memory: { channels } }: BoardDescription): Set<string> =>
  new Set(channels.flatMap(({ id, part, lanes }) => [id, part, ...lanes.flatMap((lane) => lane.part ?? [])]))

function placesOf(board: BoardDescription): { value: string; words: string }[] {
  const { channels } = board.memory
  const parts = [...new Set(channels.map(({ part }) => part))]
  const several = channels.filter(({ part }) => channels.filter((other) => other.part === part).length > 1)
  return [
    { value: EACH_LINE, words: 'as each line says' },
    { value: ONE_PACKAGE, words: 'one package, which is not known' },
    ...parts.map((ref) => ({ value: ref, words: ref })),
    ...several.map(({ id, part }) => ({ value: id, words: `${id} of ${part}` })),
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
