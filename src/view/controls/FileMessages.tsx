/** What is to be said about a file, where it was dropped; and the progress of one that takes long. */
import { say } from '../../base/index.ts'
import { Button } from './Button.tsx'
import { later } from './later.tsx'
import { ProgressBar } from './pieces.tsx'
import { useScreen } from '../stores/hooks.ts'
import styles from './files.module.css'

export { FaultRow } from './FaultRow.tsx'

const MessageAt = later(async () => (await import('./MessageAt.tsx')).MessageAt)

export const loadMessages = MessageAt.load

export function FileMessages() {
  const message = useScreen((screen) => screen.message)
  const busy = useScreen((screen) => screen.busy)
  return (
    <>
      {message !== undefined && <MessageAt message={message} />}
      {busy !== undefined && (
        <div className={styles.busy} role="status">
          <ProgressBar words={busy.words} share={busy.progress?.share} />
          <Button onClick={busy.cancel}>{say('Cancel')}</Button>
        </div>
      )}
    </>
  )
}
