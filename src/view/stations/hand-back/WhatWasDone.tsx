/** Outcome and day; what was done in words, and the minutes it took, with drafts from log and plan. */
import { say } from '../../../base/index.ts'
import { TriangleAlert } from 'lucide-react'
import { minutesWords } from '../../stores/words.ts'
import { doneDraft, doubtsOfRepair, minutesDraft, outcomes, outcomeWords } from '../../../case/index.ts'
import { today } from '../../actions/clock.ts'
import { addLine, clearHandBack, editHandBack } from './handBack.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice, DayField, TextField } from '../../controls/fields.tsx'
import panel from '../../controls/panel.module.css'
import { useBoard, useDesk, usePlan, usePresent } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import { optionsOf } from '../../optionsOf.ts'
import styles from './handback.module.css'

const choices = [...optionsOf(outcomes, outcomeWords), { value: 'open', words: say('still open') }] as const

export function Ending() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { handBack } = present
  return (
    <>
      <Choice
        label={say('Outcome')}
        value={handBack.outcome ?? 'open'}
        options={choices}
        onChange={(outcome) => (outcome === 'open' ? clearHandBack(desk, 'outcome') : editHandBack(desk, { outcome }))}
      />
      <Doubts doubts={doubtsOfRepair(present)} />
      <div className={styles.day}>
        <DayField
          label={say('Given back on')}
          value={handBack.on}
          onChange={(on) => (on === undefined ? clearHandBack(desk, 'on') : editHandBack(desk, { on }))}
        />
        <Button onClick={() => editHandBack(desk, { on: today() })}>{say('Today')}</Button>
      </div>
    </>
  )
}

export function WhatWasDone() {
  const desk = useDesk()
  const present = usePresent()
  if (present === undefined) return undefined
  const { handBack, passes } = present
  return (
    <>
      <TextField
        label={say('What was done')}
        long
        maxLength={8000}
        value={handBack.done}
        onChange={(done) => editHandBack(desk, { done })}
      />
      <div className={panel.row}>
        <Button
          disabled={passes.length === 0}
          onClick={() => editHandBack(desk, { done: addLine(handBack.done, doneDraft(passes)).slice(0, 8000) })}
        >
          {say('Write from the log')}
        </Button>
        {passes.length === 0 && <span className={panel.quiet}>{say('No pass is logged at the plan.')}</span>}
      </div>
      <Minutes />
    </>
  )
}

/** The weightiest in one line; the others, where there are any, behind it. */
function Doubts({ doubts }: { readonly doubts: readonly string[] }) {
  const [first, ...others] = doubts
  if (first === undefined) return undefined
  const line = (
    <>
      <TriangleAlert size={15} aria-hidden="true" /> {first}
      {others.length > 0 && say(' And {length} more.', { length: others.length })}
    </>
  )
  if (others.length === 0)
    return (
      <p className={styles.doubt} role="status">
        {line}
      </p>
    )
  return (
    <div role="status">
      <details className={styles.doubts}>
        <summary className={styles.doubt}>{line}</summary>
        <ul className={panel.quiet}>
          {others.map((doubt) => (
            <li key={doubt}>{doubt}</li>
          ))}
        </ul>
      </details>
    </div>
  )
}

function Minutes() {
  const desk = useDesk()
  const present = usePresent()
  const model = useBoard()?.model
  const exposures = usePlan((plan) => plan.exposures)
  const best = usePlan((plan) => plan.answer?.best)
  if (present === undefined || model === undefined) return undefined
  const draft = minutesDraft(present, model, exposures, best)
  const { minutes } = present.handBack
  const take = (value: number): void => editHandBack(desk, { minutes: value })
  return (
    <>
      <AmountField
        label={say('Time at the bench')}
        unit="min"
        most={1_000_000}
        hint={minutes === undefined || minutes < 60 ? undefined : minutesWords(minutes)}
        value={minutes}
        onChange={(next) => (next === undefined ? clearHandBack(desk, 'minutes') : take(next))}
      />
      {draft !== undefined && (
        <div className={panel.row}>
          {draft.logged > 0 && (
            <Button onClick={() => take(draft.logged)}>
              {say('Logged passes: {logged} min', { logged: draft.logged })}
            </Button>
          )}
          {draft.planned > 0 && (
            <Button onClick={() => take(draft.logged + draft.planned)}>
              {draft.logged > 0 ? say('With the rest of the plan') : say('The plan')}: {draft.logged + draft.planned}{' '}
              min
            </Button>
          )}
        </div>
      )}
    </>
  )
}
