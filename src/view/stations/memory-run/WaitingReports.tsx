/** Reports that count for nothing yet: not surely read right, or nothing read of them; with the way to settle it. */
import { say } from '../../../base/index.ts'
import { CircleDashed, CircleQuestionMark } from 'lucide-react'
import type { ReportEntry } from '../../../case/index.ts'
import { goToStation } from '../../actions/goToStation.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { useDesk, usePresent, useReadings } from '../../stores/hooks.ts'
import { headOf, isAsking, isEmptyRun, reportIds } from '../../stores/readingStore.ts'
import styles from '../../controls/panel.module.css'

export function WaitingReports({ run }: { readonly run: ReportEntry['run'] }) {
  const desk = useDesk()
  const reports = usePresent()?.reports ?? []
  const readings = useReadings()
  const waiting = reportIds(run, reports, readings).flatMap((id) => {
    const reading = readings.get(id)
    const name = headOf(id, reports, readings)?.name
    if (reading === undefined || name === undefined) return []
    if (isAsking(reading))
      return [{ id, name, Icon: CircleQuestionMark, words: say('counts for nothing until you say how it is read.') }]
    const coversAll = reports.find((report) => report.id === id)?.coversAll === true
    return isEmptyRun(reading) && !coversAll
      ? [{ id, name, Icon: CircleDashed, words: say('counts for nothing: no row of it was read.') }]
      : []
  })
  if (waiting.length === 0) return undefined
  return (
    <ul className={styles.waiting} aria-label={say('Reports that do not count yet')}>
      {waiting.map(({ id, name, Icon, words }) => (
        <li key={id}>
          <Icon size={15} aria-hidden="true" />
          <span>
            <b>{name}</b> {words}{' '}
            {run === 'first' && (
              <LinkButton onClick={() => goToStation(desk, 'memory-run')}>{say('Say how')}</LinkButton>
            )}
          </span>
        </li>
      ))}
    </ul>
  )
}
