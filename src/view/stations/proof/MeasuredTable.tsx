/** What was measured before the work beside what was measured after it; only lines that were. */
import { plainly, say } from '../../../base/index.ts'
import { type MeasuredLine, measuredBeforeAfter } from '../../../case/index.ts'
import { lineKey, lineWords, type Measurement, sayReading } from '../../../measure/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useBoard, usePresent } from '../../stores/hooks.ts'

export function MeasuredTable() {
  const model = useBoard()?.model
  const measurements = usePresent()?.measurements
  if (model === undefined || measurements === undefined) return undefined
  const lines = measuredBeforeAfter(model, measurements)
  if (lines.length === 0) return undefined
  return (
    <section aria-label={say('Measured before and after')}>
      <Opening
        summary={say('Measured before and after: {length, plural, one {# line} other {# lines}}', {
          length: lines.length,
        })}
      >
        <table className={styles.table}>
          <caption className="visually-hidden">{say('Readings of each line before and after the work')}</caption>
          <thead>
            <tr>
              <th scope="col">{say('line')}</th>
              <th scope="col" className={styles.number}>
                {say('before')}
              </th>
              <th scope="col" className={styles.number}>
                {say('after')}
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ line, quantity, before, after }) => (
              <tr key={`${lineKey(line)} ${quantity}`}>
                <th scope="row">
                  {lineWords(line)}, {KINDS[quantity]}
                </th>
                <td className={styles.number}>{readingWords(before, quantity)}</td>
                <td className={styles.number}>{readingWords(after, quantity)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Opening>
    </section>
  )
}

const KINDS = { ohms: say('to ground'), diode: say('diode mode'), volts: say('powered') } as const

function readingWords(measurement: Measurement | undefined, quantity: MeasuredLine['quantity']): string {
  if (measurement === undefined) return say('not measured')
  const { reading } = measurement
  if (reading.kind !== 'value' || quantity === 'diode') return sayReading(reading, quantity)
  return quantity === 'volts' ? `${digits(reading.value)} V` : ohmWords(reading.value)
}

function ohmWords(ohm: number): string {
  if (ohm >= 1e6) return `${digits(ohm / 1e6)} MΩ`
  if (ohm >= 1e3) return `${digits(ohm / 1e3)} kΩ`
  return `${digits(ohm)} Ω`
}

const digits = (value: number): string => plainly(Number(value.toPrecision(4)))
