/** Arrival: what happened to the card, how it was mounted, whether it was powered since; and why not to power it yet. */
import { type Case, cautionsAt } from '../../case/index.ts'
import { editArrival, editCase } from '../actions/edit.ts'
import { Choice, TextField } from '../controls/fields.tsx'
import { CautionBox } from '../controls/pieces.tsx'
import { powerCaution } from '../stores/cautions.ts'
import { useDesk, usePresent } from '../stores/hooks.ts'
import styles from '../panels/why.module.css'

const accidents = [
  { value: 'spill', words: 'Spill or leak' },
  { value: 'flux', words: 'Flux left behind' },
  { value: 'slip', words: 'Slip of a tool' },
  { value: 'none', words: 'None' },
  { value: 'unknown', words: 'Not known' },
] as const

const mountings = [
  { value: 'flat', words: 'It lay flat' },
  { value: 'upright', words: 'It stood upright' },
  { value: 'unknown', words: 'Not known' },
] as const

const powerings = [
  { value: 'no', words: 'No' },
  { value: 'yes', words: 'Yes' },
  { value: 'unknown', words: 'Not known' },
] as const

export function Arrival() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { arrival } = present
  const caution = powerCaution(present)
  const sentences = cautionsAt('arrival', present)
  return (
    <section className={styles.section} aria-label="Arrival">
      <div className={styles.heading}>
        <h2>Arrival</h2>
        <span>what the owner says, before any heat or power</span>
      </div>
      <CautionBox
        title={caution?.title ?? 'Before anything else'}
        reasons={[...(caution?.reasons ?? []), ...sentences]}
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
      <Choice
        label="How it was mounted then"
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
      <div className={styles.two}>
        <TextField
          label="Case title"
          maxLength={200}
          value={present.title}
          onChange={(title) => title !== '' && editCase(desk, (c) => ({ ...c, title }), 'title')}
        />
        <TextField
          label="Card number"
          maxLength={120}
          value={present.card ?? ''}
          onChange={(card) => editCase(desk, (c) => withCard(c, card), 'card')}
        />
      </div>
    </section>
  )
}

function withCard(present: Case, card: string): Case {
  const { card: _, ...rest } = present
  return card === '' ? rest : { ...rest, card }
}
