/** Names that a report uses and the board does not: each is given its part, channel or lane, with a proposal to start from. */
import { Check } from 'lucide-react'
import { useState } from 'react'
import { type ForeignName, recipeWithNames } from '../../report/index.ts'
import { readAgain } from '../actions/reports.ts'
import { Button } from '../controls/Button.tsx'
import styles from '../panels/why.module.css'
import { useBoard, useDesk } from '../stores/hooks.ts'
import own from './stations.module.css'

interface ForeignNamesProps {
  /** Of the report. */
  readonly report: string
  readonly foreign: readonly ForeignName[]
}

export function ForeignNames({ report, foreign }: ForeignNamesProps) {
  const desk = useDesk()
  const model = useBoard()?.model
  const [meant, setMeant] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(foreign.map(({ name, proposal }) => [name, typeof proposal === 'string' ? proposal : ''])),
  )
  if (model === undefined) return undefined
  const ids = [
    ...model.memories.map((part) => part.ref),
    ...model.channels.map((channel) => channel.id),
    ...model.lanes.map((lane) => lane.id),
  ]
  const told = Object.entries(meant).filter(([, id]) => id !== '')
  const twice = told.find(([, id], i) => told.findIndex(([, other]) => other === id) !== i)
  return (
    <section className={styles.section} aria-label={`Names of ${report}`}>
      <p>
        <b>Its names are not this board’s.</b> Say what each means; the board’s order stands there as a proposal.
      </p>
      <div className={own.scroll} tabIndex={0} role="region" aria-label="What the names mean">
        <table className={own.sample}>
          <thead>
            <tr>
              <th scope="col">the report says</th>
              <th scope="col">it means</th>
            </tr>
          </thead>
          <tbody>
            {foreign.map(({ name }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>
                  <select
                    aria-label={`${name} means`}
                    value={meant[name] ?? ''}
                    onChange={(event) => setMeant({ ...meant, [name]: event.target.value })}
                  >
                    <option value="">not said</option>
                    {[...new Set(ids)].map((id) => (
                      <option key={id} value={id}>
                        {id}
                      </option>
                    ))}
                  </select>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {twice !== undefined && <p>{twice[1]} is meant by two names.</p>}
      <Button
        tone="strong"
        disabled={told.length === 0}
        onClick={() => void readAgain(desk, report, recipeWithNames(Object.fromEntries(told)))}
      >
        <Check size={15} aria-hidden="true" /> Read it with these names
      </Button>
    </section>
  )
}
