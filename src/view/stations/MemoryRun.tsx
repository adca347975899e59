/** Memory run: the reports of the memory test, how each was read, what could not be; and what they come to. */
import { FileUp } from 'lucide-react'
import { useRef } from 'react'
import { takeFile } from '../actions/drop.ts'
import { Button } from '../controls/Button.tsx'
import { Opening } from '../controls/pieces.tsx'
import { StationCautions } from '../panels/StationCautions.tsx'
import styles from '../panels/why.module.css'
import { useDesk, usePresent, useReadings, useTally } from '../stores/hooks.ts'
import { HandTable } from './HandTable.tsx'
import { ReportCard } from './ReportCard.tsx'
import own from './stations.module.css'
import { TallyTable } from './TallyTable.tsx'

export function MemoryRun() {
  const present = usePresent()
  const tally = useTally()
  const readings = useReadings()
  if (present === undefined) return undefined
  const inCase = present.reports.filter((report) => report.table === undefined).map((report) => report.name)
  const apart = [...readings].flatMap(([name, { state }]) => (state === 'read' || inCase.includes(name) ? [] : [name]))
  return (
    <section className={styles.section} aria-label="Memory run">
      <div className={styles.heading}>
        <h2>Memory run</h2>
        <span>what the memory test reported</span>
      </div>
      <DropZone />
      <StationCautions station="memory-run" title="While the test runs" />
      {[...inCase, ...apart].map((name) => (
        <ReportCard key={name} name={name} />
      ))}
      {tally !== undefined && <TallyTable tally={tally} />}
      <Opening summary="Enter it by hand">
        <HandTable />
      </Opening>
    </section>
  )
}

function DropZone() {
  const desk = useDesk()
  const chooser = useRef<HTMLInputElement>(null)
  return (
    <div className={own.dropZone}>
      <p>Drop the report anywhere on the sheet: any text with addresses, or with lanes and counts.</p>
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
      <p className={styles.quiet}>It is read here on this machine and goes nowhere.</p>
    </div>
  )
}

function centreOf(element: Element): { x: number; y: number } {
  const box = element.getBoundingClientRect()
  return { x: box.left + box.width / 2, y: box.bottom }
}
