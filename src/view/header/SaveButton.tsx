/** Saves the case as one file. */
import { Download } from 'lucide-react'
import { useStore } from 'zustand'
import { sayFaults } from '../actions/messages.ts'
import { caseToSave } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './header.module.css'

export function SaveButton() {
  const desk = useDesk()
  const open = useStore(desk.cases, ({ history }) => history !== undefined)
  const unsaved = useStore(desk.cases, ({ history, saved }) => history !== undefined && history.present !== saved)
  const save = async (): Promise<void> => {
    const text = await caseToSave(desk)
    if (!text.ok) return sayFaults(desk, { x: 420, y: 64 }, 'The case was not saved', text.faults)
    const { title, card } = desk.cases.getState().history?.present ?? { title: 'case', card: undefined }
    download(`${fileName(card ?? title)}.case.json`, text.value)
  }
  return (
    <Button
      tone="strong"
      className={styles.save}
      disabled={!open}
      onClick={() => void save()}
      title={
        unsaved ? 'Unsaved changes: save the case as one file' : 'Save the case as one file, with board and reports'
      }
    >
      <Download size={16} aria-hidden="true" /> Save case
      <span className={styles.unsaved} data-unsaved={unsaved}>
        {unsaved && <span className="visually-hidden">, unsaved changes</span>}
      </span>
    </Button>
  )
}

const fileName = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'case'

function download(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  URL.revokeObjectURL(address)
}
