/** A whole number of passes, or nothing where nobody noted it. */
import { say } from '../../../base/index.ts'
import { useId, useState } from 'react'
import { reportEntrySchema } from '../../../case/index.ts'
import controls from '../../controls/controls.module.css'
import { numberIn, whichNumber } from '../../controls/fields.tsx'
import own from './proof.module.css'

interface PassesFieldProps {
  readonly label: string
  readonly value: number | undefined
  readonly onChange: (passes: number | undefined) => void
}

export function PassesField({ label, value, onChange }: PassesFieldProps) {
  const id = useId()
  const [draft, setDraft] = useState<string>()
  const meant = draft === undefined ? undefined : passesIn(draft)
  const holds = draft !== undefined && (meant === undefined || meant.passes === value)
  // What is typed stays while it means the value or nothing; undo and other places change it under the hand.
  const shown = holds ? draft : value === undefined ? '' : String(value)
  const wrong = passesIn(shown) === undefined
  return (
    <div className={own.passes}>
      <label className={controls.label} htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className={controls.input}
        inputMode="numeric"
        placeholder={say('not noted')}
        value={shown}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(event) => {
          setDraft(event.target.value)
          const next = passesIn(event.target.value)
          if (next !== undefined) onChange(next.passes)
        }}
      />
      {wrong && (
        <p className={controls.wrong} id={`${id}-wrong`}>
          {whichNumber(shown) ?? say('A whole number of runs, at most a million.')}
        </p>
      )}
    </div>
  )
}

/** What the typed text says; undefined where it is no number of passes. */
export function passesIn(typed: string): { readonly passes: number | undefined } | undefined {
  if (typed.trim() === '') return { passes: undefined }
  const parsed = reportEntrySchema.shape.testPasses.safeParse(numberIn(typed) ?? Number.NaN)
  return parsed.success ? { passes: parsed.data } : undefined
}
