/** Where the cases lie, and how sure that is; copies of them in a folder of the user's own. */
import { FolderInput } from 'lucide-react'
import { useStore } from 'zustand'
import { allowCopies, chooseFolder, stopCopies } from '../actions/copies.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './keptWhere.module.css'

export function KeptWhere() {
  const desk = useDesk()
  const promised = useStore(desk.saving, (saving) => saving.promised)
  return (
    <div className={styles.where}>
      <p>{wordsFor(desk.caseShelf.lasting, promised)}</p>
      {desk.folders !== undefined && <Copies />}
    </div>
  )
}

function wordsFor(lasting: boolean, promised: boolean | undefined): string {
  if (!lasting) return 'These cases last as long as this page: export what you want to keep.'
  if (promised === true) return 'Kept in this browser, on this machine alone; the browser will not clear it by itself.'
  if (promised === undefined) return 'Kept in this browser, on this machine alone.'
  return 'Kept in this browser, on this machine alone. It may clear them when the disk is full: export what you must not lose.'
}

function Copies() {
  const desk = useDesk()
  const { stage, folder, fault } = useStore(desk.copies)
  if (folder === undefined) {
    return (
      <div className={styles.copies}>
        <Button onClick={() => void chooseFolder(desk)}>
          <FolderInput size={16} aria-hidden="true" /> Copies in a folder…
        </Button>
        <p>A folder that you choose gets each case as one file, anew after each save.</p>
      </div>
    )
  }
  const words = {
    off: '',
    on: `Each case is copied to the folder “${folder.name}” after it is saved.`,
    asks: `No copies are written: the browser wants to ask you again for the folder “${folder.name}”.`,
    failed: `No copies are written: ${fault?.found ?? 'the folder refused one'}.`,
  } as const
  return (
    <div className={styles.copies}>
      <p role="status">{words[stage]}</p>
      {stage !== 'on' && <Button onClick={() => void allowCopies(desk)}>Try again</Button>}
      <Button onClick={() => void chooseFolder(desk)}>Another folder…</Button>
      <Button onClick={() => void stopCopies(desk)}>No copies</Button>
    </div>
  )
}
