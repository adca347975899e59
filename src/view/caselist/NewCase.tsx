/** Below the list: a new case, which asks for its card, or a file of any kind that begins or opens one. */
import { FilePlus2, FolderOpen } from 'lucide-react'
import { useRef } from 'react'
import { hideCases } from '../actions/caseList.ts'
import { takeFile } from '../actions/drop.ts'
import { startOwnCase } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './caseList.module.css'

const CORNER = { x: 420, y: 64 }

export function NewCase() {
  const desk = useDesk()
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <div className={styles.foot}>
      <Button tone="strong" onClick={() => void startOwnCase(desk)}>
        <FilePlus2 size={16} aria-hidden="true" /> New case…
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
