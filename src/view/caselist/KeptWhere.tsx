/** Where the cases lie, and how sure that is; copies of them in a folder of the user's own. */
import { say } from '../../base/index.ts'
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
  if (!lasting) return say('These cases last as long as this page: export what you want to keep.')
  if (promised === true)
    return say('Kept in this browser, on this machine alone; the browser will not clear it by itself.')
  if (promised === undefined) return say('Kept in this browser, on this machine alone.')
  return say(
    'Kept in this browser, on this machine alone. It may clear them when the disk is full: export what you must not lose.',
  )
}

function Copies() {
  const desk = useDesk()
  const { stage, folder, fault } = useStore(desk.copies)
  if (folder === undefined) {
    return (
      <div className={styles.copies}>
        <Button onClick={() => void chooseFolder(desk)}>
          <FolderInput size={16} aria-hidden="true" /> {say('Copies in a folder…')}
        </Button>
        <p>{say('A folder that you choose gets each case as one file, anew after each save.')}</p>
      </div>
    )
  }
  const words = {
    off: '',
    on: say('Each case is copied to the folder “{name}” after it is saved.', { name: folder.name }),
    asks: say('No copies are written: the browser wants to ask you again for the folder “{name}”.', {
      name: folder.name,
    }),
    failed: say('No copies are written: {found}.', { found: fault?.found ?? say('the folder refused one') }),
  } as const
  return (
    <div className={styles.copies}>
      <p role="status">{words[stage]}</p>
      {stage !== 'on' && <Button onClick={() => void allowCopies(desk)}>{say('Try again')}</Button>}
      <Button onClick={() => void chooseFolder(desk)}>{say('Another folder…')}</Button>
      <Button onClick={() => void stopCopies(desk)}>{say('No copies')}</Button>
    </div>
  )
}
