/** Whether a report is surely read right, and why; three of its own lines beside what they were taken for; Right or Wrong. */
import { Check, X } from 'lucide-react'
import type { Receipt } from '../../report/index.ts'
import { confirmReading, readAgain, rejectReading } from '../actions/reports.ts'
import { Button } from '../controls/Button.tsx'
import styles from '../panels/why.module.css'
import { useDesk } from '../stores/hooks.ts'
import { isAsking, type Reading } from '../stores/readingStore.ts'
import own from './stations.module.css'

const said = {
  sure: 'Surely read right.',
  unsure: 'Not sure that it is read right: nothing is reckoned from it until you say so.',
  unknown: 'Nobody knows how it is to be read: correct it below, starting from the best guess.',
} as const

export function HowItWasRead({ name, reading }: { readonly name: string; readonly reading: Reading }) {
  const desk = useDesk()
  const asking = isAsking(reading)
  const sure = reading.sure ?? 'sure'
  const receipts = reading.guess?.receipts ?? []
  if (reading.tally === undefined || reading.tally.rows.read + reading.tally.rows.unmapped === 0) return undefined
  return (
    <section className={styles.section} aria-label={`How ${name} was read`}>
      <p>
        <b>{said[sure]}</b> {reading.why?.[0]}
      </p>
      {asking && (reading.why?.length ?? 0) > 1 && (
        <ul className={own.troubles} aria-label="What speaks against it">
          {reading.why?.slice(1, 4).map((why) => (
            <li key={why}>{why}</li>
          ))}
        </ul>
      )}
      {receipts.length > 0 && <Receipts receipts={receipts} />}
      <div className={styles.row}>
        <Button tone={asking ? 'strong' : 'quiet'} onClick={() => void confirmReading(desk, name)}>
          <Check size={15} aria-hidden="true" /> Right
        </Button>
        <Button tone={asking ? 'plain' : 'quiet'} onClick={() => void rejectReading(desk, name)}>
          <X size={15} aria-hidden="true" /> Wrong
        </Button>
      </div>
      {asking && <OtherReadings name={name} reading={reading} />}
    </section>
  )
}

function Receipts({ receipts }: { readonly receipts: readonly Receipt[] }) {
  return (
    <div
      className={own.scroll}
      tabIndex={0}
      role="region"
      aria-label="Lines of the report, and what they were taken for"
    >
      <table className={own.sample}>
        <thead>
          <tr>
            <th scope="col">line</th>
            <th scope="col">the report says</th>
            <th scope="col">taken for</th>
          </tr>
        </thead>
        <tbody>
          {receipts.map((receipt) => (
            <tr key={receipt.line}>
              <th scope="row">{receipt.line}</th>
              <td>
                <code>{receipt.text}</code>
              </td>
              <td>{receipt.means}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** Readings that blame other parts, side by side; one click decides. */
function OtherReadings({ name, reading }: { readonly name: string; readonly reading: Reading }) {
  const desk = useDesk()
  const others = reading.guess?.others ?? []
  const [other] = others
  if (other === undefined || reading.tally === undefined) return undefined
  const now = reading.tally.parts.filter((part) => part.errors > 0).map((part) => part.ref)
  const ways = [
    { recipe: reading.recipe, parts: now, words: 'as above' },
    { recipe: other.recipe, parts: other.parts, words: other.recipe.name },
  ]
  return (
    <table className={styles.table}>
      <caption>Two readings that blame different parts</caption>
      <thead>
        <tr>
          <th scope="col">read</th>
          <th scope="col">failing</th>
          <th scope="col">
            <span className="visually-hidden">decide</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {ways.map(({ recipe, parts, words }) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td>{parts.length === 0 ? 'nothing' : parts.join(', ')}</td>
            <td>
              <Button onClick={() => void readAgain(desk, name, recipe)}>Take this one</Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
