/** The record leaves the screen: printed, or saved as a page or as a PDF. Everything is made on this machine. */
import { bad, type Fault, good, type Result, say } from '../../../base/index.ts'
import { type Case, type RecordDocument, recordHtml, recordPdfDefinition } from '../../../case/index.ts'
import type { Desk } from '../../stores/desk.ts'
import { saveFile } from '../../actions/saveFile.ts'

/** Prints what the preview shows; the print dialog offers paper or a PDF of its own. */
export function printPreview(preview: HTMLIFrameElement | null): void {
  preview?.contentWindow?.focus()
  preview?.contentWindow?.print()
}

/** The page's policy, which holds in the frame as well, lets no style stand inline. */
export function dress(page: Document, style: string): void {
  const view = page.defaultView
  if (view === null) return
  const sheet = new view.CSSStyleSheet()
  sheet.replaceSync(style)
  page.adoptedStyleSheets = [sheet]
}

export function savePage(record: RecordDocument, caseFile: Case): void {
  saveFile(`${fileName(record, caseFile)}.html`, new Blob([recordHtml(record)], { type: 'text/html' }))
}

export async function savePdf(record: RecordDocument, caseFile: Case): Promise<Result<undefined>> {
  const pdf = await recordPdf(record)
  if (!pdf.ok) return pdf
  saveFile(`${fileName(record, caseFile)}.pdf`, pdf.value)
  return good(undefined)
}

/** @returns the PDF; its maker and its fonts are fetched from the app itself when first asked, so that opening the app never waits for them */
export async function recordPdf(record: RecordDocument): Promise<Result<Blob>> {
  try {
    const [{ default: pdfmake }, { default: fonts }] = await Promise.all([
      import('pdfmake/build/pdfmake'),
      import('pdfmake/build/vfs_fonts'),
    ])
    pdfmake.addVirtualFileSystem(fonts)
    return good(await pdfmake.createPdf(recordPdfDefinition(record)).getBlob())
  } catch (cause) {
    return bad(pdfFault(cause))
  }
}

const pdfFault = (cause: unknown): Fault => ({
  path: 'PDF',
  found: cause instanceof Error ? cause.message : String(cause),
  expected: say('a PDF'),
  todo: say('Print it instead: the print dialog can save a PDF too.'),
})

function fileName({ audience }: RecordDocument, { card, title, invoice }: Case): string {
  if (audience === 'invoice') return `invoice-${plainName(invoice?.number ?? '')}`
  const name = plainName(card ?? title)
  return audience === 'quote' ? `quote-${name}` : `record-${name}-${audience}`
}

const plainName = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || say('case')

const SMALL_PX = 480

/** Small pictures of the photos as JPEG, by id; what can't be read is left out. */
export async function smallPhotos(desk: Desk, photos: Case['photos']): Promise<ReadonlyMap<string, string>> {
  const small = new Map<string, string>()
  for (const { id } of photos) {
    const bytes = await desk.files.get(id)
    const picture = bytes === undefined ? undefined : await smallPicture(bytes)
    if (picture !== undefined) small.set(id, picture)
  }
  return small
}

async function smallPicture(bytes: Blob): Promise<string | undefined> {
  try {
    const whole = await createImageBitmap(bytes, { imageOrientation: 'from-image' })
    const scale = Math.min(1, SMALL_PX / Math.max(whole.width, whole.height))
    const canvas = document.createElement('canvas')
    canvas.width = Math.max(1, Math.round(whole.width * scale))
    canvas.height = Math.max(1, Math.round(whole.height * scale))
    canvas.getContext('2d')?.drawImage(whole, 0, 0, canvas.width, canvas.height)
    whole.close()
    return canvas.toDataURL('image/jpeg', 0.8)
  } catch {
    return undefined
  }
}
