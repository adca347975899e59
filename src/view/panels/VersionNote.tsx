/** Says that a newer Liftmap waits; it begins when the user says so. */
import { Sparkles } from 'lucide-react'
import { useStore } from 'zustand'
import { startNewVersion } from '../actions/newVersion.ts'
import { MESSAGE_CORNER } from '../actions/messages.ts'
import { Button } from '../controls/Button.tsx'
import { useDesk } from '../stores/hooks.ts'
import { NoteBar } from './NoteBar.tsx'
import styles from './noteBar.module.css'

const words = {
  ready: ['A new version is ready.', 'You work on with this one until you start it.'],
  'others-open': ['Liftmap is open in another tab.', 'Close it there, then start the new version.'],
  starting: ['The new version starts.', 'The case comes back as it is.'],
} as const

export function VersionNote() {
  const desk = useDesk()
  const stage = useStore(desk.version.store, (version) => version.stage)
  return (
    <div role="status" aria-label="New version" className={styles.ground}>
      {stage !== 'current' && (
        <NoteBar title={words[stage][0]} words={words[stage][1]} Icon={Sparkles} tone="news">
          {stage !== 'starting' && (
            <>
              <Button onClick={() => void startNewVersion(desk, MESSAGE_CORNER)}>Start it</Button>
              <Button onClick={desk.version.later}>Later</Button>
            </>
          )}
        </NoteBar>
      )}
    </div>
  )
}
