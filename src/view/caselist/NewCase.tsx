/** Below the list: a new case, which asks for its card, or a file that begins or opens one. */
import { say } from '../../base/index.ts'
import { FilePlus2, FolderOpen } from 'lucide-react'
import { acceptFor, beginsCase } from '../../case/index.ts'
import { hideCases } from '../actions/caseList.ts'
import { takeFile } from '../actions/drop.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { startOwnCase } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { FileButton } from '../controls/FileButton.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './caseList.module.css'

export function NewCase() {
  const desk = useDesk()
  const take = (file: File): void => {
    hideCases(desk)
    void takeFile(desk, file, MESSAGE_CORNER, beginsCase)
  }
  return (
    <div className={styles.foot}>
      <Button tone="strong" onClick={() => void startOwnCase(desk)}>
        <FilePlus2 size={16} aria-hidden="true" /> {say('New case…')}
      </Button>
      <FileButton label={say('Case, board or layout to open')} accept={acceptFor(beginsCase)} onFile={take}>
        <FolderOpen size={16} aria-hidden="true" /> {say('Open a file…')}
      </FileButton>
    </div>
  )
}
