/** Where a report comes in: dropped anywhere on the sheet, or chosen here. */
import { FileUp } from 'lucide-react'
import { useRef } from 'react'
import { takeFile } from '../actions/drop.ts'
import { Button } from '../controls/Button.tsx'
import styles from '../panels/why.module.css'
import { useDesk } from '../stores/hooks.ts'
import own from './stations.module.css'

interface ReportDropZoneProps {
  readonly words: string
  /** One report is there already: another needs less room. */
  readonly small?: boolean
}

export function ReportDropZone({ words, small = false }: ReportDropZoneProps) {
  const desk = useDesk()
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <div className={own.dropZone} data-small={small}>
      <p>{words}</p>
      <Button onClick={() => chooser.current?.click()}>
        <FileUp size={15} aria-hidden="true" /> Choose a report…
      </Button>
      <input
        ref={chooser}
        type="file"
        hidden
        aria-label="Report to read"
        onChange={(event) => {
          const file = event.target.files?.[0]
          const at = centreOf(event.target.parentElement ?? event.target)
          event.target.value = ''
          if (file !== undefined) void takeFile(desk, file, at)
        }}
      />
      {!small && <p className={styles.quiet}>It is read here on this machine and goes nowhere.</p>}
    </div>
  )
}

function centreOf(element: Element): { x: number; y: number } {
  const box = element.getBoundingClientRect()
  return { x: box.left + box.width / 2, y: box.bottom }
}
