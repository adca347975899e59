/** Supplies of a board from a pattern: name, nominal voltage, stages, what it feeds. */
import { Plus, X } from 'lucide-react'
import type { Fault } from '../../base/index.ts'
import { patternLimits, type PatternSupply } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField, TextField } from '../controls/fields.tsx'
import { faultAt, type PatternDraft, suppliesOf } from './patternDraft.ts'
import styles from './start.module.css'

const fedOptions = [
  { value: 'core', words: 'core' },
  { value: 'memory', words: 'memory' },
  { value: 'both', words: 'both' },
] as const

interface SuppliesProps {
  readonly draft: PatternDraft
  readonly faults: readonly Fault[]
  readonly onChange: (supplies: readonly PatternSupply[]) => void
}

export function Supplies({ draft, faults, onChange }: SuppliesProps) {
  const supplies = suppliesOf(draft)
  const change = (at: number, next: Partial<PatternSupply>): void =>
    onChange(supplies.map((supply, i) => (i === at ? { ...supply, ...next } : supply)))
  const add = (): void => onChange([...supplies, { name: freeName(supplies), nominalV: 1, stages: 1, feeds: 'core' }])
  return (
    <fieldset className={styles.supplies}>
      <legend>Supplies, beside 12V and 3V3 from plug and slot</legend>
      <table>
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Nominal</th>
            <th scope="col">Stages</th>
            <th scope="col">Feeds</th>
            <th scope="col">
              <span className="visually-hidden">Take away</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {supplies.map((supply, i) => (
            // rows have no other name than their place: their own may be typed anew
            // oxlint-disable-next-line react/no-array-index-key
            <Row
              key={i}
              number={i + 1}
              supply={supply}
              faultOf={(field) => faultAt(faults, `$.supplies[${i}].${field}`)}
              onChange={(next) => change(i, next)}
              onRemove={() => onChange(supplies.filter((_, at) => at !== i))}
            />
          ))}
        </tbody>
      </table>
      <Button onClick={add} disabled={supplies.length >= patternLimits.supplies}>
        <Plus size={15} aria-hidden="true" /> Add a supply
      </Button>
    </fieldset>
  )
}

interface RowProps {
  readonly number: number
  readonly supply: PatternSupply
  readonly faultOf: (field: keyof PatternSupply) => string | undefined
  readonly onChange: (next: Partial<PatternSupply>) => void
  readonly onRemove: () => void
}

function Row({ number, supply, faultOf, onChange, onRemove }: RowProps) {
  const of = `supply ${number}`
  return (
    <tr>
      <td>
        <TextField
          label={`Name of ${of}`}
          labelHidden
          maxLength={patternLimits.supplyNameCharacters}
          value={supply.name}
          fault={faultOf('name')}
          onChange={(name) => onChange({ name })}
        />
      </td>
      <td>
        <NumberField
          label={`Nominal voltage of ${of}`}
          labelHidden
          unit="V"
          {...patternLimits.nominalV}
          step={0.05}
          value={supply.nominalV}
          fault={faultOf('nominalV')}
          onChange={(nominalV) => onChange({ nominalV })}
        />
      </td>
      <td>
        <NumberField
          label={`Stages of ${of}`}
          labelHidden
          {...patternLimits.stages}
          value={supply.stages}
          fault={faultOf('stages')}
          onChange={(stages) => onChange({ stages: Math.round(stages) })}
        />
      </td>
      <td>
        <SelectField
          label={`What ${of} feeds`}
          labelHidden
          value={supply.feeds}
          options={fedOptions}
          onChange={(feeds) => onChange({ feeds })}
        />
      </td>
      <td>
        <Button size="icon" tone="quiet" aria-label={`Take away ${supply.name}`} title="Take away" onClick={onRemove}>
          <X size={16} aria-hidden="true" />
        </Button>
      </td>
    </tr>
  )
}

function freeName(supplies: readonly PatternSupply[]): string {
  const taken = new Set(supplies.map(({ name }) => name))
  let number = 1
  while (taken.has(`rail ${number}`)) number++
  return `rail ${number}`
}
