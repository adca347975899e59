/** Each display output with what it shows. */
import { say } from '../../../base/index.ts'
import { X } from 'lucide-react'
import type { BenchPhase, Look } from '../../../case/index.ts'
import { Button } from '../../controls/Button.tsx'
import { SelectField } from '../../controls/fields.tsx'
import { useDesk } from '../../stores/hooks.ts'
import { AddRow } from './AddRow.tsx'
import own from './benchMachine.module.css'
import { editLook } from './edit.ts'

const pictures = [
  { value: 'unknown', words: say('not tried') },
  { value: 'yes', words: say('picture') },
  { value: 'disturbed', words: say('disturbed') },
  { value: 'no', words: say('none') },
] as const

export function OutputRows({ look, phase }: { readonly look: Look; readonly phase: BenchPhase }) {
  const desk = useDesk()
  const edit = (change: (outputs: Look['outputs']) => Look['outputs']): void =>
    editLook(desk, phase, (now) => ({ ...now, outputs: change(now.outputs) }))
  const add = (name: string): void =>
    edit((outputs) =>
      [...outputs.filter((each) => each.name !== name), { name, picture: 'unknown' as const }].slice(-16),
    )
  return (
    <>
      {look.outputs.length > 0 && (
        <ul className={own.rows} aria-label={say('Display outputs')}>
          {look.outputs.map(({ name, picture }) => (
            <li key={name} className={own.row}>
              <b>{name}</b>
              <SelectField
                label={say('Picture at {name}', { name })}
                labelHidden
                value={picture}
                options={pictures}
                onChange={(shown) =>
                  edit((outputs) => outputs.map((each) => (each.name === name ? { ...each, picture: shown } : each)))
                }
              />
              <Button
                tone="quiet"
                size="icon"
                aria-label={say('Remove {name}', { name })}
                onClick={() => edit((outputs) => outputs.filter((each) => each.name !== name))}
              >
                <X size={15} aria-hidden="true" />
              </Button>
            </li>
          ))}
        </ul>
      )}
      <AddRow label={say('Add output')} placeholder="DP 1" onAdd={add} />
    </>
  )
}
