/** The whole window takes files: a drop anywhere counts, and what is said about it is said there. */
import { say } from '../../base/index.ts'
import { FileDown } from 'lucide-react'
import { type DragEvent, type ReactNode, useState } from 'react'
import { takeFiles } from '../actions/onDemand.ts'
import { useDesk } from '../stores/hooks.ts'
import styles from '../controls/files.module.css'

export function DropGround({ children }: { readonly children: ReactNode }) {
  const desk = useDesk()
  const [over, setOver] = useState(false)
  const holdsFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files')
  return (
    // biome-ignore lint/a11y: the same files can be chosen from the Open menu and the memory run station
    <div
      className={styles.ground}
      onDragOver={(event) => {
        if (!holdsFiles(event)) return
        event.preventDefault()
        event.dataTransfer.dropEffect = 'copy'
        setOver(true)
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) setOver(false)
      }}
      onDrop={(event) => {
        if (!holdsFiles(event)) return
        event.preventDefault()
        setOver(false)
        const at = { x: event.clientX, y: event.clientY }
        void takeFiles(desk, [...event.dataTransfer.files], at)
      }}
    >
      {children}
      {over && (
        <div className={styles.over} aria-hidden="true">
          <p>
            <FileDown size={22} /> {say('Drop a report, a photo, a case, a board, its layout or its data files')}
          </p>
        </div>
      )}
    </div>
  )
}
