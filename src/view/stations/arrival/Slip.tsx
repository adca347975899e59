/** The intake slip as it will be printed, and the ways in which it leaves the screen. */
import { Dialog } from '@base-ui/react/dialog'
import { FileText, Printer } from 'lucide-react'
import { useMemo, useRef, useState } from 'react'
import { type Fault, say } from '../../../base/index.ts'
import { apartFromStyle, codeWords, intakeOf, intakeSlip, recordHtml } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { Button } from '../../controls/Button.tsx'
import { DialogHead } from '../../controls/DialogHead.tsx'
import dialog from '../../controls/dialog.module.css'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import { useBoard, usePresent } from '../../stores/hooks.ts'
import { dress, printPreview, savePage, savePdf } from '../hand-back/record.ts'
import { useSmallPhotos } from '../hand-back/useSmallPhotos.ts'
import own from './arrival.module.css'

export function Slip({ onClose }: { readonly onClose: () => void }) {
  const print = useRef<HTMLButtonElement>(null)
  return (
    <Dialog.Root open onOpenChange={(open) => open || onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className={dialog.backdrop} />
        <Dialog.Popup className={`${dialog.popup} ${own.slip}`} initialFocus={print}>
          <Content print={print} />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  )
}

function Content({ print }: { readonly print: React.RefObject<HTMLButtonElement | null> }) {
  const caseFile = usePresent()
  const model = useBoard()?.model
  const photos = useSmallPhotos(caseFile?.photos)
  const frame = useRef<HTMLIFrameElement>(null)
  const [faults, setFaults] = useState<readonly Fault[]>([])
  const slip = useMemo(
    () =>
      caseFile === undefined || model === undefined
        ? undefined
        : intakeSlip({ caseFile, model, photos, today: today() }),
    [caseFile, model, photos],
  )
  const apart = useMemo(() => (slip === undefined ? undefined : apartFromStyle(recordHtml(slip))), [slip])
  if (caseFile === undefined || slip === undefined || apart === undefined) return undefined
  const { code } = intakeOf(caseFile)
  const makePdf = async (): Promise<void> => {
    const made = await savePdf(slip, caseFile)
    setFaults(made.ok ? [] : made.faults)
  }
  return (
    <>
      <DialogHead title={say('Intake slip')} closeLabel={say('Close the slip')}>
        <p>
          {code === undefined
            ? ''
            : say('Code {code}: type or scan it in the list of cases.', { code: codeWords(code) })}
        </p>
      </DialogHead>
      <div className={own.ways}>
        <Button ref={print} tone="strong" onClick={() => printPreview(frame.current)}>
          <Printer size={16} aria-hidden="true" /> {say('Print')}
        </Button>
        <Button onClick={() => void makePdf()}>
          <FileText size={16} aria-hidden="true" /> {say('Save PDF')}
        </Button>
        <Button onClick={() => savePage(slip, caseFile)}>{say('Save page')}</Button>
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
        className={own.paper}
        title={say('Intake slip, as it is printed')}
        sandbox="allow-same-origin allow-modals"
        srcDoc={apart.page}
        onLoad={() => frame.current?.contentDocument && dress(frame.current.contentDocument, apart.style)}
      />
    </>
  )
}
