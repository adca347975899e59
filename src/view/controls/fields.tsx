/** Form fields with their labels: text, number with a unit, one of a few, a day, a tick. */
import { type KeyboardEvent, type ReactNode, useId, useState } from 'react'
import { plainly, readTypedNumber, say } from '../../base/index.ts'
import styles from './controls.module.css'

interface FieldProps {
  readonly label: string
  readonly labelHidden?: boolean
  readonly hint?: string | undefined
}

interface TextFieldProps extends FieldProps {
  readonly value: string
  readonly onChange: (value: string) => void
  readonly long?: boolean
  readonly placeholder?: string
  readonly maxLength?: number
  /** What is wrong with the text as it stands. */
  readonly fault?: string | undefined
}

export function TextField({
  label,
  labelHidden = false,
  hint,
  value,
  onChange,
  long = false,
  placeholder,
  maxLength,
  fault,
}: TextFieldProps) {
  const id = useId()
  const shared = {
    id,
    value,
    placeholder,
    maxLength,
    className: styles.input,
    'aria-invalid': fault === undefined ? undefined : true,
    'aria-describedby': fault === undefined ? hint && `${id}-hint` : `${id}-wrong`,
  }
  return (
    <div className={styles.field}>
      <label className={labelHidden ? 'visually-hidden' : styles.label} htmlFor={id}>
        {label}
      </label>
      {long ? (
        <textarea {...shared} rows={3} onChange={(event) => onChange(event.target.value)} />
      ) : (
        <input {...shared} type="text" onChange={(event) => onChange(event.target.value)} />
      )}
      {fault === undefined ? <Hint id={id} text={hint} /> : <Wrong id={id} text={fault} />}
    </div>
  )
}

interface NumberFieldProps extends FieldProps {
  readonly value: number
  readonly onChange: (value: number) => void
  readonly unit?: string
  readonly min?: number
  readonly max?: number
  readonly step?: number
  /** What is wrong with the number as it stands, where its range alone does not tell. */
  readonly fault?: string | undefined
}

/** Takes only numbers within its range; what is typed stays in the field, said to be wrong, until it is one. */
export function NumberField({
  label,
  hint,
  value,
  onChange,
  unit,
  min = -Infinity,
  max = Infinity,
  step = 1,
  fault,
  labelHidden = false,
}: NumberFieldProps) {
  const id = useId()
  const [draft, setDraft] = useState({ typed: plainly(value), over: value })
  const mine = draft.over === value || numberIn(draft.typed) === value
  const typed = mine ? draft.typed : plainly(Number(value.toFixed(4)))
  const parsed = numberIn(typed)
  const outside = parsed === undefined || parsed < min || parsed > max
  const wrong = outside || fault !== undefined
  const problem = outside ? (whichNumber(typed) ?? rangeWords(min, max)) : fault
  return (
    <NumberBox
      {...{ id, label, labelHidden, hint, unit, value: typed, wrong: wrong ? problem : undefined }}
      onChange={(text) => {
        setDraft({ typed: text, over: value })
        const next = numberIn(text)
        if (next !== undefined && next >= min && next <= max) onChange(next)
      }}
      onKeyDown={(event) => {
        const direction = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0
        if (direction === 0 || parsed === undefined) return
        event.preventDefault()
        onChange(Math.min(max, Math.max(min, Number((parsed + direction * step).toFixed(6)))))
      }}
    />
  )
}

interface NumberBoxProps extends FieldProps {
  readonly id: string
  readonly unit: string | undefined
  /** As it stands in the box. */
  readonly value: string
  /** What is wrong with it. */
  readonly wrong: string | undefined
  readonly onChange: (text: string) => void
  readonly onBlur?: () => void
  readonly onKeyDown?: (event: KeyboardEvent) => void
}

