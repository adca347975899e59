/** One field of the measuring sheet: takes what people type, settles it on Enter and hands the focus on. */
import { say } from '../../../base/index.ts'
import { type KeyboardEvent, useId, useRef, useState } from 'react'
import {
  lineKey,
  type LineName,
  type LineVerdict,
  lineWithKind,
  type Phase,
  type Quantity,
  readTyped,
  type Reading,
  typedReading,
} from '../../../measure/index.ts'
import { enterReading } from './measure.ts'
import controls from '../../controls/controls.module.css'
import { useDesk } from '../../stores/hooks.ts'
import { useMeter } from '../../stores/meterStore.ts'
import own from './measuring.module.css'
import { stepFrom } from './fieldOrder.ts'
import { fillFromMeter } from './fillFromMeter.ts'

interface ReadingFieldProps {
  readonly entry: LineVerdict
  readonly phase: Phase
  readonly describedBy: string
  readonly onFocus: () => void
}

export function ReadingField({ entry, phase, describedBy, onFocus }: ReadingFieldProps) {
  const desk = useDesk()
  const metered = useMeter((state) => state.state === 'on')
  const [draft, setDraft] = useState<{ typed: string; over: Reading | undefined }>()
  const [wrong, setWrong] = useState<string>()
  /** Entered already: the blur that follows an Enter comes before the next render and must not enter it again. */
  const entered = useRef<typeof draft>(undefined)
  const { line, quantity } = entry.line
  const reading = entry.measurement?.reading
  const settled = reading === undefined ? '' : typedReading(reading, quantity)
  const edited = draft !== undefined && draft.over === reading
  const shown = edited ? draft.typed : settled
  const id = useId()

  const forget = (): void => {
    setDraft(undefined)
    setWrong(undefined)
  }
  /** @returns whether the field holds nothing that is wrong */
  const commit = (): boolean => {
    if (!edited || entered.current === draft || draft.typed.trim() === '') {
      forget()
      return true
    }
    const read = readTyped(draft.typed, quantity)
    if (!read.ok) {
      const [fault] = read.faults
      setWrong(
        fault?.todo ??
          say('Found {found}, expected {expected}.', {
            found: fault?.found ?? say('this'),
            expected: fault?.expected ?? say('a reading'),
          }),
      )
      return false
    }
    entered.current = draft
    forget()
    enterReading(desk, { line, quantity, phase, reading: read.value.reading, typed: draft.typed.trim() })
    return true
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Escape' && edited) {
      event.stopPropagation()
      forget()
    }
    if (event.key !== 'Enter' || event.nativeEvent.isComposing) return
    event.preventDefault()
    const field = event.currentTarget
    if (!event.shiftKey && metered && shown.trim() === '') void fillFromMeter(desk, field, entry.line, phase)
    else if (commit()) stepFrom(field, event.shiftKey ? -1 : 1)
    else field.select()
  }
  return (
    <>
      <label className="visually-hidden" htmlFor={id}>
        {lineWithKind(line)}, {quantityWords(line, quantity)}
      </label>
      <input
        id={id}
        data-measuring={quantity}
        data-line={lineKey(line)}
        className={controls.input}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        enterKeyHint="next"
        maxLength={80}
        value={shown}
        placeholder={UNITS[quantity]}
        aria-invalid={wrong !== undefined}
        aria-describedby={wrong === undefined ? describedBy : `${id}-wrong`}
        onChange={(event) => {
          setWrong(undefined)
          setDraft({ typed: event.target.value, over: reading })
        }}
        onFocus={(event) => {
          event.currentTarget.select()
          onFocus()
        }}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      {wrong !== undefined && (
        <p className={`${controls.wrong} ${own.wrong}`} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
    </>
  )
}

const UNITS: Readonly<Record<Quantity, string>> = { ohms: 'Ω', diode: 'mV', volts: 'V' }

function quantityWords({ point }: LineName, quantity: Quantity): string {
  if (quantity === 'volts') return say('volts')
  if (quantity === 'diode') return say('diode mode, red on ground')
  return point === 'input' || point === 'switch' ? say('ohms') : say('ohms to ground')
}
