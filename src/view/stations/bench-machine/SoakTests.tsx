/** Load and soak tests after the work: what loaded it, hours, temperatures, outcome. */
import { X } from 'lucide-react'
import { useState } from 'react'
import { numberWords, say } from '../../../base/index.ts'
import { type BenchMachine, machineFigures } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import controls from '../../controls/controls.module.css'
import { SelectField, TextField } from '../../controls/fields.tsx'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import { AmountField } from '../../controls/AmountField.tsx'
import own from './benchMachine.module.css'
import { MachineRemarks } from './MachineRemarks.tsx'
import { addSoak, removeSoak } from './edit.ts'

type Soak = BenchMachine['soaks'][number]

const outcomes = [
  { value: 'held', words: say('held') },
  { value: 'errors', words: say('errors') },
  { value: 'broke off', words: say('broke off') },
] as const

export function SoakTests() {
  const desk = useDesk()
  const soaks = usePresent()?.benchMachine?.soaks ?? []
  return (
    <section className={styles.section} aria-label={say('Load and soak tests')}>
      {soaks.length > 0 && <h3 className={styles.sub}>{say('Load and soak tests')}</h3>}
      {soaks.length > 0 && <SoakTable soaks={soaks} />}
      <MachineRemarks phase="after" ofSoak />
      <Opening summary={soaks.length > 0 ? say('Another one') : say('Load and soak tests: none noted')}>
        {/* anew after each one, so that the fields are empty */}
        <NewSoak key={soaks.length} onAdd={(soak) => addSoak(desk, soak)} />
      </Opening>
    </section>
  )
}

function SoakTable({ soaks }: { readonly soaks: readonly Soak[] }) {
  const desk = useDesk()
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{say('Load and soak tests so far')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('load')}</th>
          <th scope="col" className={styles.number}>
            {say('hours')}
          </th>
          <th scope="col" className={styles.number}>
            {say('air, °C')}
          </th>
          <th scope="col" className={styles.number}>
            {say('hottest, °C')}
          </th>
          <th scope="col">{say('outcome')}</th>
          <th scope="col">
            <span className="visually-hidden">{say('Remove')}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {soaks.map(({ load, hours, airC, hottestC, outcome }, at) => (
          // oxlint-disable-next-line react/no-array-index-key -- two tests may be alike, and rows keep their order
          <tr key={at}>
            <th scope="row">{load}</th>
            <td className={styles.number}>{numberWords(hours)}</td>
            <td className={styles.number}>{degrees(airC)}</td>
            <td className={styles.number}>{degrees(hottestC)}</td>
            <td>
              {outcome === 'held' ? say('held') : <b>{outcome === 'errors' ? say('errors') : say('broke off')}</b>}
            </td>
            <td>
              <Button
                tone="quiet"
                size="icon"
                aria-label={say('Remove soak test {at}', { at: at + 1 })}
                onClick={() => removeSoak(desk, at)}
              >
                <X size={15} aria-hidden="true" />
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const degrees = (value: number | undefined): string => (value === undefined ? '–' : numberWords(value))

function NewSoak({ onAdd }: { readonly onAdd: (soak: Soak) => void }) {
  const [load, setLoad] = useState('')
  const [hours, setHours] = useState<number>()
  const [airC, setAir] = useState<number>()
  const [hottestC, setHottest] = useState<number>()
  const [outcome, setOutcome] = useState<Soak['outcome']>('held')
  const [wrong, setWrong] = useState(false)
  const add = (): void => {
    const isTold = load.trim() !== '' && hours !== undefined && hours > 0
    setWrong(!isTold)
    if (isTold) onAdd({ load: load.trim(), hours, airC, hottestC, outcome })
  }
  return (
    <form
      className={own.soak}
      aria-label={say('Note a load or soak test')}
      onSubmit={(event) => {
        event.preventDefault()
        add()
      }}
    >
      <TextField label={say('What loaded it')} maxLength={200} value={load} onChange={setLoad} />
      <AmountField
        label={say('Hours')}
        unit="h"
        most={10_000}
        hint={say('{value} h at a stretch are usual', { value: machineFigures.soakHours.value })}
        value={hours}
        onChange={setHours}
      />
      <AmountField label={say('Air')} unit="°C" least={-60} most={100} value={airC} onChange={setAir} />
      <AmountField label={say('Hottest')} unit="°C" least={-60} most={300} value={hottestC} onChange={setHottest} />
      <SelectField label={say('Outcome')} value={outcome} options={outcomes} onChange={setOutcome} />
      <div className={own.soakAdd}>
        <Button type="submit">{say('Note test')}</Button>
      </div>
      {wrong && (
        <p className={controls.wrong} role="alert">
          {say('Say what loaded it, and for how many hours.')}
        </p>
      )}
    </form>
  )
}
