/** Memory run: the reports of the memory test, how each was read, what could not be; and what they come to. */
import { Opening } from '../../controls/pieces.tsx'
import { StationCautions } from '../../controls/StationCautions.tsx'
import styles from '../../controls/panel.module.css'
import { useBoard, usePresent, useReadings, useTally } from '../../stores/hooks.ts'
import { reportIds } from '../../stores/readingStore.ts'
import { HandTable } from './HandTable.tsx'
import { ReportCard } from './ReportCard.tsx'
import { ReportDropZone } from './ReportDropZone.tsx'
import { RunFields } from './RunFields.tsx'
import { TallyTable } from './TallyTable.tsx'
import { WordsKept } from './WordsKept.tsx'

export function MemoryRun() {
  const present = usePresent()
  const tally = useTally()
  const readings = useReadings()
  const hasMap = useBoard()?.model.addressMap !== undefined
  if (present === undefined) return undefined
  const ids = reportIds('first', present.reports, readings)
  return (
    <section className={styles.section} aria-label="Memory run">
      <div className={styles.heading}>
        <h2>Memory run</h2>
      </div>
      <ReportDropZone
        words={`Drop the report on the sheet: any text with ${hasMap ? 'addresses, or lanes and counts' : 'parts or lanes and counts'}.`}
      />
      <StationCautions station="memory-run" title="While the test runs" />
      {ids.map((id) => (
        <ReportCard key={id} id={id}>
          {present.reports
            .filter((report) => report.id === id)
            .map((report) => (
              <RunFields key={id} report={report} />
            ))}
        </ReportCard>
      ))}
      {tally !== undefined && <TallyTable tally={tally} />}
      <WordsKept />
      <Opening summary="Enter it by hand">
        <HandTable />
      </Opening>
    </section>
  )
}
