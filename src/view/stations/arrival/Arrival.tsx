/** Arrival: what happened to the card and what it does, and why not to power it yet; then what the intake desk takes down. */
import { say } from '../../../base/index.ts'
import { AGAINST_POWER, cautionsAt } from '../../../case/index.ts'
import { mountingSchema, mountingWords } from '../../../spill/index.ts'
import { editArrival } from '../../actions/edit.ts'
import { Choice, SelectField, TextField } from '../../controls/fields.tsx'
import { CautionBox } from '../../controls/pieces.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { usePowerCaution } from '../../stores/measuring.ts'
import styles from '../../controls/panel.module.css'
import { Agreed } from './Agreed.tsx'
import { CardAndSeals } from './CardAndSeals.tsx'
import { IntakePhotos } from './IntakePhotos.tsx'
import { OwnerAndContact } from './OwnerAndContact.tsx'

const accidents = [
  { value: 'spill', words: say('Spill or leak') },
  { value: 'flux', words: say('Flux left behind') },
  { value: 'slip', words: say('Tool slip') },
  { value: 'none', words: say('No accident') },
  { value: 'unknown', words: say('Not known') },
] as const

const mountings = [
  { value: 'unknown', words: say('Not known') },
  ...mountingSchema.options.map((value) => ({ value, words: mountingWords[value] })),
] as const

const powerings = [
  { value: 'no', words: say('No') },
  { value: 'yes', words: say('Yes') },
  { value: 'unknown', words: say('Not known') },
] as const

export function Arrival() {
  const desk = useDesk()
  const present = usePresent()
  const against = usePowerCaution()
  if (present === undefined) return undefined
  const { arrival } = present
  const sentences = cautionsAt('arrival', present)
  return (
    <section className={styles.section} aria-label={say('Arrival')}>
      <div className={styles.heading}>
        <h2>{say('Arrival')}</h2>
        <span>{say('what the owner says')}</span>
      </div>
      <CautionBox
        title={against.length > 0 ? AGAINST_POWER : say('Before anything else')}
        reasons={[...against, ...sentences]}
      />
      <Choice
        label={say('Accident')}
        value={arrival.accident}
        options={accidents}
        onChange={(accident) => editArrival(desk, { accident })}
      />
      <TextField
        label={say('What it does and does not do')}
        hint={say('Picture, fan, lamps, sounds, error messages: what you saw, not your diagnosis.')}
        long
        maxLength={2000}
        value={arrival.seen}
        onChange={(seen) => editArrival(desk, { seen })}
      />
      <TextField
        label={say('The owner’s account')}
        long
        maxLength={4000}
        value={arrival.account}
        onChange={(account) => editArrival(desk, { account })}
      />
      <SelectField
        label={say('How the card hung then')}
        hint={say('New spills run this way. In an ordinary tower the card lies flat, core side down.')}
        value={arrival.mounted}
        options={mountings}
        onChange={(mounted) => editArrival(desk, { mounted })}
      />
      <Choice
        label={say('Powered by the owner since?')}
        value={arrival.poweredSince}
        options={powerings}
        onChange={(poweredSince) => editArrival(desk, { poweredSince })}
      />
      <div>
        <CardAndSeals />
        <OwnerAndContact />
        <Agreed />
      </div>
      <IntakePhotos />
    </section>
  )
}
