/** The bench supply at first power: its current limit, and whether it ran into it. */
import { numberWords, say } from '../../../base/index.ts'
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
  { value: 'never', words: say('Never') },
  { value: 'for a moment', words: say('A moment') },
  { value: 'stays', words: say('Stays') },
  { value: 'unknown', words: say('Not seen') },
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
      <section className={styles.section} aria-label={say('Bench supply')}>
        <AmountField
          label={say('Current limit of the bench supply')}
          unit="A"
          most={measuringRules.benchSupplyMostA.value}
          value={limitA}
          onChange={(value) => editLimit(desk, value)}
        />
        {limitA !== undefined && limitA > mostA && (
          <p className={controls.wrong} role="alert">
            {say(
              'Give first power at {mostA} A or less: a short then gets warm, and does not burn. (Common practice, no source.)',
              { mostA },
            )}
          </p>
        )}
        <Choice
          label={say('It ran into its limit')}
          value={atLimit}
          options={ways}
          onChange={(chosen) => editPowered(desk, { atLimit: chosen })}
        />
        {atLimit === 'for a moment' && (
          <p className={styles.quiet}>
            {say(
              'That is inrush: bulk capacitors of some {bulkMilliFarad} mF fill in about {fillMs} ms at {limitA} A. Longer than {longestInrushSeconds} s is a load.',
              { bulkMilliFarad, fillMs, limitA: limitA ?? mostA, longestInrushSeconds: longestInrushSeconds() },
            )}
          </p>
        )}
        {atLimit === 'stays' && (
          <p className={controls.wrong} role="alert">
            {say(
              'Take the power off. At its limit the supply lets the input sag, and rails that are missing then tell nothing. Measure cold what draws it down.',
            )}
          </p>
        )}
      </section>
    </SelfOpening>
  )
}

const atLimitWords = {
  never: say('never at it'),
  'for a moment': say('at it a moment'),
  stays: say('stays at it'),
} as const

function summaryOf({ limitA, atLimit }: Case['powered']): string {
  const limit = limitA === undefined ? say('limit not noted') : say('limit {limitA} A', { limitA: numberWords(limitA) })
  return say('Bench supply: {limit}{value}', {
    limit,
    value: atLimit === 'unknown' ? '' : `, ${atLimitWords[atLimit]}`,
  })
}
