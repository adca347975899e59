/** A substance of one's own: begun from a known one, its figures changed, checked as strictly as the shipped ones. */
import { useState } from 'react'
import { type Fault, say } from '../../../base/index.ts'
import {
  movesSchema,
  parseSubstance,
  type Substance,
  substances as shipped,
  waysOfMoving,
} from '../../../spill/index.ts'
import { editCase } from '../../actions/edit.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice, NumberField, SelectField, TextField } from '../../controls/fields.tsx'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { figureNames } from './SubstanceFigures.tsx'

const movesOptions = movesSchema.options.map((value) => ({ value, words: waysOfMoving[value].words }))

const formFields = figureNames.filter(([field]) =>
  [
    'densityKgM3',
    'surfaceTensionNM',
    'viscosityPaS',
    'contactAngleMaskDeg',
    'filmThicknessMm',
    'resistivityOhmM',
  ].includes(field),
)

export function SubstanceForm() {
  const desk = useDesk()
  const own = usePresent()?.substances ?? []
  const [draft, setDraft] = useState<Substance | undefined>(shipped[0])
  const [name, setName] = useState('')
  const [faults, setFaults] = useState<readonly Fault[]>([])
  if (draft === undefined) return undefined
  const add = (): void => {
    const id = name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
    const parsed = parseSubstance({ ...withoutCleaning(draft), id, name })
    if (!parsed.ok) return setFaults(parsed.faults)
    setFaults([])
    setName('')
    editCase(desk, (c) => ({ ...c, substances: [...c.substances.filter((entry) => entry.id !== id), parsed.value] }))
  }
  const start = (id: string): void => setDraft(shipped.find((entry) => entry.id === id) ?? draft)
  return (
    <div className={styles.section}>
      <SelectField
        label={say('Begin from')}
        value={draft.id}
        options={shipped.map((entry) => ({ value: entry.id, words: entry.name }))}
        onChange={start}
      />
      <TextField label={say('Its name')} value={name} onChange={setName} maxLength={80} />
      <Choice
        label={say('How it moves')}
        value={draft.moves}
        options={movesOptions}
        onChange={(moves) => setDraft(movingAs(draft, moves))}
      />
      {formFields.map(([field, words, unit]) => (
        <NumberField
          key={field}
          label={words}
          unit={unit}
          value={draft[field]?.value ?? 0}
          onChange={(value) =>
            setDraft({ ...draft, [field]: value === 0 ? undefined : { value, source: say('stated by the user') } })
          }
        />
      ))}
      {faults.length > 0 && (
        <ul className={files.faults} aria-label={say('Faults in the substance')}>
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <Button onClick={add}>{say('Add the substance')}</Button>
      {own.length > 0 && (
        <p className={styles.quiet}>{say('Yours: {own}.', { own: own.map((entry) => entry.name).join(', ') })}</p>
      )}
    </div>
  )
}

/** How the known one comes off says nothing of another: that stands in its data sheet. */
function withoutCleaning(draft: Substance): Substance {
  const { cleaning: _, ...rest } = draft
  return rest
}

/** What is usual for one way of moving says nothing of another. */
function movingAs(draft: Substance, moves: Substance['moves']): Substance {
  const moving = { ...draft, moves }
  delete moving.usual
  return moving
}
