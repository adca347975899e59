/** The record of a case: from what is known to a document, and from that to HTML or to a definition for a PDF. */
export * from './document.ts'
export type { RecordInput } from './input.ts'
export { billOf, type Bill, chargedOf } from './money.ts'
export { apartFromStyle, recordHtml } from './html.ts'
export { recordPdfDefinition } from './pdf.ts'
export { recordOf } from './record.ts'
export { intakeSlip } from './slip.ts'
export { adviceDrafts, doneDraft, minutesDraft, partsDraft } from './drafts.ts'
