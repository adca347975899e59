/** Fields that change the board once, when they are left or Enter is pressed: each is one step of undo. */
import { plainly, say } from '../../base/index.ts'
import { type KeyboardEvent, useId, useState } from 'react'
import styles from '../controls/controls.module.css'
import { numberIn, whichNumber } from '../controls/fields.tsx'

interface CommitFieldProps {
  readonly label: string
  readonly value: string
  readonly unit?: string
  readonly hint?: string
  readonly labelHidden?: boolean
  readonly numeric?: boolean
  /** @returns what is wrong with the text; undefined where it was taken */
  readonly onCommit: (text: string) => string | undefined
}

/** What is typed and wrong stays, said to be wrong; Escape brings back what was there. */
export function CommitField({
  label,
  value,
  unit,
  hint,
  labelHidden = false,
  numeric = false,
  onCommit,
}: CommitFieldProps) {
  const id = useId()
  const [draft, setDraft] = useState<{
    readonly text: string
    readonly over: string
    readonly wrong?: string | undefined
  }>()
  const mine = draft !== undefined && draft.over === value ? draft : undefined
  const commit = (): void => {
    if (mine === undefined) return
    const wrong = mine.text === value ? undefined : onCommit(mine.text)
    setDraft(wrong === undefined ? undefined : { ...mine, wrong })
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') {
      event.preventDefault()
      commit()
    } else if (event.key === 'Escape' && mine !== undefined) {
      event.stopPropagation()
      setDraft(undefined)
    }
  }
  return (
    <div className={styles.field}>
      <label className={labelHidden ? 'visually-hidden' : styles.label} htmlFor={id}>
        {label}
      </label>
      <div className={styles.withUnit}>
        <input
          id={id}
          type="text"
          className={styles.input}
          inputMode={numeric ? 'decimal' : 'text'}
          autoComplete="off"
          spellCheck={false}
          value={mine?.text ?? value}
          aria-invalid={mine?.wrong === undefined ? undefined : true}
          aria-describedby={mine?.wrong === undefined ? hint && `${id}-hint` : `${id}-wrong`}
          onChange={(event) => setDraft({ text: event.target.value, over: value })}
          onBlur={commit}
          onKeyDown={onKeyDown}
        />
        {unit !== undefined && <span>{unit}</span>}
      </div>
      {mine?.wrong !== undefined && (
        <p className={styles.wrong} id={`${id}-wrong`}>
          {mine.wrong}
        </p>
      )}
      {mine?.wrong === undefined && hint !== undefined && (
        <p className={styles.hint} id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  )
}

interface CommitNumberProps extends Omit<CommitFieldProps, 'value' | 'onCommit' | 'numeric'> {
  readonly value: number | undefined
  readonly min?: number
  readonly max?: number
  /** @param value undefined where the field was emptied */
  readonly onCommit: (value: number | undefined) => string | undefined
  /** An empty field says that nothing is known; else it is wrong. */
  readonly mayBeEmpty?: boolean
}

export function CommitNumber({
  value,
  min = -Infinity,
  max = Infinity,
  mayBeEmpty = false,
  onCommit,
  ...field
}: CommitNumberProps) {
  const take = (text: string): string | undefined => {
    if (text.trim() === '' && mayBeEmpty) return onCommit(undefined)
    const number = numberIn(text)
    if (number === undefined) return whichNumber(text) ?? say('A number.')
    return number < min || number > max ? rangeWords(min, max) : onCommit(number)
  }
  return (
    <CommitField
      {...field}
      numeric
      value={value === undefined ? '' : plainly(Number(value.toFixed(4)))}
      onCommit={take}
    />
  )
}

const rangeWords = (min: number, max: number): string =>
  Number.isFinite(max)
    ? say('A number from {min} to {max}.', { min, max })
    : say('A number of at least {min}.', { min })