/** The box of a number with its label, its unit, and what is wrong with it or may be entered. */
export function NumberBox({
  id,
  label,
  labelHidden = false,
  hint,
  unit,
  value,
  wrong,
  onChange,
  onBlur,
  onKeyDown,
}: NumberBoxProps) {
  return (
    <div className={styles.field}>
      <label className={labelHidden ? 'visually-hidden' : styles.label} htmlFor={id}>
        {label}
      </label>
      <div className={styles.withUnit}>
        <input
          id={id}
          className={styles.input}
          inputMode="decimal"
          autoComplete="off"
          value={value}
          aria-invalid={wrong !== undefined}
          aria-describedby={wrong === undefined ? hint && `${id}-hint` : `${id}-wrong`}
          onChange={(event) => onChange(event.target.value)}
          onBlur={onBlur}
          onKeyDown={onKeyDown}
        />
        {unit !== undefined && <span>{unit}</span>}
      </div>
      {wrong === undefined ? <Hint id={id} text={hint} /> : <Wrong id={id} text={wrong} />}
    </div>
  )
}

export function numberIn(typed: string): number | undefined {
  const number = readTypedNumber(typed)
  return number.ok ? number.value : undefined
}

/** What to type instead, where a text may be one number or another. */
export function whichNumber(typed: string): string | undefined {
  const number = readTypedNumber(typed)
  return number.ok ? undefined : number.todo
}

function rangeWords(min: number, max: number): string {
  if (Number.isFinite(min) && Number.isFinite(max)) return say('A number from {min} to {max}.', { min, max })
  if (Number.isFinite(min)) return say('A number of at least {min}.', { min })
  return say('A number.')
}

interface ChoiceProps<T extends string> extends FieldProps {
  readonly value: T
  readonly options: readonly { readonly value: T; readonly words: ReactNode }[]
  readonly onChange: (value: T) => void
}

export function Choice<T extends string>({
  label,
  hint,
  value,
  options,
  onChange,
  labelHidden = false,
}: ChoiceProps<T>) {
  const id = useId()
  return (
    <fieldset className={styles.choice}>
      <legend className={labelHidden ? 'visually-hidden' : styles.label}>{label}</legend>
      <div className={styles.options}>
        {options.map((option) => (
          <label key={option.value} className={styles.option}>
            <input
              type="radio"
              name={id}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            {option.words}
          </label>
        ))}
      </div>
      <Hint id={id} text={hint} />
    </fieldset>
  )
}

interface SelectFieldProps<T extends string> extends FieldProps {
  readonly value: T
  readonly options: readonly { readonly value: T; readonly words: string }[]
  readonly onChange: (value: T) => void
}

export function SelectField<T extends string>({
  label,
  hint,
  value,
  options,
  onChange,
  labelHidden = false,
}: SelectFieldProps<T>) {
  const id = useId()
  return (
    <div className={styles.field}>
      <label className={labelHidden ? 'visually-hidden' : styles.label} htmlFor={id}>
        {label}
      </label>
      <select
        id={id}
        className={styles.input}
        value={value}
        onChange={(event) => {
          const chosen = options.find((option) => option.value === event.target.value)
          if (chosen !== undefined) onChange(chosen.value)
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.words}
          </option>
        ))}
      </select>
      <Hint id={id} text={hint} />
    </div>
  )
}

interface DayFieldProps extends FieldProps {
  /** As `2026-03-14`. */
  readonly value: string | undefined
  readonly onChange: (value: string | undefined) => void
}

export function DayField({ label, labelHidden = false, hint, value, onChange }: DayFieldProps) {
  const id = useId()
  return (
    <div className={styles.field}>
      <label className={labelHidden ? 'visually-hidden' : styles.label} htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="date"
        className={styles.input}
        max="9999-12-31"
        value={value ?? ''}
        aria-describedby={hint && `${id}-hint`}
        onChange={(event) => {
          const { value: day } = event.target
          // a year of more digits is a slip of the finger, and no day that a case can hold
          if (day.length <= 'yyyy-mm-dd'.length) onChange(day === '' ? undefined : day)
        }}
      />
      <Hint id={id} text={hint} />
    </div>
  )
}

interface TickProps {
  readonly label: ReactNode
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
}

export function Tick({ label, checked, onChange }: TickProps) {
  return (
    <label className={styles.check}>
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.target.checked)} />
      <span>{label}</span>
    </label>
  )
}

function Wrong({ id, text }: { readonly id: string; readonly text: string | undefined }) {
  return (
    <p className={styles.wrong} id={`${id}-wrong`}>
      {text}
    </p>
  )
}

function Hint({ id, text }: { readonly id: string; readonly text: string | undefined }) {
  if (text === undefined) return undefined
  return (
    <p className={styles.hint} id={`${id}-hint`}>
      {text}
    </p>
  )
}
