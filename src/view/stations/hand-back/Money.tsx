/** Parts used, what they and the hours add up to, what was charged; or the invoice, once it is written. */
import { money, say } from '../../../base/index.ts'
import { minutesWords } from '../../stores/words.ts'
import { Trash2 } from 'lucide-react'
import { billOf, partsDraft } from '../../../case/index.ts'
import { addUsedParts, changeUsedPart, clearHandBack, editHandBack, removeUsedPart } from './handBack.ts'
import { Button } from '../../controls/Button.tsx'
import { TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import panel from '../../controls/panel.module.css'
import { InvoiceForm } from '../../quote/InvoiceForm.tsx'
import { writeInvoice } from '../../quote/invoicing.ts'
import { ShopForm } from '../../quote/ShopForm.tsx'
import { Figured, FiguredText } from '../../figures/index.ts'
import { useBoard, useDesk, usePlan, usePresent, useShopDetails } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import styles from './handback.module.css'

export function Money() {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  const best = usePlan((plan) => plan.answer?.best)
  if (present === undefined || model === undefined) return undefined
  const { usedParts, charged, currency } = present.handBack
  if (present.invoice !== undefined)
    return (
      <>
        <InvoiceForm invoice={present.invoice} />
        <Shop />
      </>
    )
  const known = new Set(usedParts.map(({ what }) => what))
  const draft = partsDraft(present, model, best).filter(({ what }) => !known.has(what))
  return (
    <section className={panel.section} aria-label={say('Parts and price')}>
      {usedParts.length > 0 && (
        <ul className={styles.parts} aria-label={say('Parts used')}>
          {usedParts.map((part, i) => (
            <PartRow key={i} index={i} part={part} />
          ))}
        </ul>
      )}
      <div className={panel.row}>
        <Button onClick={() => addUsedParts(desk, [{ what: say('part'), count: 1, price: 0 }])}>
          {say('Add a part')}
        </Button>
        {draft.length > 0 && (
          <Button onClick={() => addUsedParts(desk, draft)}>
            {say('Take {lines, plural, one {# line} other {# lines}} from log and plan', { lines: draft.length })}
          </Button>
        )}
      </div>
      <div className={panel.two}>
        <AmountField
          label={say('Charged')}
          value={charged}
          onChange={(next) =>
            next === undefined ? clearHandBack(desk, 'charged') : editHandBack(desk, { charged: next })
          }
        />
        <TextField
          label={say('Currency')}
          maxLength={12}
          value={currency}
          onChange={(next) => editHandBack(desk, { currency: next })}
        />
      </div>
      <Sum />
      <div className={panel.row}>
        <Button tone="strong" onClick={() => writeInvoice(desk)}>
          {say('Write the invoice')}
        </Button>
      </div>
      <Shop />
    </section>
  )
}

function Shop() {
  const { letterhead } = useShopDetails()
  return (
    <Opening
      summary={
        letterhead.name === ''
          ? say('Your shop: name, tax, warranty')
          : say('Your shop: {name}', { name: letterhead.name })
      }
    >
      <ShopForm />
    </Opening>
  )
}

function PartRow({
  index,
  part,
}: {
  readonly index: number
  readonly part: { what: string; count: number; price: number }
}) {
  const desk = useDesk()
  const n = index + 1
  return (
    <li>
      <TextField
        label={say('Part {n}', { n })}
        maxLength={200}
        value={part.what}
        onChange={(what) => what !== '' && changeUsedPart(desk, index, { what })}
      />
      <Button
        size="icon"
        tone="quiet"
        aria-label={say('Remove part {n}, {what}', { n, what: part.what })}
        onClick={() => removeUsedPart(desk, index)}
      >
        <Trash2 size={16} aria-hidden="true" />
      </Button>
      <AmountField
        label={say('Count')}
        least={0.001}
        value={part.count}
        onChange={(count) => count !== undefined && changeUsedPart(desk, index, { count })}
      />
      <AmountField
        label={say('Price of one')}
        value={part.price}
        onChange={(price) => price !== undefined && changeUsedPart(desk, index, { price })}
      />
    </li>
  )
}

function Sum() {
  const present = usePresent()
  if (present === undefined) return undefined
  const { partsSum, labour, hourlyRate, minutes, sum, difference, currency } = billOf({ caseFile: present })
  const inCurrency = (amount: number): string => money(amount, currency)
  return (
    <dl className={panel.facts} aria-label={say('What it adds up to')} aria-live="polite">
      <dt>{say('Parts')}</dt>
      <dd>
        <Figured of={{ kind: 'bill' }}>{inCurrency(partsSum)}</Figured>
      </dd>
      <dt>{say('Labour')}</dt>
      <dd>
        {labour === undefined || minutes === undefined ? (
          say('no time noted')
        ) : (
          <FiguredText
            words={say('{labour}: {time} at {rate} an hour', {
              labour: inCurrency(labour),
              time: minutesWords(minutes),
              rate: inCurrency(hourlyRate),
            })}
            numbers={[inCurrency(labour), inCurrency(hourlyRate)]}
            of={{ kind: 'bill' }}
          />
        )}
      </dd>
      <dt>{say('Together')}</dt>
      <dd>
        <b>
          <Figured of={{ kind: 'bill' }}>{inCurrency(sum)}</Figured>
        </b>
        {difference !== undefined && difference !== 0 && (
          <FiguredText
            words={
              difference > 0
                ? say('; charged is {amount} more', { amount: inCurrency(difference) })
                : say('; charged is {amount} less', { amount: inCurrency(-difference) })
            }
            numbers={[inCurrency(Math.abs(difference))]}
            of={{ kind: 'bill' }}
          />
        )}
        {difference === 0 && say('; just what is charged')}
      </dd>
    </dl>
  )
}
