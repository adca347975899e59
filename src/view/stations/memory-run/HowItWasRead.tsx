/** Whether a report is surely read right, and why; three of its own lines beside what they were taken for; Right or Wrong. */
import { say } from '../../../base/index.ts'
import { Check, X } from 'lucide-react'
import type { Receipt } from '../../../report/index.ts'
import { confirmReading, readAgain, rejectReading } from '../../actions/reports.ts'
import { Button } from '../../controls/Button.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { isAsking } from '../../stores/readingStore.ts'
import { twoWaysOf } from '../../stores/twoReadings.ts'
import type { ShownReport } from './ReportCard.tsx'
import own from '../../controls/stations.module.css'

const said = {
  sure: say('Surely read right.'),
  unsure: say('Not sure that it is read right: nothing is reckoned from it until you say so.'),
  unknown: say('Nobody knows how it is to be read: correct it below, starting from the last guess.'),
} as const

export function HowItWasRead({ id, name, reading }: ShownReport) {
  const desk = useDesk()
  const asking = isAsking(reading)
  const sure = reading.sure ?? 'sure'
  const receipts = reading.guess?.receipts ?? []
  const isTold = usePresent()?.reports.find((report) => report.id === id)?.recipe !== undefined
  const waitsForNames = asking && (reading.guess?.foreign.length ?? 0) > 0
  if (reading.tally === undefined || reading.tally.rows.read + reading.tally.rows.unmapped === 0) return undefined
  return (
    <section className={styles.section} aria-label={say('How {name} was read', { name })}>
      <p>
        <b>
          {waitsForNames
            ? say('It can be read once its names are told.')
            : isTold
              ? say('Read as you said.')
              : said[sure]}
        </b>{' '}
        {waitsForNames ? say('Until then nothing is reckoned from it.') : isTold ? '' : reading.why?.[0]}
      </p>
      {asking && !waitsForNames && (reading.why?.length ?? 0) > 1 && (
        <ul className={own.troubles} aria-label={say('What speaks against it')}>
          {reading.why?.slice(1, 4).map((why) => (
            <li key={why}>{why}</li>
          ))}
        </ul>
      )}
      {receipts.length > 0 && <Receipts name={name} receipts={receipts} />}
      <div className={styles.row}>
        <Button tone={asking && !waitsForNames ? 'strong' : 'quiet'} onClick={() => void confirmReading(desk, id)}>
          <Check size={15} aria-hidden="true" /> {say('Right')}
        </Button>
        <Button tone={asking ? 'plain' : 'quiet'} onClick={() => void rejectReading(desk, id)}>
          <X size={15} aria-hidden="true" /> {say('Wrong')}
        </Button>
      </div>
      {asking && <TwoReadings id={id} reading={reading} />}
    </section>
  )
}

function Receipts({ name, receipts }: { readonly name: string; readonly receipts: readonly Receipt[] }) {
  return (
    <div
      className={own.scroll}
      tabIndex={0}
      role="region"
      aria-label={say('Lines of {name}, and what they were taken for', { name })}
    >
      <table className={`${own.sample} ${own.receipts}`}>
        <thead>
          <tr>
            <th scope="col">{say('line')}</th>
            <th scope="col">{say('the report says')}</th>
            <th scope="col">{say('taken for')}</th>
          </tr>
        </thead>
        <tbody>
          {receipts.map((receipt) => (
            <tr key={`${receipt.line} ${receipt.means}`}>
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

/** The two readings that the sheet shows side by side, in words; one click decides here as there. */
function TwoReadings({ id, reading }: Omit<ShownReport, 'name'>) {
  const desk = useDesk()
  const two = twoWaysOf(reading)
  if (two === undefined) return undefined
  const ways = [
    { letter: 'A', words: say('as above'), way: two.a },
    { letter: 'B', words: say('another way'), way: two.b },
  ]
  return (
    <table className={styles.table}>
      <caption>{say('Two readings that blame different parts')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('read')}</th>
          <th scope="col">{say('failing')}</th>
          <th scope="col">
            <span className="visually-hidden">{say('decide')}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {ways.map(({ letter, words, way: { recipe, parts } }) => (
          <tr key={letter}>
            <th scope="row">
              {letter}, {words}
            </th>
            <td>{parts.length === 0 ? say('nothing') : parts.join(', ')}</td>
            <td>
              <Button onClick={() => void readAgain(desk, id, recipe)}>{say('Take {letter}', { letter })}</Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
