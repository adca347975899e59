/** The bench meter, where this browser can reach one: connect, read into the field at hand, let go. */
import { say } from '../../../base/index.ts'
import { Cable, Gauge } from 'lucide-react'
import { useRef } from 'react'
import { lineKey, type Phase, type Quantity } from '../../../measure/index.ts'
import { connect, disconnect } from './meter.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { SelectField } from '../../controls/fields.tsx'
import { baudRates } from '../../meter/ports.ts'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import { verdictsOf } from '../../stores/measuring.ts'
import { meterStoreOf, useMeter } from '../../stores/meterStore.ts'
import styles from '../../controls/panel.module.css'
import { focusField, sheetFields } from './fieldOrder.ts'
import { fillFromMeter } from './fillFromMeter.ts'
import own from './measuring.module.css'

const baudOptions = baudRates.map((rate) => ({ value: String(rate), words: say('{rate} baud', { rate }) }))

export function MeterBar({ quantity, phase }: { readonly quantity: Quantity; readonly phase: Phase }) {
  const desk = useDesk()
  const board = useBoard()
  const present = usePresent()
  const { ports, baudRate, state, meter, trouble } = useMeter((known) => known)
  const last = useRef<HTMLInputElement>(undefined)
  if (ports === undefined || board === undefined || present === undefined) return undefined
  /** The field that has the focus, before the button takes it. */
  const remember = (): void => {
    const focused = document.activeElement
    last.current =
      focused instanceof HTMLInputElement && focused.dataset['measuring'] === quantity ? focused : undefined
  }
  const read = (): void => {
    const field = last.current ?? sheetFields(quantity).find(({ value }) => value === '')
    const found = verdictsOf(board.model, present, quantity, phase).find(
      ({ line }) => lineKey(line.line) === field?.dataset['line'],
    )
    if (field === undefined || found === undefined) return
    focusField(field)
    void fillFromMeter(desk, field, found.line, phase)
  }
  return (
    <div className={own.meter} role="group" aria-label={say('Bench meter')}>
      {meter === undefined ? (
        <div className={styles.row}>
          <SelectField
            label={say('Baud rate of the meter')}
            labelHidden
            value={String(baudRate)}
            options={baudOptions}
            onChange={(rate) => meterStoreOf(desk).setState({ baudRate: Number(rate) })}
          />
          <Button disabled={state === 'connecting'} onClick={() => void connect(desk)}>
            <Cable size={15} aria-hidden="true" />
            {state === 'connecting' ? say('Connecting') : say('Connect a meter')}
          </Button>
        </div>
      ) : (
        <div className={styles.row}>
          <Button tone="strong" disabled={state === 'reading'} onPointerDown={remember} onClick={read}>
            <Gauge size={15} aria-hidden="true" />
            {state === 'reading' ? say('Reading') : say('Read the meter')}
          </Button>
          <Button tone="quiet" onClick={() => void disconnect(desk)}>
            {say('Disconnect')}
          </Button>
          <span className={styles.quiet}>
            {say('{words}. Enter on an empty field reads it too.', { words: meter.identity.words })}
          </span>
        </div>
      )}
      {trouble !== undefined && (
        <p className={controls.wrong} role="alert">
          {trouble}
        </p>
      )}
    </div>
  )
}
