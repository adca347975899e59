/** The shields that are kept for the plan's passes; each can be taken off again. */
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
    <ul className={styles.done} aria-label="Shields in the plan">
      {shields.map((shield) => (
        <li key={`${shield.target} ${shield.ref}`}>
          <span>
            {shield.kind === 'tape' ? 'Tape over' : 'Heat sink on'} {shield.ref} while {shield.target} is heated
          </span>
          <Button
            size="icon"
            tone="quiet"
            aria-label={`Take the shield off ${shield.ref}`}
            onClick={() => dropShield(desk, shield)}
          >
            <X size={15} aria-hidden="true" />
          </Button>
        </li>
      ))}
    </ul>
  )
}
