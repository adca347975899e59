/** The invoice: its lines with what they come to, tax, and whether it is paid. */
import { Trash2 } from 'lucide-react'
import { money, numberWords, say } from '../../base/index.ts'
import { type Invoice, type InvoiceLine, totalsOf } from '../../case/index.ts'
import { today } from '../actions/clock.ts'
import { AmountField } from '../controls/AmountField.tsx'
import { Button } from '../controls/Button.tsx'
import { DayField, TextField } from '../controls/fields.tsx'
import { Opening } from '../controls/pieces.tsx'
import panel from '../controls/panel.module.css'
import { useDesk, usePresent } from '../stores/hooks.ts'
import { addLine, editInvoice, editLine, removeLine, saveTable, setPaid, takeBackInvoice } from './invoicing.ts'
import styles from './quote.module.css'

/** `2026-0017, 197.81 EUR, open`. */
export function invoiceSummary(invoice: Invoice, currency: string): string {
  const state = invoice.paidOn === undefined ? say('open') : say('paid')
  return `${invoice.number}, ${money(totalsOf(invoice).gross, currency)}, ${state}`
}

export function InvoiceForm({ invoice }: { readonly invoice: Invoice }) {
  const desk = useDesk()
  const currency = usePresent()?.handBack.currency ?? ''
  return (
    <div className={styles.form}>
      <ul className={styles.lines} aria-label={say('Lines of the invoice')}>
        {invoice.lines.map((line, i) => (
          <LineRow key={i} invoice={invoice} line={line} index={i} />
        ))}
      </ul>
      <div className={panel.row}>
        <Button onClick={() => addLine(desk, invoice)}>{say('Add a line')}</Button>
        <Button onClick={() => saveTable(desk)}>{say('Save as CSV')}</Button>
      </div>
      <Totals invoice={invoice} currency={currency} />
      <div className={panel.row}>
        {invoice.paidOn === undefined ? (
          <Button tone="strong" onClick={() => setPaid(desk, today())}>
            {say('Paid today')}
          </Button>
        ) : (
          <Button onClick={() => setPaid(desk, undefined)}>{say('Not paid yet')}</Button>
        )}
      </div>
      <Opening summary={say('Number, day, discount and warranty')}>
        <Head invoice={invoice} />
      </Opening>
    </div>
  )
}

interface LineRowProps {
  readonly invoice: Invoice
  readonly line: InvoiceLine
  readonly index: number
}

function LineRow({ invoice, line, index }: LineRowProps) {
  const desk = useDesk()
  const n = index + 1
  const isTime = line.unit === 'minutes'
  const change = (next: Partial<InvoiceLine>): void => editLine(desk, invoice, index, next)
  return (
    <li>
      <TextField
        label={say('Line {n}', { n })}
        maxLength={400}
        value={line.what}
        onChange={(what) => what !== '' && change({ what })}
      />
      <AmountField
        label={isTime ? say('Minutes') : say('Count')}
        least={0.001}
        most={1e6}
        value={line.quantity}
        onChange={(quantity) => quantity !== undefined && change({ quantity })}
      />
      <AmountField
        label={isTime ? say('An hour') : say('Price of one')}
        most={1e7}
        value={line.price}
        onChange={(price) => price !== undefined && change({ price })}
      />
      <AmountField
        label={say('Less')}
        unit="%"
        most={100}
        value={line.discountPct === 0 ? undefined : line.discountPct}
        onChange={(discountPct = 0) => change({ discountPct })}
      />
      <Button
        size="icon"
        tone="quiet"
        aria-label={say('Remove line {n}, {what}', { n, what: line.what })}
        onClick={() => removeLine(desk, invoice, index)}
      >
        <Trash2 size={16} aria-hidden="true" />
      </Button>
    </li>
  )
}

function Totals({ invoice, currency }: { readonly invoice: Invoice; readonly currency: string }) {
  const { discount, net, tax, gross } = totalsOf(invoice)
  const rounding = invoice.taxRounding === 'line' ? say(', rounded line by line') : ''
  return (
    <dl className={panel.facts} aria-label={say('What it adds up to')} aria-live="polite">
      {discount !== 0 && (
        <>
          <dt>{say('Discount')}</dt>
          <dd>{money(-discount, currency)}</dd>
        </>
      )}
      {invoice.taxPct > 0 && (
        <>
          <dt>{say('Without tax')}</dt>
          <dd>{money(net, currency)}</dd>
          <dt>{say('Tax')}</dt>
          <dd>
            {money(tax, currency)}, {numberWords(invoice.taxPct)} %{rounding}
          </dd>
        </>
      )}
      <dt>{say('To pay')}</dt>
      <dd>
        <b>{money(gross, currency)}</b>
      </dd>
    </dl>
  )
}

function Head({ invoice }: { readonly invoice: Invoice }) {
  const desk = useDesk()
  const { number, on, to, discountPct, taxPct, warranty } = invoice
  return (
    <div className={styles.form}>
      <div className={panel.two}>
        <TextField
          label={say('Number')}
          maxLength={60}
          value={number}
          onChange={(next) => next.trim() !== '' && editInvoice(desk, { number: next })}
        />
        <DayField
          label={say('Day')}
          value={on}
          onChange={(next) => next !== undefined && editInvoice(desk, { on: next })}
        />
        <AmountField
          label={say('Discount on all')}
          unit="%"
          most={100}
          value={discountPct === 0 ? undefined : discountPct}
          onChange={(next = 0) => editInvoice(desk, { discountPct: next })}
        />
        <AmountField
          label={say('Tax')}
          unit="%"
          most={100}
          value={taxPct}
          onChange={(next = 0) => editInvoice(desk, { taxPct: next })}
        />
      </div>
      <TextField
        label={say('{field, select, addressee {To} other {}}', { field: 'addressee' })}
        long
        maxLength={1000}
        value={to}
        onChange={(next) => editInvoice(desk, { to: next })}
      />
      <TextField
        label={say('Warranty')}
        long
        maxLength={4000}
        value={warranty}
        onChange={(next) => editInvoice(desk, { warranty: next })}
      />
      <div className={panel.row}>
        <Button tone="quiet" onClick={() => takeBackInvoice(desk)}>
          {say('Take the invoice back')}
        </Button>
      </div>
    </div>
  )
}
