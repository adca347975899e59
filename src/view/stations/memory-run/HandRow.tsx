/** The next row of the table entered by hand: Enter adds it and begins another; a table can be pasted instead. */
import { someOf, say } from '../../../base/index.ts'
import { type ComponentProps, useId, useMemo, useRef, useState } from 'react'
import type { BoardModel } from '../../../board/index.ts'
import { pastedRows, tableRowSchema, type TableRow } from '../../../report/index.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { numberIn, whichNumber } from '../../controls/fields.tsx'
import { useToldNames } from './names/useWaiting.ts'
import { isPlace, meantPlace, placesOf, shareSaid } from './handPlace.ts'
import own from '../../controls/stations.module.css'

interface HandRowProps {
  readonly model: BoardModel
  readonly onAdd: (rows: readonly TableRow[]) => void
}

export function HandRow({ model, onAdd }: HandRowProps) {
  const id = useId()
  const told = useToldNames()
  const places = useMemo(() => placesOf(model, told), [model, told])
  const [where, setWhere] = useState('')
  const [bit, setBit] = useState('')
  const [errors, setErrors] = useState('1')
  const [wrong, setWrong] = useState('')
  const whereField = useRef<HTMLInputElement>(null)
  const meant = meantPlace(places, where)
  const add = (): void => {
    if (!isPlace(meant)) return setWrong(notOne(where, meant))
    const bitNumber = numberIn(bit)
    if (bit.trim() !== '' && bitNumber === undefined)
      return setWrong(whichNumber(bit) ?? say('Errors and bit are whole numbers from 0.'))
    const rows: TableRow[] = []
    for (const place of meant.rows) {
      const row = { ...place, errors: numberIn(errors), ...(bitNumber === undefined ? {} : { bit: bitNumber }) }
      const parsed = tableRowSchema.safeParse(row)
      if (!parsed.success) return setWrong(whichNumber(errors) ?? say('Errors and bit are whole numbers from 0.'))
      rows.push(parsed.data)
    }
    if (rows.length > 1 && rows.some((row) => row.errors > 0))
      return setWrong(
        say('{name} is {length} lanes: enter the errors of each lane.', { name: meant.name, length: rows.length }),
      )
    onAdd(rows)
    setWrong('')
    setWhere('')
    setBit('')
    whereField.current?.focus()
  }
  /** @returns whether it was a table: a single name is pasted as text */
  const paste = (text: string): boolean => {
    if (!/[\n\t]/.test(text.trim())) return false
    const { rows, left } = pastedRows(text, model, told)
    onAdd(rows)
    const such = left[0]?.trim().slice(0, 60) ?? ''
    setWrong(
      left.length === 0
        ? ''
        : say('{length, plural, one {# line} other {# lines}} not taken, such as “{such}”.', {
            length: left.length,
            such,
          }),
    )
    return true
  }
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <div className={own.handRow}>
        <Field
          label={say('Part, channel or lane')}
          id={`${id}-where`}
          ref={whereField}
          list={`${id}-names`}
          autoComplete="off"
          value={where}
          onChange={(event) => setWhere(event.target.value)}
          onBlur={() => {
            if (isPlace(meant)) setWhere(meant.name)
          }}
          onPaste={(event) => {
            if (paste(event.clipboardData.getData('text'))) event.preventDefault()
          }}
        />
        <datalist id={`${id}-names`}>
          {[...new Set(places.map(({ name }) => name))].map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </datalist>
        <Field
          label={say('Bit')}
          id={`${id}-bit`}
          inputMode="numeric"
          value={bit}
          onChange={(event) => setBit(event.target.value)}
        />
        <Field
          label={say('Errors')}
          id={`${id}-errors`}
          inputMode="numeric"
          value={errors}
          onChange={(event) => setErrors(event.target.value)}
        />
        <Button type="submit" size="icon" aria-label={say('Add the row')}>
          +
        </Button>
      </div>
      <p className={wrong === '' ? controls.hint : controls.wrong} role="status">
        {wrong === '' ? hintOf(model, meant) : wrong}
      </p>
    </form>
  )
}

function Field({ label, id, ...rest }: ComponentProps<'input'> & { readonly label: string }) {
  return (
    <div className={controls.field}>
      <label className={controls.label} htmlFor={id}>
        {label}
      </label>
      <input id={id} className={controls.input} {...rest} />
    </div>
  )
}

const MOST_NAMED = 4

function notOne(typed: string, begun: readonly string[]): string {
  if (begun.length === 0) return say('“{typed}” is no part, channel or lane of this board.', { typed: typed.trim() })
  return say('“{typed}” can be {begun}.', { typed: typed.trim(), begun: someOf(begun, MOST_NAMED) })
}

function hintOf(model: BoardModel, meant: ReturnType<typeof meantPlace>): string {
  if (!isPlace(meant)) return say('0 errors says: tested and clean. A table can be pasted here.')
  const [place] = meant.rows
  const share = place === undefined ? undefined : shareSaid(model, place)
  return share === undefined
    ? `${meant.name}. Enter adds the row.`
    : say('{name}: {share}. Enter adds the row.', { name: meant.name, share })
}
