/** Checks that were done, with their outcome; each can be taken back. */
import { say } from '../../../base/index.ts'
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
    <ul className={styles.done} aria-label={say('Checks that were done')}>
      {checks.map((answer) => {
        const { check, at, found } = answer
        const entry = checkById(check)
        const outcome =
          entry === undefined
            ? say('{check} at {at}', { check, at })
            : checkWords(found ? entry.found : entry.notFound, at)
        const Mark = found ? Search : Check
        return (
          <li key={`${check} ${at}`}>
            <Mark size={15} aria-label={found ? say('found') : say('nothing found')} role="img" />
            <span>{outcome}</span>
            <Button
              tone="quiet"
              aria-label={say('Take back: {outcome}', { outcome })}
              onClick={() => takeBackAnswer(desk, answer)}
            >
              {say('Take back')}
            </Button>
          </li>
        )
      })}
    </ul>
  )
}
