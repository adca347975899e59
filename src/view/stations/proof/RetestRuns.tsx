/** The runs after the work: each with its passes, what it covers, whether it still counts. */
import { say } from '../../../base/index.ts'
import { CircleCheck, Trash2 } from 'lucide-react'
import type { ReportEntry } from '../../../case/index.ts'
import { removeReport } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent, useReadings } from '../../stores/hooks.ts'
import { reportIds } from '../../stores/readingStore.ts'
import { ReportCard } from '../memory-run/ReportCard.tsx'
import { RunFields } from '../memory-run/RunFields.tsx'
import stations from '../../controls/stations.module.css'

export function RetestRuns() {
  const reports = usePresent()?.reports ?? []
  const readings = useReadings()
  const entries = new Map(reports.map((report) => [report.id, report]))
  const noted = reports.flatMap(({ id, run, table }) => (run === 'retest' && table !== undefined ? [id] : []))
  const ids = [...reportIds('retest', reports, readings), ...noted]
  const isOvertaken = (id: string): boolean => entries.get(id)?.overtaken === true
  const earlier = ids.filter(isOvertaken)
  return (
    <>
      {ids
        .filter((id) => !isOvertaken(id))
        .map((id) => (
          <Run key={id} id={id} report={entries.get(id)} />
        ))}
      {earlier.length > 0 && (
        <Opening
          summary={say('{length, plural, one {# earlier run} other {# earlier runs}}, counted no more', {
            length: earlier.length,
          })}
        >
          <div className={styles.section}>
            {earlier.map((id) => (
              <Run key={id} id={id} report={entries.get(id)} />
            ))}
          </div>
        </Opening>
      )}
    </>
  )
}

function Run({ id, report }: { readonly id: string; readonly report: ReportEntry | undefined }) {
  if (report?.table !== undefined) return <EnteredRun report={report} />
  return <ReportCard id={id}>{report !== undefined && <RunFields report={report} />}</ReportCard>
}

/** A run that was noted without a file. */
function EnteredRun({ report }: { readonly report: ReportEntry }) {
  const desk = useDesk()
  const { id, name } = report
  return (
    <article className={stations.report} aria-label={say('Run {name}', { name })}>
      <div className={stations.reportHead}>
        <b>{name}</b>
        <span className={styles.tag}>
          <CircleCheck size={15} aria-hidden="true" /> {say('noted')}
        </span>
        <Button
          size="icon"
          tone="quiet"
          aria-label={say('Remove {name}', { name })}
          title={say('Remove')}
          onClick={() => removeReport(desk, id)}
        >
          <Trash2 size={15} aria-hidden="true" />
        </Button>
      </div>
      <RunFields report={report} />
    </article>
  )
}
