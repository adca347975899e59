/** Checks that were done, with their outcome; each can be taken back. */
import { Check, Search } from 'lucide-react'
import { checkById, checkWords } from '../../../suspects/index.ts'
import { takeBackAnswer } from './nextChecks.ts'
import { Button } from '../../controls/Button.tsx'
import { useDesk, usePresent } from '../../stores/hooks.ts'
import styles from './nextChecks.module.css'

export function DoneChecks() {
  const desk = useDesk()
  const checks = usePresent()?.checks ?? []
  if (checks.length === 0) return undefined
  return (
    <ul className={styles.done} aria-label="Checks that were done">
      {checks.map((answer) => {
        const { check, at, found } = answer
        const entry = checkById(check)
        const outcome = entry === undefined ? `${check} at ${at}` : checkWords(found ? entry.found : entry.notFound, at)
        const Mark = found ? Search : Check
        return (
          <li key={`${check} ${at}`}>
            <Mark size={15} aria-label={found ? 'found' : 'nothing found'} role="img" />
            <span>{outcome}</span>
            <Button tone="quiet" aria-label={`Take back: ${outcome}`} onClick={() => takeBackAnswer(desk, answer)}>
              Take back
            </Button>
          </li>
        )
      })}
    </ul>
  )
}
