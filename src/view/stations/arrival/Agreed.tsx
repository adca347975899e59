/** What was agreed with the owner: when it is due, the fee, and what may be done. */
import { money, say } from '../../../base/index.ts'
import { consentKinds, consentKindWords, consentWords, intakeOf } from '../../../case/index.ts'
import { dayAfter, today } from '../../actions/clock.ts'
import { editCase } from '../../actions/edit.ts'
import { Button } from '../../controls/Button.tsx'
import { DayField, TextField, Tick } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import { editHandBack } from '../hand-back/handBack.ts'
import own from './arrival.module.css'
import { setConsent, setDiagnosisFee, setDue, tickConsent, withDay } from './intake.ts'
import { Particulars } from './Particulars.tsx'

/** The usual promises of a shop; common practice, no source. */
const promises = [
  { days: 3, words: say('3 days') },
  { days: 7, words: say('1 week') },
  { days: 14, words: say('2 weeks') },
] as const

export function Agreed() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { arrival, handBack } = present
  const { due, diagnosisFee, consents } = intakeOf(present)
  const given = consentKinds.filter((kind) => consents[kind] !== undefined)
  const held = [
    due === undefined ? undefined : say('due {due}', { due }),
    diagnosisFee === undefined ? undefined : money(diagnosisFee, handBack.currency),
    given.length === 0
      ? undefined
      : say('agreed: {given}', {
          given: given.map((kind) => consentKindWords[kind]).join(', '),
        }),
  ]
  return (
    <Particulars name={say('Agreed')} held={held}>
      <div className={styles.two}>
        <AmountField
          label={say('Diagnosis fee')}
          value={diagnosisFee}
          most={1e6}
          onChange={(next) => setDiagnosisFee(desk, next)}
        />
        <TextField
          label={say('Currency')}
          maxLength={12}
          value={handBack.currency}
          onChange={(currency) => editHandBack(desk, { currency })}
        />
      </div>
      <div className={styles.row} role="group" aria-label={say('Due in')}>
        <span className={styles.quiet}>{due === undefined ? say('Due in') : say('Due {due}, or in', { due })}</span>
        {promises.map(({ days, words }) => (
          <Button key={days} onClick={() => setDue(desk, dayAfter(today(), days))}>
            {words}
          </Button>
        ))}
      </div>
      <fieldset className={own.consents}>
        <legend>{say('The owner agrees to')}</legend>
        {consentKinds.map((kind) => (
          <Tick
            key={kind}
            label={`${consentWords[kind]}${dayOfConsent(consents[kind])}`}
            checked={consents[kind] !== undefined}
            onChange={(agreed) => tickConsent(desk, kind, agreed)}
          />
        ))}
      </fieldset>
      <Opening summary={say('Another day')}>
        <div className={styles.two}>
          <DayField label={say('Due')} value={due} onChange={(next) => setDue(desk, next)} />
          <DayField
            label={say('Received')}
            value={arrival.on}
            onChange={(on) => editCase(desk, (c) => ({ ...c, arrival: withDay(c.arrival, on) }), 'arrival on')}
          />
          {given.map((kind) => (
            <DayField
              key={kind}
              label={say('Agreed to {kind}', { kind: consentKindWords[kind] })}
              value={consents[kind]}
              onChange={(next) => next !== undefined && setConsent(desk, kind, next)}
            />
          ))}
        </div>
      </Opening>
    </Particulars>
  )
}

const dayOfConsent = (on: string | undefined): string => (on === undefined ? '' : say(', on {on}', { on }))
