/** What had been wrong with the card, taken from log and retests and confirmed in a click or two: the shop's record learns from it. */
import { say } from '../../../base/index.ts'
import { useState } from 'react'
import { type Case, causesDraft, newRow } from '../../../case/index.ts'
import { type CausesFound, partTruths, settledWords } from '../../../rehearsal/index.ts'
import { liftableParts } from '../../../suspects/index.ts'
import { editCauses, settleCauses } from '../../actions/causes.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice, SelectField, Tick } from '../../controls/fields.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, useDesk, usePresent, useProof } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import styles from './handback.module.css'
import { OtherCauses } from './OtherCauses.tsx'

type Row = CausesFound['parts'][number]
type Settled = (typeof settledWords)[number]

const truthWords: Readonly<Record<Row['was'], string>> = {
  bad: say('it was bad in itself'),
  joints: say('its joints were'),
  under: say('what lay under it was'),
  fine: say('nothing was wrong with it'),
  unknown: say('not known'),
}
const truths = partTruths.map((value) => ({ value, words: truthWords[value] }))

const settledOptions: readonly { readonly value: Settled | 'open'; readonly words: string }[] = [
  { value: 'all', words: say('yes, all of it') },
  { value: 'some', words: say('no, or not sure') },
  { value: 'nothing-wrong', words: say('the card was sound') },
  { value: 'open', words: say('not confirmed') },
]

export function WhatItWas() {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  const proof = useProof()
  if (present === undefined || model === undefined) return undefined
  const draft = causesDraft(present, model, proof?.tested === true ? proof : undefined)
  const causes = completed(present.handBack.causes, draft)
  const change = (part: Partial<CausesFound>, key?: string): void => editCauses(desk, { ...causes, ...part }, key)
  const changeRow = (next: Row): void =>
    change({ parts: causes.parts.map((row) => (row.ref === next.ref ? next : row)) }, `cause ${next.ref}`)
  const settle = (settled: Settled | 'open'): void => {
    const { settled: _, ...open } = causes
    if (settled === 'open') editCauses(desk, open)
    else void settleCauses(desk, { ...open, settled })
  }
  const sound = causes.settled === 'nothing-wrong'
  return (
    <section className={panel.section} aria-label={say('What was wrong')}>
      <p className={panel.quiet}>
        {present.handBack.causes === undefined
          ? say('From the log and the retests: correct it, then confirm. For the shop’s own record; not printed.')
          : say('For the shop’s own record; not printed.')}
      </p>
      {!sound && (
        <>
          {causes.parts.length > 0 && (
            <ul className={styles.causes} aria-label={say('Parts worked on')}>
              {causes.parts.map((row) => (
                <PartCause key={row.ref} row={row} onChange={changeRow} />
              ))}
            </ul>
          )}
          <AnotherPart
            refs={liftableParts(model).filter((ref) => !causes.parts.some((row) => row.ref === ref))}
            onAdd={(ref) => change({ parts: [...causes.parts, newRow(ref, 'bad')] })}
          />
          <OtherCauses others={causes.others} onChange={(others) => change({ others }, say('other causes'))} />
        </>
      )}
      <Choice
        label={say('Is that all that was wrong?')}
        value={causes.settled ?? 'open'}
        options={settledOptions}
        onChange={settle}
      />
      <p className={panel.quiet} aria-live="polite">
        {countsWords(present, causes)}
      </p>
    </section>
  )
}

/** What was entered, with rows for parts that the log has lifted since. */
function completed(entered: CausesFound | undefined, draft: CausesFound): CausesFound {
  if (entered === undefined) return draft
  const known = new Set(entered.parts.map(({ ref }) => ref))
  return { ...entered, parts: [...entered.parts, ...draft.parts.filter(({ ref }) => !known.has(ref))] }
}

function countsWords({ demo, goodCard, handBack }: Case, { settled, parts }: CausesFound): string {
  if (demo) return say('A demo case: it does not count.')
  if (goodCard) return say('A good card that was measured: it does not count.')
  if (settled === undefined) return say('Not confirmed: it does not count yet.')
  if (handBack.outcome === undefined) return say('Confirmed: it counts once the outcome is chosen.')
  const unknown = settled === 'all' && parts.some(({ was }) => was === 'unknown')
  if (settled === 'some' || unknown)
    return unknown
      ? say(
          'One part is still not known: the card counts for lifts, minutes and looks, not for what causes are likely.',
        )
      : say('It counts for lifts, minutes and looks, not for what causes are likely.')
  return say('Confirmed: it counts.')
}

function withMinutes(row: Row, minutes: number | undefined): Row {
  const { minutes: _, ...rest } = row
  return minutes === undefined ? rest : { ...rest, minutes }
}

function PartCause({ row, onChange }: { readonly row: Row; readonly onChange: (next: Row) => void }) {
  const { ref, was, harmed, minutes } = row
  return (
    <li>
      <b>{ref}</b>
      <SelectField
        label={say('What {ref} turned out to be', { ref })}
        labelHidden
        value={was}
        options={truths}
        onChange={(next) => onChange({ ...row, was: next })}
      />
      <div className={styles.causeMore}>
        <Tick
          label={
            <>
              {say('harmed by the work')}
              <span className="visually-hidden">: {ref}</span>
            </>
          }
          checked={harmed}
          onChange={(next) => onChange({ ...row, harmed: next })}
        />
        <AmountField
          label={say('Minutes to lift, clean and refit {ref}', { ref })}
          labelHidden
          unit={say('min on it')}
          most={100_000}
          value={minutes}
          onChange={(next) => onChange(withMinutes(row, next))}
        />
      </div>
    </li>
  )
}

/** A part that no pass on the log names. */
function AnotherPart({ refs, onAdd }: { readonly refs: readonly string[]; readonly onAdd: (ref: string) => void }) {
  const [chosen, setChosen] = useState(refs[0] ?? '')
  const ref = refs.includes(chosen) ? chosen : (refs[0] ?? '')
  if (ref === '') return undefined
  return (
    <div className={styles.anotherPart}>
      <SelectField
        label={say('Another part')}
        labelHidden
        value={ref}
        options={refs.map((value) => ({ value, words: value }))}
        onChange={setChosen}
      />
      <Button onClick={() => onAdd(ref)}>{say('Add this part')}</Button>
    </div>
  )
}
