/** Supplies of a board from a pattern: name, nominal voltage, stages, what it feeds. */
import { Plus, X } from 'lucide-react'
import { type Fault, say } from '../../base/index.ts'
import { patternLimits, type PatternSupply } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField, TextField } from '../controls/fields.tsx'
import { faultAt, type PatternDraft, suppliesOf } from './patternDraft.ts'
import styles from './start.module.css'

const fedOptions = [
  { value: 'core', words: say('core') },
  { value: 'memory', words: say('memory') },
  { value: 'both', words: say('both') },
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
      <legend>{say('Supplies, beside 12V and 3V3 from plug and slot')}</legend>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('Name')}</th>
            <th scope="col">{say('Nominal')}</th>
            <th scope="col">{say('Stages')}</th>
            <th scope="col">{say('Feeds')}</th>
            <th scope="col">
              <span className="visually-hidden">{say('Take away')}</span>
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
        <Plus size={15} aria-hidden="true" /> {say('Add a supply')}
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
  const of = say('supply {number}', { number })
  return (
    <tr>
      <td>
        <TextField
          label={say('Name of {of}', { of })}
          labelHidden
          maxLength={patternLimits.supplyNameCharacters}
          value={supply.name}
          fault={faultOf('name')}
          onChange={(name) => onChange({ name })}
        />
      </td>
      <td>
        <NumberField
          label={say('Nominal voltage of {of}', { of })}
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
          label={say('Stages of {of}', { of })}
          labelHidden
          {...patternLimits.stages}
          value={supply.stages}
          fault={faultOf('stages')}
          onChange={(stages) => onChange({ stages: Math.round(stages) })}
        />
      </td>
      <td>
        <SelectField
          label={say('What {of} feeds', { of })}
          labelHidden
          value={supply.feeds}
          options={fedOptions}
          onChange={(feeds) => onChange({ feeds })}
        />
      </td>
      <td>
        <Button
          size="icon"
          tone="quiet"
          aria-label={say('Take away {name}', { name: supply.name })}
          title={say('Take away')}
          onClick={onRemove}
        >
          <X size={16} aria-hidden="true" />
        </Button>
      </td>
    </tr>
  )
}

function freeName(supplies: readonly PatternSupply[]): string {
  const taken = new Set(supplies.map(({ name }) => name))
  let number = 1
  while (taken.has(say('rail {number}', { number }))) number++
  return say('rail {number}', { number })
}
