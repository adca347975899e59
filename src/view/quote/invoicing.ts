/** The invoice on the desk: written from the work with the next number, changed line by line, taken back. */
import { say } from '../../base/index.ts'
import {
  draftLines,
  type Invoice,
  type InvoiceLine,
  invoiceCsv,
  nextInvoice,
  nextInvoiceNumber,
  type ShopDetails,
} from '../../case/index.ts'
import { today } from '../actions/clock.ts'
import { editCase } from '../actions/edit.ts'
import { saveFile } from '../actions/saveFile.ts'
import type { Desk } from '../stores/desk.ts'

/**
 * The number is given by this browser: what another tab has given since counts. One that was undone in this case is given
 * again, so that it leaves no gap.
 */
export function writeInvoice(desk: Desk): void {
  const model = desk.cases.getState().board?.model
  if (model === undefined) return
  const shop = desk.shopDetails.readAgain()
  const on = today()
  const lastInvoice = isUndone(desk, shop.lastInvoice) ? before(shop.lastInvoice) : shop.lastInvoice
  const number = nextInvoiceNumber({ lastInvoice }, on)
  const { exposures } = desk.plan.getState()
  editCase(desk, (c) => ({
    ...c,
    handBack: { ...c.handBack, currency: c.handBack.currency === '' ? shop.currency : c.handBack.currency },
    invoice: {
      number,
      on,
      to: c.arrival.owner,
      letterhead: shop.letterhead,
      lines: draftLines(c, model, exposures),
      discountPct: 0,
      taxPct: shop.taxPct,
      taxRounding: shop.taxRounding,
      warranty: shop.warranty,
    },
  }))
  desk.shopDetails.setState({ lastInvoice: nextInvoice(lastInvoice, on) })
}

/** The last number that was given is free again; an earlier one stays out, and its gap is the shop's to explain. */
export function takeBackInvoice(desk: Desk): void {
  const invoice = desk.cases.getState().history?.present.invoice
  const last = desk.shopDetails.readAgain().lastInvoice
  editCase(desk, (c) => {
    const { invoice: _, ...rest } = c
    return rest
  })
  if (invoice !== undefined && invoice.number === givenLast(last))
    desk.shopDetails.setState({ lastInvoice: before(last) })
}

type Last = ShopDetails['lastInvoice']

const before = (last: Last): Last =>
  last === undefined || last.number === 0 ? last : { ...last, number: last.number - 1 }

/** The number that was given last, as it stands on its invoice. */
const givenLast = (last: Last): string | undefined =>
  last === undefined || last.number === 0
    ? undefined
    : nextInvoiceNumber({ lastInvoice: before(last) }, `${last.year}-01-01`)

function isUndone(desk: Desk, last: Last): boolean {
  const number = givenLast(last)
  const { future = [], past = [] } = desk.cases.getState().history ?? {}
  return number !== undefined && [...future, ...past].some(({ invoice }) => invoice?.number === number)
}

export const editInvoice = (desk: Desk, change: Partial<Invoice>): void =>
  editCase(
    desk,
    (c) => (c.invoice === undefined ? c : { ...c, invoice: { ...c.invoice, ...change } }),
    `invoice ${Object.keys(change).join()}`,
  )

export const setPaid = (desk: Desk, on: string | undefined): void =>
  editCase(desk, (c) => {
    if (c.invoice === undefined) return c
    const { paidOn: _, ...open } = c.invoice
    return { ...c, invoice: on === undefined ? open : { ...open, paidOn: on } }
  })

export function editLine(desk: Desk, invoice: Invoice, index: number, change: Partial<InvoiceLine>): void {
  const lines = invoice.lines.map((line, i) => (i === index ? { ...line, ...change } : line))
  editCase(
    desk,
    (c) => ({ ...c, invoice: { ...invoice, lines } }),
    `invoice line ${index} ${Object.keys(change).join()}`,
  )
}

export const addLine = (desk: Desk, invoice: Invoice): void =>
  editInvoice(desk, {
    lines: [...invoice.lines, { what: 'part', unit: 'piece', quantity: 1, price: 0, discountPct: 0 }],
  })

export const removeLine = (desk: Desk, invoice: Invoice, index: number): void =>
  editInvoice(desk, { lines: invoice.lines.filter((_, i) => i !== index) })

/** For a spreadsheet. */
export function saveTable(desk: Desk): void {
  const present = desk.cases.getState().history?.present
  if (present?.invoice === undefined) return
  const { decimalComma } = desk.shopDetails.getState()
  const table = invoiceCsv(present.invoice, present.card, present.handBack.currency, { decimalComma })
  const name = present.invoice.number.toLowerCase().replace(/[^a-z0-9]+/g, '-')
  saveFile(say('invoice-{name}.csv', { name }), new Blob([table], { type: 'text/csv;charset=utf-8' }))
}
