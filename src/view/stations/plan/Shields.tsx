/** The shields that are kept for the plan's passes; each can be taken off again. */
import { say } from '../../../base/index.ts'
import { X } from 'lucide-react'
import { dropShield } from './whatIf.ts'
import { Button } from '../../controls/Button.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import styles from './plan.module.css'

export function Shields() {
  const desk = useDesk()
  const shields = usePresent()?.shields ?? []
  if (shields.length === 0) return undefined
  return (
    <ul className={styles.done} aria-label={say('Shields in the plan')}>
      {shields.map((shield) => (
        <li key={`${shield.target} ${shield.ref}`}>
          <span>
            {say('{value} {ref} while {target} is heated', {
              value: shield.kind === 'tape' ? say('Tape over') : say('Heat sink on'),
              ref: shield.ref,
              target: shield.target,
            })}
          </span>
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Take the shield off {ref}', { ref: shield.ref })}
            onClick={() => dropShield(desk, shield)}
          >
            <X size={15} aria-hidden="true" />
          </Button>
        </li>
      ))}
    </ul>
  )
}
