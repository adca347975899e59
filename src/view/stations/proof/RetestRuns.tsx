/** The runs after the work: each with its passes, what it covers, whether it still counts. */
import { counted } from '../../../base/index.ts'
import { CircleCheck, Trash2 } from 'lucide-react'
import type { ReportEntry } from '../../../case/index.ts'
import { removeReport } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../panels/why.module.css'
import { useDesk, usePresent, useReadings } from '../../stores/hooks.ts'
import { reportNames } from '../../stores/readingStore.ts'
import { ReportCard } from '../ReportCard.tsx'
import { RunFields } from '../RunFields.tsx'
import stations from '../stations.module.css'

export function RetestRuns() {
  const reports = usePresent()?.reports ?? []
  const readings = useReadings()
  const entries = new Map(reports.map((report) => [report.name, report]))
  const noted = reports.flatMap(({ name, run, table }) => (run === 'retest' && table !== undefined ? [name] : []))
  const names = [...reportNames('retest', reports, readings), ...noted]
  const isOvertaken = (name: string): boolean => entries.get(name)?.overtaken === true
  const earlier = names.filter(isOvertaken)
  return (
    <>
      {names
        .filter((name) => !isOvertaken(name))
        .map((name) => (
          <Run key={name} name={name} report={entries.get(name)} />
        ))}
      {earlier.length > 0 && (
        <Opening summary={`${counted(earlier.length, 'earlier run')}, counted no more`}>
          <div className={styles.section}>
            {earlier.map((name) => (
              <Run key={name} name={name} report={entries.get(name)} />
            ))}
          </div>
        </Opening>
      )}
    </>
  )
}

function Run({ name, report }: { readonly name: string; readonly report: ReportEntry | undefined }) {
  if (report?.table !== undefined) return <EnteredRun report={report} />
  return <ReportCard name={name}>{report !== undefined && <RunFields report={report} />}</ReportCard>
}

/** A run that was noted without a file. */
function EnteredRun({ report }: { readonly report: ReportEntry }) {
  const desk = useDesk()
  const { name } = report
  return (
    <article className={stations.report} aria-label={`Run ${name}`}>
      <div className={stations.reportHead}>
        <b>{name}</b>
        <span className={styles.tag}>
          <CircleCheck size={15} aria-hidden="true" /> noted
        </span>
        <Button
          size="icon"
          tone="quiet"
          aria-label={`Remove ${name}`}
          title="Remove"
          onClick={() => removeReport(desk, name)}
        >
          <Trash2 size={15} aria-hidden="true" />
        </Button>
      </div>
      <RunFields report={report} />
    </article>
  )
}
