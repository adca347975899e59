/**
 * An invoice as a table for a spreadsheet. RFC 4180 (Shafranovich, 2005), section 2: records end with CRLF, all have the
 * same number of fields; a field with a separator, a quote or a line break stands in quotes, quotes within it are doubled.
 */
import { say } from '../../base/index.ts'
import type { Invoice } from './schema.ts'
import { totalsOf } from './totals.ts'

/** Decimal comma: then fields are set apart by semicolons, as spreadsheets of such places read it; common practice, no source. */
export interface CsvWish {
  readonly decimalComma: boolean
}

/** Spreadsheets tell by it that the text is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

/**
 * A head, a row a line, then discount, net, tax and total. Amounts have two decimals and no thousands.
 * @param card the shop's number of the card
 */
export function invoiceCsv(invoice: Invoice, card: string | undefined, currency: string, wish: CsvWish): string {
  const { number, on, lines, taxPct } = invoice
  const { nets, discount, net, tax, gross } = totalsOf(invoice)
  const typed = (value: number, digits: number): string => decimal(value, digits, wish)
  const amount = (value: number): string => typed(value, 2)
  const row = (fields: readonly string[]): string[] => [text(number), on, text(card ?? ''), ...fields, text(currency)]
  const sum = (kind: string, what: string, value: number): string[] =>
    row([kind, '', what, '', '', '', '', amount(value)])
  const rows = [
    ['invoice', 'day', 'card', 'row', 'line', 'what', 'quantity', 'unit', 'price', 'discount %', 'amount', 'currency'],
    ...lines.map(({ what, unit, quantity, price, discountPct }, i) =>
      row([
        'line',
        String(i + 1),
        text(what),
        typed(unit === 'minutes' ? quantity / 60 : quantity, 3),
        unit === 'minutes' ? 'h' : 'piece',
        amount(price),
        amount(discountPct),
        amount(nets[i] ?? 0),
      ]),
    ),
    ...(discount === 0 ? [] : [sum('discount', say('discount on all lines'), -discount)]),
    sum('net', 'net', net),
    sum('tax', say('tax {taxPct} %', { taxPct: typed(taxPct, 2) }), tax),
    sum('total', 'total', gross),
  ]
  return BYTE_ORDER_MARK + csvText(rows, wish.decimalComma ? ';' : ',')
}

/** @param separator a comma by the RFC */
export const csvText = (rows: readonly (readonly string[])[], separator: ',' | ';'): string =>
  rows.map((row) => `${row.map((field) => quoted(field, separator)).join(separator)}\r\n`).join('')

const quoted = (field: string, separator: string): string =>
  field.includes(separator) || /["\r\n]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field

const decimal = (value: number, digits: number, { decimalComma }: CsvWish): string => {
  const plain = value.toFixed(digits)
  return decimalComma ? plain.replace('.', ',') : plain
}

/**
 * Text that a spreadsheet would take for a formula gets an apostrophe before it (OWASP, Application Security Verification
 * Standard 5.0, 2025, 1.2.10: `=`, `+`, `-`, `@`, tab, null); a line break in front and the wide forms of these signs too.
 */
export const text = (typed: string): string => (/^[=+\-@\t\r\n\0＝＋－＠]/u.test(typed) ? `'${typed}` : typed)
