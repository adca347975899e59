/** The report is read otherwise than when the case was kept: what changed, until the user has noted it. */
import { say } from '../../../base/index.ts'
import { Check } from 'lucide-react'
import { noteChange } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import type { ShownReport } from './ReportCard.tsx'
import own from '../../controls/stations.module.css'

export function ReadOtherwise({ id, name, reading }: ShownReport) {
  const desk = useDesk()
  const changed = reading.changed ?? []
  if (reading.state !== 'read' || changed.length === 0) return undefined
  return (
    <section className={styles.section} aria-label={say('What changed in {name}', { name })}>
      <p>
        <b>{say('This Liftmap reads it otherwise than the one that kept the case.')}</b>
      </p>
      <ul className={own.troubles}>
        {changed.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <div>
        <Button onClick={() => noteChange(desk, id)}>
          <Check size={15} aria-hidden="true" /> {say('Noted')}
        </Button>
      </div>
    </section>
  )
}
