/** Arrival: what happened to the card and what it does, and why not to power it yet; then what the intake desk takes down. */
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
  { value: 'spill', words: 'Spill or leak' },
  { value: 'flux', words: 'Flux left behind' },
  { value: 'slip', words: 'Tool slip' },
  { value: 'none', words: 'None' },
  { value: 'unknown', words: 'Not known' },
] as const

const mountings = [
  { value: 'unknown', words: 'Not known' },
  ...mountingSchema.options.map((value) => ({ value, words: mountingWords[value] })),
] as const

const powerings = [
  { value: 'no', words: 'No' },
  { value: 'yes', words: 'Yes' },
  { value: 'unknown', words: 'Not known' },
] as const

export function Arrival() {
  const desk = useDesk()
  const present = usePresent()
  const against = usePowerCaution()
  if (present === undefined) return undefined
  const { arrival } = present
  const sentences = cautionsAt('arrival', present)
  return (
    <section className={styles.section} aria-label="Arrival">
      <div className={styles.heading}>
        <h2>Arrival</h2>
        <span>what the owner says, before any heat or power</span>
      </div>
      <CautionBox
        title={against.length > 0 ? AGAINST_POWER : 'Before anything else'}
        reasons={[...against, ...sentences]}
      />
      <Choice
        label="Accident"
        value={arrival.accident}
        options={accidents}
        onChange={(accident) => editArrival(desk, { accident })}
      />
      <TextField
        label="What it does and does not do"
        hint="Picture, fan, lamps, sounds, error words: what you saw, not your diagnosis."
        long
        maxLength={2000}
        value={arrival.seen}
        onChange={(seen) => editArrival(desk, { seen })}
      />
      <TextField
        label="The owner’s account"
        long
        maxLength={4000}
        value={arrival.account}
        onChange={(account) => editArrival(desk, { account })}
      />
      <SelectField
        label="How the card hung then"
        hint="A new spill takes it over; in an upright tower the core side faces down."
        value={arrival.mounted}
        options={mountings}
        onChange={(mounted) => editArrival(desk, { mounted })}
      />
      <Choice
        label="Powered by the owner since?"
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
