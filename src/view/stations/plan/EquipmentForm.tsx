/** What the bench has: preheater, hot air, nozzles. What contradicts is said at its field. */
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
    return fault && `Found ${fault.found}, expected ${fault.expected}.`
  }
  const set = (change: Partial<Equipment>, join: string): void =>
    editCase(
      desk,
      (c) => ({ ...c, equipment: { ...(c.equipment ?? defaultEquipment), ...change } }),
      `equipment ${join}`,
    )
  const { preheater, hotAir, nozzles } = equipment
  return (
    <section aria-label="Equipment" className={styles.form}>
      <p className={styles.small}>
        <b>Your bench{own === undefined && ' (assumed, change it)'}:</b> {equipmentWords(equipment)}
      </p>
      {faults.length > 0 && (
        <p className={controls.wrong}>Something in it contradicts itself: open it, it stands at its field.</p>
      )}
      <Opening summary="Change what you have">
        <div className={panel.section}>
          <div className={panel.two}>
            <NumberField
              label="Preheater, at most"
              unit="°C"
              min={20}
              max={600}
              step={5}
              value={preheater.maxC}
              fault={faultAt('$.preheater.maxC')}
              onChange={(maxC) => set({ preheater: { ...preheater, maxC } }, 'preheater max')}
            />
            <NumberField
              label="at least"
              unit="°C"
              min={20}
              max={600}
              step={5}
              value={preheater.minC}
              fault={faultAt('$.preheater.minC')}
              onChange={(minC) => set({ preheater: { ...preheater, minC } }, 'preheater min')}
            />
            <NumberField
              label="Heated patch, wide"
              unit="mm"
              min={1}
              max={1000}
              step={10}
              value={preheater.widthMm}
              onChange={(widthMm) => set({ preheater: { ...preheater, widthMm } }, 'preheater width')}
            />
            <NumberField
              label="and long"
              unit="mm"
              min={1}
              max={1000}
              step={10}
              value={preheater.lengthMm}
              onChange={(lengthMm) => set({ preheater: { ...preheater, lengthMm } }, 'preheater length')}
            />
            <NumberField
              label="Hot air, at most"
              unit="°C"
              min={20}
              max={600}
              step={10}
              value={hotAir.maxC}
              fault={faultAt('$.hotAir.maxC')}
              onChange={(maxC) => set({ hotAir: { ...hotAir, maxC } }, 'air max')}
            />
            <NumberField
              label="at least"
              unit="°C"
              min={20}
              max={600}
              step={10}
              value={hotAir.minC}
              fault={faultAt('$.hotAir.minC')}
              onChange={(minC) => set({ hotAir: { ...hotAir, minC } }, 'air min')}
            />
          </div>
          <h3 className={panel.sub}>Nozzles</h3>
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
                    set({ nozzles: nozzles.map((each, at) => (at === i ? next : each)) }, `nozzle ${i}`)
                  }
                  onRemove={() => set({ nozzles: nozzles.filter((_, at) => at !== i) }, 'nozzle off')}
                />
              </li>
            ))}
          </ul>
          <div className={panel.row}>
            <Button onClick={() => set({ nozzles: [...nozzles, freshNozzle(nozzles)] }, 'nozzle on')}>
              <Plus size={15} aria-hidden="true" /> Add a nozzle
            </Button>
            {own !== undefined && (
              <Button tone="quiet" onClick={() => editCase(desk, assumedBench)}>
                Set back to the assumed bench
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
    if (!taken.has(`round ${sizeMm}`)) return { name: `round ${sizeMm}`, shape: 'round', sizeMm }
}

const shapes = [
  { value: 'round', words: 'round' },
  { value: 'square', words: 'square' },
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
          label={`Name ${number}`}
          value={nozzle.name}
          maxLength={60}
          onChange={(name) => name !== '' && onChange({ ...nozzle, name })}
        />
        {nameFault !== undefined && <p className={controls.wrong}>{nameFault}</p>}
      </div>
      <SelectField
        label="Shape"
        value={nozzle.shape}
        options={shapes}
        onChange={(shape) => onChange({ ...nozzle, shape })}
      />
      <NumberField
        label="Size"
        unit="mm"
        min={0.1}
        max={200}
        value={nozzle.sizeMm}
        fault={sizeFault}
        onChange={(sizeMm) => onChange({ ...nozzle, sizeMm })}
      />
      <Button size="icon" tone="quiet" aria-label={`Take nozzle ${nozzle.name} off the list`} onClick={onRemove}>
        <Trash2 size={15} aria-hidden="true" />
      </Button>
    </div>
  )
}
