/** The invoice: its lines from the work, what they add up to, its page and its table. */
export { csvText, invoiceCsv } from './csv.ts'
export { draftLines } from './draft.ts'
export { type Invoice, type InvoiceLine, invoiceSchema } from './schema.ts'
export { type InvoiceTotals, totalsOf } from './totals.ts'
