/** The invoice as a page: who writes to whom, number and day, lines, tax, and what the shop promises. */
import { dayWords, minutesWords, money, numberWords, say, spoken } from '../../base/index.ts'
import { facts, paragraph, quote, section, table } from '../record/blocks.ts'
import type { RecordDocument, RecordSection } from '../record/document.ts'
import type { Case } from '../schema.ts'
import type { Letterhead } from '../shop-details.ts'
import type { Invoice, InvoiceLine } from './schema.ts'
import { totalsOf } from './totals.ts'

/** Empty where no invoice was written: then the page says so. @param today the day it is printed */
export function invoicePage({ caseFile, today }: { readonly caseFile: Case; readonly today: string }): RecordDocument {
  const { invoice, card, title, handBack } = caseFile
  const number = invoice?.number ?? ''
  return {
    audience: 'invoice',
    language: spoken(),
    title: invoice === undefined ? say('Invoice') : say('Invoice {number}', { number }),
    under: invoice?.letterhead.name ?? '',
    facts:
      invoice === undefined
        ? []
        : [
            { name: say('Day'), value: dayWords(invoice.on) },
            ...(card === undefined ? [] : [{ name: say('Card number'), value: card }]),
            ...(invoice.to.trim() === '' ? [] : [{ name: say('To'), value: invoice.to.trim() }]),
          ],
    sections:
      invoice === undefined
        ? [section(say('Invoice'), paragraph(say('No invoice was written for this card.')))]
        : [
            linesSection(invoice, handBack.currency),
            paymentSection(invoice, caseFile),
            ...warrantySection(invoice.warranty),
            ...shopSection(invoice.letterhead),
            ...inventedSection(caseFile),
          ],
    foot: `${invoice === undefined ? say('Invoice') : say('Invoice {number}', { number })}, ${card === undefined ? title : say('card {card}', { card })}, ${dayWords(invoice?.on ?? today)}`,
    day: invoice?.on ?? today,
  }
}

function linesSection(invoice: Invoice, currency: string): RecordSection {
  const { lines, discountPct, taxPct } = invoice
  const totals = totalsOf(invoice)
  const discounted = lines.some((line) => line.discountPct > 0)
  const head = [say('What'), say('Quantity#'), say('Price#'), ...(discounted ? [say('Less#')] : []), say('Amount#')]
  const last = (name: string, amount: number): string[] => [
    name,
    ...head.slice(2).map(() => ''),
    money(amount, currency),
  ]
  const rows = lines.map((line, i) => [
    line.what,
    quantityWords(line),
    line.unit === 'minutes' ? say('{price} an hour', { price: money(line.price, '') }) : money(line.price, ''),
    ...(discounted ? [line.discountPct === 0 ? '' : `${numberWords(line.discountPct)} %`] : []),
    money(totals.nets[i] ?? 0, currency),
  ])
  const sums = [
    ...(totals.discount === 0
      ? []
      : [last(say('Discount of {discountPct} %', { discountPct: numberWords(discountPct) }), -totals.discount)]),
    ...(taxPct === 0
      ? []
      : [
          last(say('Without tax'), totals.net),
          last(say('Tax of {taxPct} %', { taxPct: numberWords(taxPct) }), totals.tax),
        ]),
  ]
  return section(
    say('Work and parts'),
    table(say('Prices without tax'), head, [...rows, ...sums], last(say('To pay'), totals.gross)),
  )
}

const quantityWords = ({ unit, quantity }: InvoiceLine): string =>
  unit === 'minutes' ? minutesWords(quantity) : numberWords(quantity)

function paymentSection({ paidOn }: Invoice, { arrival, handBack }: Case): RecordSection {
  return section(
    say('Payment'),
    facts(say('Payment'), [
      [say('State'), paidOn === undefined ? say('open') : say('paid on {paidOn}', { paidOn: dayWords(paidOn) })],
      ...(arrival.on === undefined ? [] : [[say('Card came in'), dayWords(arrival.on)] as const]),
      ...(handBack.on === undefined ? [] : [[say('Card went back'), dayWords(handBack.on)] as const]),
    ]),
  )
}

const warrantySection = (warranty: string): RecordSection[] =>
  warranty.trim() === '' ? [] : [section(say('Warranty'), ...quote(say('The shop'), warranty))]

/** A demo's page says that it is one. */
export const inventedSection = ({ demo }: Pick<Case, 'demo'>): RecordSection[] =>
  demo ? [section(say('Example'), paragraph(say('This is an invented example. No such card exists.')))] : []

/** Who writes, at the foot of a quote or an invoice; nothing where nothing was entered. */
export function shopSection({ name, address, contact, taxNumber }: Letterhead): RecordSection[] {
  const lines: (readonly [string, string])[] = [
    [say('Name'), name],
    [say('Address'), address.trim()],
    [say('Contact'), contact.trim()],
    [say('Tax number'), taxNumber],
  ]
  const entered = lines.filter(([, value]) => value !== '')
  return entered.length === 0 ? [] : [section(say('Shop'), facts(say('Shop'), entered))]
}
