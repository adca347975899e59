/** Signals of a part's balls from a table that the shop has: typed, pasted or from a file; for it alone or all of its kind. */
import { useState } from 'react'
import { counted, sayFault } from '../../base/index.ts'
import { type Part, readBalls } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { TextField, Tick } from '../controls/fields.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import styles from './own-board.module.css'
import { tried } from './tried.ts'
import { useEditedBoard, useEditorStore } from './useEditor.ts'

const MOST_BYTES = 2_000_000

export function BallTable({ part }: { readonly part: Part }) {
  const editor = useEditorStore()
  const board = useEditedBoard()
  const [typed, setTyped] = useState('')
  const [fault, setFault] = useState<string>()
  const [said, setSaid] = useState('')
  const likes = board.parts.filter((each) => each.kind === part.kind && each.package === part.package)
  const [forAll, setForAll] = useState(likes.length > 1)
  const take = (text: string): boolean => {
    const read = readBalls(text)
    if (!read.ok) {
      setFault(read.faults.map(sayFault).slice(0, 2).join(' '))
      return false
    }
    // nets are of one part; its likes have the signals only
    const refs = forAll ? likes.map(({ ref }) => ref) : [part.ref]
    const wrong = refs
      .map((ref) =>
        tried(editor, {
          kind: 'name-balls',
          ref,
          balls: read.value.map(({ ball, signal, net }) => ({
            ball,
            ...(signal === undefined ? {} : { signal }),
            ...(net === undefined || ref !== part.ref ? {} : { net }),
          })),
        }),
      )
      .find((words) => words !== undefined)
    setFault(wrong)
    setSaid(wrong === undefined ? `${counted(read.value.length, 'ball')} named on ${refs.join(', ')}.` : '')
    return wrong === undefined
  }
  const fromFile = async (file: File): Promise<void> => {
    if (file.size > MOST_BYTES) setFault(`${file.name} is longer than 2 MB: no table of balls.`)
    else take(await file.text())
  }
  return (
    <div className={styles.fields}>
      <TextField
        label="Balls"
        long
        hint="Such as G2,DQ3_A: ball, signal, and its net if known."
        value={typed}
        fault={fault}
        onChange={(text) => {
          setTyped(text)
          setFault(undefined)
        }}
      />
      {likes.length > 1 && (
        <Tick label={`All ${likes.length} of this package have these signals`} checked={forAll} onChange={setForAll} />
      )}
      <div className={styles.buttons}>
        <Button disabled={typed.trim() === ''} onClick={() => take(typed) && setTyped('')}>
          Take these
        </Button>
        <FileButton label="File with balls" onFile={(file) => void fromFile(file)}>
          From a file
        </FileButton>
      </div>
      <p className={styles.quiet} role="status">
        {said}
      </p>
    </div>
  )
}
