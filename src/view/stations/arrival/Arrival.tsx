/** Arrival: whose card it is, what it does, what happened to it; and why not to power it yet. */
import { AGAINST_POWER, type Case, cautionsAt } from '../../../case/index.ts'
import { mountingSchema, mountingWords } from '../../../spill/index.ts'
import { editArrival, editCase } from '../../actions/edit.ts'
import { Choice, DayField, SelectField, TextField } from '../../controls/fields.tsx'
import { CautionBox } from '../../controls/pieces.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { usePowerCaution } from '../../stores/measuring.ts'
import styles from '../../controls/panel.module.css'

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
      <div className={styles.two}>
        <DayField
          label="Received"
          value={arrival.on}
          onChange={(on) => editCase(desk, (c) => ({ ...c, arrival: withDay(c.arrival, on) }), 'arrival on')}
        />
        <TextField
          label="Card number"
          maxLength={120}
          value={present.card ?? ''}
          onChange={(card) => editCase(desk, (c) => withCard(c, card), 'card')}
        />
        <TextField
          label="Owner"
          maxLength={400}
          value={arrival.owner}
          onChange={(owner) => editArrival(desk, { owner })}
        />
        <TextField
          label="Case title"
          maxLength={200}
          value={present.title}
          onChange={(title) => title !== '' && editCase(desk, (c) => ({ ...c, title }), 'title')}
        />
      </div>
      <TextField
        label="What it does and does not do"
        hint="Picture, fan, lamps, sounds, error words: what you saw, not your diagnosis."
        long
        maxLength={2000}
        value={arrival.seen}
        onChange={(seen) => editArrival(desk, { seen })}
      />
      <Choice
        label="Accident"
        value={arrival.accident}
        options={accidents}
        onChange={(accident) => editArrival(desk, { accident })}
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
        label="Powered since?"
        value={arrival.poweredSince}
        options={powerings}
        onChange={(poweredSince) => editArrival(desk, { poweredSince })}
      />
    </section>
  )
}

function withCard(present: Case, card: string): Case {
  const { card: _, ...rest } = present
  return card === '' ? rest : { ...rest, card }
}

function withDay(arrival: Case['arrival'], on: string | undefined): Case['arrival'] {
  const { on: _, ...rest } = arrival
  return on === undefined ? rest : { ...rest, on }
}
