/** What is seen while the card has power: the host, the picture, the current. */
import { say } from '../../../base/index.ts'
import type { Case } from '../../../case/index.ts'
import { measuringRules } from '../../../measure/index.ts'
import { editInputCurrent, editPowered } from './measure.ts'
import { Choice, TextField } from '../../controls/fields.tsx'
import controls from '../../controls/controls.module.css'
import styles from '../../controls/panel.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'

const yesNo = [
  { value: 'yes', words: say('Yes') },
  { value: 'no', words: say('No') },
  { value: 'unknown', words: say('Not tried') },
] as const

const pictures = [
  { value: 'yes', words: say('Yes') },
  { value: 'disturbed', words: say('Disturbed') },
  { value: 'no', words: say('No picture') },
  { value: 'unknown', words: say('Not tried') },
] as const

export function PoweredFacts({ powered }: { readonly powered: Case['powered'] }) {
  const desk = useDesk()
  const limitA = measuringRules.firstPowerLimitA.value
  const current = powered.inputCurrentA
  return (
    <section className={styles.section} aria-label={say('Under power')}>
      <h3 className={styles.sub}>{say('Under power')}</h3>
      <AmountField
        label={say('Current into the card, on the limited supply')}
        unit="A"
        most={measuringRules.benchSupplyMostA.value}
        value={current}
        onChange={(value) => editInputCurrent(desk, value)}
      />
      {current !== undefined && current > limitA && (
        <p className={controls.wrong} role="alert">
          {say(
            'More than {limitA} A before fans and clocks start means a fault: take the power off. (Common practice, no source.)',
            { limitA },
          )}
        </p>
      )}
      <Choice
        label={say('Detected by the PC')}
        value={powered.enumerates}
        options={yesNo}
        onChange={(enumerates) => editPowered(desk, { enumerates })}
      />
      <Choice
        label={say('Picture')}
        value={powered.picture}
        options={pictures}
        onChange={(picture) => editPowered(desk, { picture })}
      />
      <Choice
        label={say('PC boots with another graphics output')}
        value={powered.otherOutput}
        options={yesNo}
        onChange={(otherOutput) => editPowered(desk, { otherOutput })}
      />
      <TextField
        label={say('Seen, heard, smelled')}
        long
        maxLength={4000}
        value={powered.note}
        onChange={(note) => editPowered(desk, { note })}
      />
    </section>
  )
}
