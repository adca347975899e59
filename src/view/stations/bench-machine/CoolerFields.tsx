/** Paste, pads and the order of the screws: as the cooler came, or as it was refitted. */
import { say } from '../../../base/index.ts'
import { X } from 'lucide-react'
import type { BenchPhase, Cooler, Look } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import { Choice, SelectField, TextField } from '../../controls/fields.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import { AddRow } from './AddRow.tsx'
import own from './benchMachine.module.css'
import { editLook } from './edit.ts'

const noCooler: Cooler = { paste: 'unknown', pasteWords: '', pads: [], clampOrder: 'unknown', clampWords: '' }

const pastes = [
  { value: 'kept', words: say('Kept') },
  { value: 'new', words: say('New') },
  { value: 'dry', words: say('Dry') },
  { value: 'none', words: say('None') },
  { value: 'unknown', words: say('Not said') },
] as const

const states = [
  { value: 'unknown', words: say('not said') },
  { value: 'kept', words: say('kept') },
  { value: 'new', words: say('new') },
  { value: 'torn', words: say('torn') },
  { value: 'missing', words: say('missing') },
] as const

const orders = [
  { value: 'crosswise', words: say('Crosswise') },
  { value: 'one after the other', words: say('One after the other') },
  { value: 'unknown', words: say('Not said') },
] as const

export function CoolerFields({ look, phase }: { readonly look: Look; readonly phase: BenchPhase }) {
  const desk = useDesk()
  const cooler = look.cooler ?? noCooler
  const edit = (change: (now: Cooler) => Cooler, key?: string): void =>
    editLook(desk, phase, (now) => ({ ...now, cooler: change(now.cooler ?? noCooler) }), key)
  const editPad = (at: number, change: Partial<Cooler['pads'][number]>, key?: string): void =>
    edit((now) => ({ ...now, pads: now.pads.map((pad, i) => (i === at ? { ...pad, ...change } : pad)) }), key)
  return (
    <>
      <Choice
        label={say('Paste')}
        value={cooler.paste}
        options={pastes}
        onChange={(paste) => edit((now) => ({ ...now, paste }))}
      />
      <TextField
        label={say('Which paste, and its print')}
        maxLength={400}
        value={cooler.pasteWords}
        onChange={(pasteWords) => edit((now) => ({ ...now, pasteWords }), 'paste words')}
      />
      {cooler.pads.length > 0 && (
        <ul className={own.rows} aria-label={say('Pads')}>
          {cooler.pads.map(({ where, thicknessMm, state }, at) => (
            // oxlint-disable-next-line react/no-array-index-key -- two pads may have one name, and rows keep their order
            <li key={at} className={own.pad}>
              <b>{where}</b>
              <AmountField
                label={say('Thickness of the pad at {where}', { where })}
                labelHidden
                unit="mm"
                least={0.1}
                most={10}
                value={thicknessMm}
                onChange={(value) => editPad(at, { thicknessMm: value }, `pad ${at}`)}
              />
              <SelectField
                label={say('State of the pad at {where}', { where })}
                labelHidden
                value={state}
                options={states}
                onChange={(chosen) => editPad(at, { state: chosen })}
              />
              <Button
                tone="quiet"
                size="icon"
                aria-label={say('Remove pad at {where}', { where })}
                onClick={() => edit((now) => ({ ...now, pads: now.pads.filter((_, i) => i !== at) }))}
              >
                <X size={15} aria-hidden="true" />
              </Button>
            </li>
          ))}
        </ul>
      )}
      <AddRow
        label={say('Add pad')}
        placeholder={say('at memory')}
        onAdd={(where) =>
          edit((now) => ({ ...now, pads: [...now.pads, { where, state: 'unknown' as const }].slice(-100) }))
        }
      />
      <Choice
        label={say('Screws tightened')}
        value={cooler.clampOrder}
        options={orders}
        onChange={(clampOrder) => edit((now) => ({ ...now, clampOrder }))}
      />
      <TextField
        label={say('Order and torque')}
        maxLength={400}
        value={cooler.clampWords}
        onChange={(clampWords) => edit((now) => ({ ...now, clampWords }), 'clamp words')}
      />
    </>
  )
}
