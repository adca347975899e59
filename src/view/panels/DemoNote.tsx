/** Says that the card on the sheet is invented, for as long as it is; offers to begin with one's own. */
import { say } from '../../base/index.ts'
import { FlaskConical, X } from 'lucide-react'
import { startOwnCase } from '../actions/open.ts'
import { Button } from '../controls/Button.tsx'
import { goToStop } from '../help/tour.ts'
import { useDesk, usePresent, useScreen } from '../stores/hooks.ts'
import styles from './demoNote.module.css'

export function DemoNote() {
  const desk = useDesk()
  const demo = usePresent()?.demo ?? false
  const open = useScreen((screen) => screen.demoNoteOpen)
  if (!demo || !open) return undefined
  return (
    <aside className={styles.note} aria-label={say('Demo')}>
      <FlaskConical size={17} aria-hidden="true" />
      <p>
        <b>{say('Demo card: invented.')}</b>{' '}
        {say(
          'Board, report and marks are made up, so that you can try things. Drag the blue point, read the lift list, drop a report of your own.',
        )}
      </p>
      <Button onClick={() => goToStop(desk, 0)}>{say('Show me round')}</Button>
      <Button onClick={() => void startOwnCase(desk)}>{say('Start my own case')}</Button>
      <Button
        size="icon"
        tone="quiet"
        aria-label={say('Close this note')}
        onClick={() => desk.screen.setState({ demoNoteOpen: false })}
      >
        <X size={16} aria-hidden="true" />
      </Button>
    </aside>
  )
}
