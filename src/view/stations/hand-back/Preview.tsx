/** The pages of a visit: the record for one reader or the other, quote and invoice where there are any; how each leaves the screen. */
import { FileText, Printer } from 'lucide-react'
import { useEffect, useMemo, useRef, useState } from 'react'
import { type Fault, say } from '../../../base/index.ts'
import { apartFromStyle, type RecordDocument, recordHtml, recordOf } from '../../../case/index.ts'
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

const pages = [
  { value: 'owner', words: say('For the owner'), title: say('Record for the owner') },
  { value: 'technician', words: say('For the technician'), title: say('Record for the technician') },
  { value: 'quote', words: say('Quote'), title: say('The quote') },
  { value: 'invoice', words: say('Invoice'), title: say('The invoice') },
] as const
type Page = (typeof pages)[number]['value']

const SETTLED_MS = 300

export function Preview() {
  const [chosen, setChosen] = useState<Page>('owner')
  const [shown, setShown] = useState(false)
  const [making, setMaking] = useState(false)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const frame = useRef<HTMLIFrameElement>(null)
  const scrolledTo = useRef(0)
  const toPrint = useRef(false)
  const [loadedHtml, setLoadedHtml] = useState<string>()
  const question = useRecordQuestion(useSmallPhotos(usePresent()?.photos), today())
  const there = pages.filter(({ value }) =>
    value === 'quote' || value === 'invoice' ? question?.caseFile[value] !== undefined : true,
  )
  const { value: audience, title } = there.find(({ value }) => value === chosen) ?? pages[0]
  const settled = useSettled(question, SETTLED_MS)
  const html = useMemo(
    () => (settled === undefined || !shown ? '' : recordHtml(recordOf({ ...settled, audience }))),
    [settled, audience, shown],
  )
  const apart = useMemo(() => apartFromStyle(html), [html])
  /** The frame shows what is entered now. */
  const stands = shown && question !== undefined && settled === question && loadedHtml === html
  useEffect(() => {
    if (!stands || !toPrint.current) return
    toPrint.current = false
    printPreview(frame.current)
  }, [stands])
  if (question === undefined) return undefined
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
    if (stands) return printPreview(frame.current)
    toPrint.current = true
    setShown(true)
  }
  /** A record that was made anew stays where it was read. */
  const loaded = (): void => {
    const page = frame.current?.contentWindow
    if (frame.current?.contentDocument) dress(frame.current.contentDocument, apart.style)
    page?.scrollTo(0, scrolledTo.current)
    // a page that opens below the fold looks as if nothing had happened
    if (loadedHtml === undefined) frame.current?.scrollIntoView({ block: 'nearest' })
    page?.addEventListener('scroll', () => {
      scrolledTo.current = page.scrollY
    })
    setLoadedHtml(html)
  }
  return (
    <section className={panel.section} aria-label={say('Record')} aria-busy={shown && !stands}>
      <Choice label={say('Page')} labelHidden value={audience} options={there} onChange={setChosen} />
      <div className={panel.row}>
        <Button onClick={print}>
          <Printer size={16} aria-hidden="true" /> {say('Print')}
        </Button>
        <Button disabled={making} onClick={() => void makePdf()}>
          <FileText size={16} aria-hidden="true" /> {making ? say('Making the PDF') : say('Save PDF')}
        </Button>
        <Button onClick={() => savePage(record(), caseFile)}>{say('Save page')}</Button>
        <Button aria-expanded={shown} onClick={() => setShown(!shown)}>
          {shown ? say('Hide it') : say('Look at it')}
        </Button>
      </div>
      {faults.length > 0 && (
        <ul className={files.faults} role="alert">
          {faults.map((fault) => (
            <FaultRow key={fault.found} fault={fault} />
          ))}
        </ul>
      )}
      {/* No scripts may run in it; same origin and modals let this page print it. */}
      {shown && (
        <iframe
          ref={frame}
          className={styles.preview}
          title={title}
          sandbox="allow-same-origin allow-modals"
          srcDoc={apart.page}
          onLoad={loaded}
        />
      )}
    </section>
  )
}
