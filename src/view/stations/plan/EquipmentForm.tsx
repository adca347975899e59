/** What the bench has: preheater, hot air, nozzles. What contradicts is said at its field. */
import { say } from '../../../base/index.ts'
import { Plus, Trash2 } from 'lucide-react'
import type { Case } from '../../../case/index.ts'
import { checkEquipment, defaultEquipment, type Equipment, type Nozzle } from '../../../heat/index.ts'
import { editCase } from '../../actions/edit.ts'
import { Button } from '../../controls/Button.tsx'
import { NumberField, SelectField, TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import controls from '../../controls/controls.module.css'
import panel from '../../controls/panel.module.css'
import { useBoard, useDesk, usePresent } from '../../stores/hooks.ts'
import { equipmentWords } from './planWords.ts'
import styles from './plan.module.css'

export function EquipmentForm() {
  const desk = useDesk()
  const own = usePresent()?.equipment
  const board = useBoard()
  const equipment = own ?? defaultEquipment
  const faults = board === undefined ? [] : checkEquipment(board.model, equipment)
  const faultAt = (path: string): string | undefined => {
    const fault = faults.find((each) => each.path === path)
    return fault && say('Found {found}, expected {expected}.', { found: fault.found, expected: fault.expected })
  }
  const set = (change: Partial<Equipment>, join: string): void =>
    editCase(
      desk,
      (c) => ({ ...c, equipment: { ...(c.equipment ?? defaultEquipment), ...change } }),
      `equipment ${join}`,
    )
  const { preheater, hotAir, nozzles } = equipment
  return (
    <section aria-label={say('Equipment')} className={styles.form}>
      <p className={styles.small}>
        <b>
          {say('Your bench')}
          {own === undefined && say(' (assumed, change it)')}:
        </b>{' '}
        {equipmentWords(equipment)}
      </p>
      {faults.length > 0 && (
        <p className={controls.wrong}>{say('Something in it contradicts itself: open it, it stands at its field.')}</p>
      )}
      <Opening summary={say('Change what you have')}>
        <div className={panel.section}>
          <div className={panel.two}>
            <NumberField
              label={say('Preheater, at most')}
              unit="°C"
              min={20}
              max={600}
              step={5}
              value={preheater.maxC}
              fault={faultAt('$.preheater.maxC')}
              onChange={(maxC) => set({ preheater: { ...preheater, maxC } }, say('preheater max'))}
            />
            <NumberField
              label={say('at least')}
              unit="°C"
              min={20}
              max={600}
              step={5}
              value={preheater.minC}
              fault={faultAt('$.preheater.minC')}
              onChange={(minC) => set({ preheater: { ...preheater, minC } }, say('preheater min'))}
            />
            <NumberField
              label={say('Heated patch, wide')}
              unit="mm"
              min={1}
              max={1000}
              step={10}
              value={preheater.widthMm}
              onChange={(widthMm) => set({ preheater: { ...preheater, widthMm } }, say('preheater width'))}
            />
            <NumberField
              label={say('and long')}
              unit="mm"
              min={1}
              max={1000}
              step={10}
              value={preheater.lengthMm}
              onChange={(lengthMm) => set({ preheater: { ...preheater, lengthMm } }, say('preheater length'))}
            />
            <NumberField
              label={say('Hot air, at most')}
              unit="°C"
              min={20}
              max={600}
              step={10}
              value={hotAir.maxC}
              fault={faultAt('$.hotAir.maxC')}
              onChange={(maxC) => set({ hotAir: { ...hotAir, maxC } }, say('air max'))}
            />
            <NumberField
              label={say('at least')}
              unit="°C"
              min={20}
              max={600}
              step={10}
              value={hotAir.minC}
              fault={faultAt('$.hotAir.minC')}
              onChange={(minC) => set({ hotAir: { ...hotAir, minC } }, say('air min'))}
            />
          </div>
          <h3 className={panel.sub}>{say('Nozzles')}</h3>
          {faultAt('$.nozzles') !== undefined && <p className={controls.wrong}>{faultAt('$.nozzles')}</p>}
          <ul className={styles.nozzles}>
            {nozzles.map((nozzle, i) => (
              // oxlint-disable-next-line react/no-array-index-key -- a nozzle has no other name that stays while it is typed
              <li key={i}>
                <NozzleFields
                  nozzle={nozzle}
                  number={i + 1}
                  nameFault={faultAt(`$.nozzles[${i}].name`)}
                  sizeFault={faultAt(`$.nozzles[${i}].sizeMm`)}
                  onChange={(next) =>
                    set({ nozzles: nozzles.map((each, at) => (at === i ? next : each)) }, say('nozzle {i}', { i }))
                  }
                  onRemove={() => set({ nozzles: nozzles.filter((_, at) => at !== i) }, say('nozzle off'))}
                />
              </li>
            ))}
          </ul>
          <div className={panel.row}>
            <Button onClick={() => set({ nozzles: [...nozzles, freshNozzle(nozzles)] }, say('nozzle on'))}>
              <Plus size={15} aria-hidden="true" /> {say('Add a nozzle')}
            </Button>
            {own !== undefined && (
              <Button tone="quiet" onClick={() => editCase(desk, assumedBench)}>
                {say('Set back to the assumed bench')}
              </Button>
            )}
          </div>
        </div>
      </Opening>
    </section>
  )
}

function assumedBench(present: Case): Case {
  const { equipment: _, ...rest } = present
  return rest
}

function freshNozzle(nozzles: readonly Nozzle[]): Nozzle {
  const taken = new Set(nozzles.map(({ name }) => name))
  for (let sizeMm = 10; ; sizeMm++)
    if (!taken.has(`round ${sizeMm}`)) return { name: say('round {sizeMm}', { sizeMm }), shape: 'round', sizeMm }
}

const shapes = [
  { value: 'round', words: say('round') },
  { value: 'square', words: say('square') },
] as const

interface NozzleFieldsProps {
  readonly nozzle: Nozzle
  readonly number: number
  readonly nameFault: string | undefined
  readonly sizeFault: string | undefined
  readonly onChange: (nozzle: Nozzle) => void
  readonly onRemove: () => void
}

function NozzleFields({ nozzle, number, nameFault, sizeFault, onChange, onRemove }: NozzleFieldsProps) {
  return (
    <div className={styles.nozzle}>
      <div>
        <TextField
          label={say('Name {number}', { number })}
          value={nozzle.name}
          maxLength={60}
          onChange={(name) => name !== '' && onChange({ ...nozzle, name })}
        />
        {nameFault !== undefined && <p className={controls.wrong}>{nameFault}</p>}
      </div>
      <SelectField
        label={say('Shape')}
        value={nozzle.shape}
        options={shapes}
        onChange={(shape) => onChange({ ...nozzle, shape })}
      />
      <NumberField
        label={say('Size')}
        unit="mm"
        min={0.1}
        max={200}
        value={nozzle.sizeMm}
        fault={sizeFault}
        onChange={(sizeMm) => onChange({ ...nozzle, sizeMm })}
      />
      <Button
        size="icon"
        tone="quiet"
        aria-label={say('Take nozzle {name} off the list', { name: nozzle.name })}
        onClick={onRemove}
      >
        <Trash2 size={15} aria-hidden="true" />
      </Button>
    </div>
  )
}
