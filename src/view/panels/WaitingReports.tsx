/** Reports that count for nothing yet: not surely read right, or nothing read of them; with the way to settle it. */
import { CircleDashed, CircleQuestionMark } from 'lucide-react'
import type { ReportEntry } from '../../case/index.ts'
import { goToStation } from '../actions/stations.ts'
import { LinkButton } from '../controls/Button.tsx'
import { useDesk, usePresent, useReadings } from '../stores/hooks.ts'
import { isAsking, isEmptyRun, reportNames } from '../stores/readingStore.ts'
import styles from './why.module.css'

export function WaitingReports({ run }: { readonly run: ReportEntry['run'] }) {
  const desk = useDesk()
  const reports = usePresent()?.reports ?? []
  const readings = useReadings()
  const waiting = reportNames(run, reports, readings).flatMap((name) => {
    const reading = readings.get(name)
    if (reading === undefined) return []
    if (isAsking(reading))
      return [{ name, Icon: CircleQuestionMark, words: 'counts for nothing until you say how it is read.' }]
    const coversAll = reports.find((report) => report.name === name)?.coversAll === true
    return isEmptyRun(reading) && !coversAll
      ? [{ name, Icon: CircleDashed, words: 'counts for nothing: no row of it was read.' }]
      : []
  })
  if (waiting.length === 0) return undefined
  return (
    <ul className={styles.waiting} aria-label="Reports that do not count yet">
      {waiting.map(({ name, Icon, words }) => (
        <li key={name}>
          <Icon size={15} aria-hidden="true" />
          <span>
            <b>{name}</b> {words}{' '}
            {run === 'first' && <LinkButton onClick={() => goToStation(desk, 'memory-run')}>Say how</LinkButton>}
          </span>
        </li>
      ))}
    </ul>
  )
}
