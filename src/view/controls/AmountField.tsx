/** A number that may be left empty: hours, a price. Takes comma or point; what is no number stays in the field, said to be wrong. */
import { plainly, say } from '../../base/index.ts'
import { useId, useState } from 'react'
import { NumberBox, numberIn, whichNumber } from './fields.tsx'

interface AmountFieldProps {
  readonly label: string
  readonly labelHidden?: boolean
  readonly unit?: string
  readonly hint?: string | undefined
  readonly value: number | undefined
  readonly least?: number
  readonly most?: number
  readonly onChange: (value: number | undefined) => void
}

export function AmountField({
  label,
  labelHidden = false,
  unit,
  hint,
  value,
  least = 0,
  most = 1e9,
  onChange,
}: AmountFieldProps) {
  const id = useId()
  const [typed, setTyped] = useState<string>()
  const parsed = typed === undefined ? undefined : numberIn(typed)
  const outside = parsed === undefined || parsed < least || parsed > most
  const mine = typed !== undefined && (parsed === value || typed.trim() === '' || outside)
  const shown = mine ? typed : value === undefined ? '' : plainly(Number(value.toFixed(2)))
  const wrong = mine && typed.trim() !== '' && outside
  const change = (text: string): void => {
    setTyped(text)
    const next = numberIn(text)
    // On the way to `1,200` stands `1,2`: of a text that is no number nothing may stay behind as if it were meant.
    onChange(next !== undefined && next >= least && next <= most ? next : undefined)
  }
  return (
    <NumberBox
      {...{ id, label, labelHidden, hint, unit, value: shown }}
      wrong={wrong ? (whichNumber(shown) ?? say('A number from {least} to {most}.', { least, most })) : undefined}
      onChange={change}
      onBlur={() => !wrong && setTyped(undefined)}
    />
  )
}
