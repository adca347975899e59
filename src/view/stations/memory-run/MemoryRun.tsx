/** Memory run: the reports of the memory test, how each was read, what could not be; and what they come to. */
import { say } from '../../../base/index.ts'
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
    <section className={styles.section} aria-label={say('Memory run')}>
      <div className={styles.heading}>
        <h2>{say('Memory run')}</h2>
      </div>
      <ReportDropZone
        words={say('Drop the report on the sheet: any text with {value}.', {
          value: hasMap ? say('addresses, or lanes and counts') : say('parts or lanes and counts'),
        })}
      />
      <StationCautions station="memory-run" title={say('While the test runs')} />
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
      <Opening summary={say('Enter it by hand')}>
        <HandTable />
      </Opening>
    </section>
  )
}
