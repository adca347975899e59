/** Below the list: a fresh case on one of the boards, or a file of any kind that begins one. */
import { FilePlus2, FolderOpen } from 'lucide-react'
import { useRef, useState } from 'react'
import { hideCases } from '../actions/caseList.ts'
import { takeFile } from '../actions/drop.ts'
import { openShippedBoard, startOwnCase } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { SelectField } from '../controls/fields.tsx'
import { useBoard, useDesk } from '../stores/hooks.ts'
import styles from './caseList.module.css'

const CORNER = { x: 420, y: 64 }
const SAME = 'same'

export function NewCase() {
  const desk = useDesk()
  const board = useBoard()
  const chooser = useRef<HTMLInputElement>(null)
  const options = [
    ...(board === undefined ? [] : [{ value: SAME, words: `${board.model.name}, as on the desk` }]),
    ...desk.shelf.boards.map((name) => ({ value: name, words: name.replace(/(\.board)?\.json$/, '') })),
  ]
  const [chosen, setChosen] = useState(options[0]?.value ?? '')
  const begin = (): void => {
    hideCases(desk)
    void (chosen === SAME ? startOwnCase(desk) : openShippedBoard(desk, chosen, CORNER))
  }
  return (
    <div className={styles.foot}>
      <SelectField label="A new case on" value={chosen} options={options} onChange={setChosen} />
      <Button tone="strong" onClick={begin} disabled={chosen === ''}>
        <FilePlus2 size={16} aria-hidden="true" /> Begin a case
      </Button>
      <Button onClick={() => chooser.current?.click()}>
        <FolderOpen size={16} aria-hidden="true" /> Open a file…
      </Button>
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label="Case, board or layout to open"
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file === undefined) return
          hideCases(desk)
          void takeFile(desk, file, CORNER)
        }}
      />
    </div>
  )
}
