/** The bench supply at first power: its current limit, and whether it ran into it. */
import { numberWords } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { inrushSeconds, longestInrushSeconds, measuringRules } from '../../../measure/index.ts'
import { editLimit, editPowered } from './measure.ts'
import controls from '../../controls/controls.module.css'
import { Choice } from '../../controls/fields.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import { SelfOpening } from './SelfOpening.tsx'

const ways = [
  { value: 'never', words: 'Never' },
  { value: 'for a moment', words: 'A moment' },
  { value: 'stays', words: 'Stays' },
  { value: 'unknown', words: 'Not seen' },
] as const

export function BenchSupply({ powered }: { readonly powered: Case['powered'] }) {
  const desk = useDesk()
  const mostA = measuringRules.firstPowerLimitA.value
  const bulkMilliFarad = measuringRules.bulkFarad.value * 1000
  const { limitA, atLimit } = powered
  const fillMs = Math.round(inrushSeconds(limitA ?? mostA, measuringRules.inputNominalV.value) * 1000)
  const asks = (limitA !== undefined && limitA > mostA) || atLimit === 'for a moment' || atLimit === 'stays'
  return (
    <SelfOpening summary={summaryOf(powered)} asks={asks}>
      <section className={styles.section} aria-label="Bench supply">
        <AmountField
          label="Current limit of the bench supply"
          unit="A"
          most={measuringRules.benchSupplyMostA.value}
          value={limitA}
          onChange={(value) => editLimit(desk, value)}
        />
        {limitA !== undefined && limitA > mostA && (
          <p className={controls.wrong} role="alert">
            Give first power at {mostA} A or less: a short then gets warm, and does not burn. (Common practice, no
            source.)
          </p>
        )}
        <Choice
          label="It ran into its limit"
          value={atLimit}
          options={ways}
          onChange={(chosen) => editPowered(desk, { atLimit: chosen })}
        />
        {atLimit === 'for a moment' && (
          <p className={styles.quiet}>
            That is inrush: bulk capacitors of some {bulkMilliFarad} mF fill in about {fillMs} ms at {limitA ?? mostA}{' '}
            A. Longer than {longestInrushSeconds()} s is a load.
          </p>
        )}
        {atLimit === 'stays' && (
          <p className={controls.wrong} role="alert">
            Take the power off. At its limit the supply lets the input sag, and rails that are missing then tell
            nothing. Measure cold what draws it down.
          </p>
        )}
      </section>
    </SelfOpening>
  )
}

const atLimitWords = { never: 'never at it', 'for a moment': 'at it a moment', stays: 'stays at it' } as const

function summaryOf({ limitA, atLimit }: Case['powered']): string {
  const limit = limitA === undefined ? 'limit not noted' : `limit ${numberWords(limitA)} A`
  return `Bench supply: ${limit}${atLimit === 'unknown' ? '' : `, ${atLimitWords[atLimit]}`}`
}
