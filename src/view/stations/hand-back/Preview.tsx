/** The record as it will be printed, for one reader or the other; and the ways in which it leaves the screen. */
import { FileText, Printer } from 'lucide-react'
import { useEffect, useMemo, useRef, useState } from 'react'
import type { Fault } from '../../../base/index.ts'
import { apartFromStyle, type Audience, type RecordDocument, recordHtml, recordOf } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { dress, printPreview, savePage, savePdf } from './record.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice } from '../../controls/fields.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import panel from '../../controls/panel.module.css'
import { usePresent } from '../../stores/hooks.ts'
import { useRecordQuestion } from './recordOfCase.ts'
import styles from './handback.module.css'
import { useSettled } from './useSettled.ts'
import { useSmallPhotos } from './useSmallPhotos.ts'

const readers = [
  { value: 'owner', words: 'For the owner' },
  { value: 'technician', words: 'For the technician' },
] as const

const SETTLED_MS = 300

export function Preview() {
  const [audience, setAudience] = useState<Audience>('owner')
  const [making, setMaking] = useState(false)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const frame = useRef<HTMLIFrameElement>(null)
  const scrolledTo = useRef(0)
  const toPrint = useRef(false)
  const [loadedHtml, setLoadedHtml] = useState<string>()
  const question = useRecordQuestion(useSmallPhotos(usePresent()?.photos), today())
  const settled = useSettled(question, SETTLED_MS)
  const html = useMemo(
    () => (settled === undefined ? undefined : recordHtml(recordOf({ ...settled, audience }))),
    [settled, audience],
  )
  const apart = useMemo(() => apartFromStyle(html ?? ''), [html])
  /** The frame shows what is entered now. */
  const stands = question !== undefined && settled === question && loadedHtml === html
  useEffect(() => {
    if (!stands || !toPrint.current) return
    toPrint.current = false
    printPreview(frame.current)
  }, [stands])
  if (question === undefined || html === undefined) return undefined
  const { caseFile } = question
  const record = (): RecordDocument => recordOf({ ...question, audience })
  const makePdf = async (): Promise<void> => {
    setMaking(true)
    const made = await savePdf(record(), caseFile)
    setFaults(made.ok ? [] : made.faults)
    setMaking(false)
  }
  /** What was typed last is printed too: where the preview does not show it yet, once it does. */
  const print = (): void => {
    if (stands) printPreview(frame.current)
    else toPrint.current = true
  }
  /** A record that was made anew stays where it was read. */
  const loaded = (): void => {
    const page = frame.current?.contentWindow
    if (frame.current?.contentDocument) dress(frame.current.contentDocument, apart.style)
    page?.scrollTo(0, scrolledTo.current)
    page?.addEventListener('scroll', () => {
      scrolledTo.current = page.scrollY
    })
    setLoadedHtml(html)
  }
  return (
    <section className={panel.section} aria-label="Record" aria-busy={!stands}>
      <h3 className={panel.sub}>Record</h3>
      <Choice label="Reader" labelHidden value={audience} options={readers} onChange={setAudience} />
      <div className={panel.row}>
        <Button onClick={print}>
          <Printer size={16} aria-hidden="true" /> Print
        </Button>
        <Button disabled={making} onClick={() => void makePdf()}>
          <FileText size={16} aria-hidden="true" /> {making ? 'Making the PDF' : 'Save PDF'}
        </Button>
        <Button onClick={() => savePage(record(), caseFile)}>Save page</Button>
      </div>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={fault.found} fault={fault} />
          ))}
        </ul>
      )}
      {/* No scripts may run in it; same origin and modals let this page print it. */}
      <iframe
        ref={frame}
        className={styles.preview}
        title={`Record ${audience === 'owner' ? 'for the owner' : 'for the technician'}`}
        sandbox="allow-same-origin allow-modals"
        srcDoc={apart.page}
        onLoad={loaded}
      />
    </section>
  )
}
