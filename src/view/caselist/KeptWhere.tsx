/** Where the cases lie, and how sure that is. */
import { useStore } from 'zustand'
import { useDesk } from '../stores/hooks.ts'
import styles from './caseList.module.css'

export function KeptWhere() {
  const desk = useDesk()
  const promised = useStore(desk.saving, (saving) => saving.promised)
  return <p className={styles.where}>{wordsFor(desk.caseShelf.lasting, promised)}</p>
}

function wordsFor(lasting: boolean, promised: boolean | undefined): string {
  if (!lasting) return 'These cases last as long as this page: export what you want to keep.'
  if (promised === true) return 'Kept in this browser, on this machine alone; the browser will not clear it by itself.'
  if (promised === undefined) return 'Kept in this browser, on this machine alone.'
  return 'Kept in this browser, on this machine alone. It may clear them when the disk is full: export what you must not lose.'
}
