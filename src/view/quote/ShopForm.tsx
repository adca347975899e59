/** The shop's name, tax, hours and words: kept by this browser, printed on quotes and invoices that are written from then on. */
import { say } from '../../base/index.ts'
import { taxRoundings } from '../../case/index.ts'
import { AmountField } from '../controls/AmountField.tsx'
import { SelectField, TextField, Tick } from '../controls/fields.tsx'
import panel from '../controls/panel.module.css'
import { useDesk, useShopDetails } from '../stores/hooks.ts'
import styles from './quote.module.css'

const roundingWords = { total: say('once, on the total'), line: say('line by line') } as const
const roundings = taxRoundings.map((value) => ({ value, words: roundingWords[value] }))

export function ShopForm() {
  const desk = useDesk()
  const shop = useShopDetails()
  const { letterhead } = shop
  const write = (change: Partial<typeof letterhead>): void =>
    desk.shopDetails.setState({ letterhead: { ...letterhead, ...change } })
  return (
    <div className={styles.form}>
      <TextField label={say('Name')} maxLength={200} value={letterhead.name} onChange={(name) => write({ name })} />
      <TextField
        label={say('Address')}
        long
        maxLength={1000}
        value={letterhead.address}
        onChange={(address) => write({ address })}
      />
      <div className={panel.two}>
        <TextField
          label={say('Phone or mail')}
          maxLength={400}
          value={letterhead.contact}
          onChange={(contact) => write({ contact })}
        />
        <TextField
          label={say('Tax number')}
          maxLength={80}
          value={letterhead.taxNumber}
          onChange={(taxNumber) => write({ taxNumber })}
        />
        <TextField
          label={say('Currency')}
          maxLength={12}
          value={shop.currency}
          onChange={(currency) => desk.shopDetails.setState({ currency })}
        />
        <AmountField
          label={say('Tax')}
          unit="%"
          most={100}
          value={shop.taxPct}
          onChange={(taxPct = 0) => desk.shopDetails.setState({ taxPct })}
        />
        <SelectField
          label={say('Tax is rounded')}
          value={shop.taxRounding}
          options={roundings}
          onChange={(taxRounding) => desk.shopDetails.setState({ taxRounding })}
        />
        <Counts />
      </div>
      <TextField
        label={say('Warranty')}
        hint={say('In the shop’s own words; it stands on every invoice.')}
        long
        maxLength={4000}
        value={shop.warranty}
        onChange={(warranty) => desk.shopDetails.setState({ warranty })}
      />
      <Tick
        label={say('Decimal comma in CSV')}
        checked={shop.decimalComma}
        onChange={(decimalComma) => desk.shopDetails.setState({ decimalComma })}
      />
    </div>
  )
}

function Counts() {
  const desk = useDesk()
  const { hoursADay, partsDays, quoteDays, followUpWeeks } = useShopDetails()
  const { setState } = desk.shopDetails
  return (
    <>
      <AmountField
        label={say('Bench hours a day')}
        unit="h"
        least={0.5}
        most={24}
        value={hoursADay}
        onChange={(next) => next !== undefined && setState({ hoursADay: next })}
      />
      <AmountField
        label={say('Waiting for parts')}
        unit={say('days')}
        most={365}
        value={partsDays}
        onChange={(next) => next !== undefined && setState({ partsDays: Math.round(next) })}
      />
      <AmountField
        label={say('A quote holds')}
        unit={say('days')}
        least={1}
        most={365}
        value={quoteDays}
        onChange={(next) => next !== undefined && setState({ quoteDays: Math.max(1, Math.round(next)) })}
      />
      <AmountField
        label={say('Ask the owner after')}
        unit={say('weeks')}
        least={1}
        most={104}
        value={followUpWeeks}
        onChange={(next) => next !== undefined && setState({ followUpWeeks: Math.max(1, Math.round(next)) })}
      />
    </>
  )
}
