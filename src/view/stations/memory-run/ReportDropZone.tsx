/** Where a report comes in: dropped anywhere on the sheet, or chosen here. */
import { say } from '../../../base/index.ts'
import { FileUp } from 'lucide-react'
import { takeFile } from '../../actions/drop.ts'
import { FileButton } from '../../controls/FileButton.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import own from '../../controls/stations.module.css'

interface ReportDropZoneProps {
  readonly words: string
  /** One report is there already: another needs less room. */
  readonly small?: boolean
}

export function ReportDropZone({ words, small = false }: ReportDropZoneProps) {
  const desk = useDesk()
  return (
    <div className={own.dropZone} data-small={small}>
      <p>{words}</p>
      <FileButton label={say('Report to read')} onFile={(file, below) => void takeFile(desk, file, below)}>
        <FileUp size={15} aria-hidden="true" /> {say('Choose a report…')}
      </FileButton>
      {!small && <p className={styles.quiet}>{say('It stays on this machine.')}</p>}
    </div>
  )
}
