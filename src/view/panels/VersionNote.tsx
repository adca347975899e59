/** Says that a newer Liftmap waits; it begins when the user says so. */
import { say } from '../../base/index.ts'
import { Sparkles } from 'lucide-react'
import { useStore } from 'zustand'
import { startNewVersion } from '../actions/newVersion.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { NoteBar } from './NoteBar.tsx'
import styles from './noteBar.module.css'

const words = {
  ready: [say('A new version is ready.'), say('You work on with this one until you start it.')],
  'others-open': [say('Liftmap is open in another tab.'), say('Close it there, then start the new version.')],
  starting: [say('The new version starts.'), say('The case comes back as it is.')],
} as const

export function VersionNote() {
  const desk = useDesk()
  const stage = useStore(desk.version.store, (version) => version.stage)
  return (
    <div role="status" aria-label={say('New version')} className={styles.ground}>
      {stage !== 'current' && (
        <NoteBar title={words[stage][0]} words={words[stage][1]} Icon={Sparkles} tone="news">
          {stage !== 'starting' && (
            <>
              <Button onClick={() => void startNewVersion(desk, MESSAGE_CORNER)}>{say('Start it')}</Button>
              <Button onClick={desk.version.later}>{say('Later')}</Button>
            </>
          )}
        </NoteBar>
      )}
    </div>
  )
}
