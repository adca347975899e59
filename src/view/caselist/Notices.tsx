/** What was just done to a case, with a way back; each stays until it is closed. */
import { say } from '../../base/index.ts'
import { Undo2, X } from 'lucide-react'
import { closeNotice, undoNotice } from '../actions/caseList.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk, useScreen } from '../stores/hooks.ts'
import styles from './notices.module.css'

export function Notices() {
  const desk = useDesk()
  const notices = useScreen((screen) => screen.notices)
  return (
    <div className={styles.notices} role="status" aria-label={say('What was done')}>
      {notices.map(({ id, words, undo }) => (
        <div key={id} className={styles.notice}>
          <p>{words}</p>
          {undo !== undefined && (
            <Button onClick={() => void undoNotice(desk, id)}>
              <Undo2 size={15} aria-hidden="true" /> {say('Undo')}
              <span className="visually-hidden">: {words}</span>
            </Button>
          )}
          <Button
            size="icon"
            tone="quiet"
            aria-label={say('Close: {words}', { words })}
            onClick={() => closeNotice(desk, id)}
          >
            <X size={16} aria-hidden="true" />
          </Button>
        </div>
      ))}
    </div>
  )
}
